"""Say everything that is computed for a horse on a day."""

from __future__ import annotations

import json
from argparse import ArgumentParser
from functools import partial
from typing import Any

from fitting.models import Horse
from fitting.reads.units import units_of
from starting.management.plain import Error, PlainCommand, day, looks, one_yard, said
from starting.outlook.contract import contract_of
from starting.outlook.saying import say_outlook
from starting.writes import today_in
from starting.writes.publish import uid_at


class Command(PlainCommand):
    """Compute one horse's outlook and print it."""

    help = "Say everything that is computed for a horse on a day."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Say what may be asked for."""
        parser.add_argument("horse", metavar="HORSE")
        parser.add_argument("--yard", metavar="NAME", help="where several have it")
        parser.add_argument("--on", type=day, metavar="DATE", help="default: today")
        parser.add_argument("--json", action="store_true", help="for other programs")

    def handle(self, *args: Any, **options: Any) -> None:
        """Compute and print."""
        horse = one_horse(options["horse"], options["yard"])
        yard = horse.yard
        on = options["on"] or today_in(yard)
        outlook = next(o for o in looks(yard, on) if o.key == horse.key)
        if not options["json"]:
            self.stdout.write(say_outlook(outlook, units_of(yard)))
            return
        built = contract_of(outlook, partial(uid_at, yard))
        self.stdout.write(json.dumps(built, ensure_ascii=False, indent=2))


def one_horse(name: str, yard_name: str | None) -> Horse:
    """Return the horse of that name, in that yard if one is named.

    Raises:
        Error: there is none, or there are several.
    """
    rows = Horse.objects.select_related("yard")
    if yard_name is not None:
        rows = rows.filter(yard=one_yard(yard_name))
    found = list(rows.filter(name=name) or rows.filter(key=name))
    if not found:
        names = said(rows.values_list("name", flat=True))
        raise Error(f"There is no horse called {name!r}; there is: {names}.")
    if len(found) > 1:
        yards = said(horse.yard.name for horse in found)
        raise Error(f"Several yards have a {name!r}: say --yard, one of {yards}.")
    return found[0]
