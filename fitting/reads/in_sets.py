"""Where the parts of a yard's tack are used now, and by whom."""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from typing import Any

from fitting.fit import MadeUp, Tack
from fitting.models import Yard
from fitting.reads.facts import tryons_by_horse
from fitting.signals import yard_tryons_asked
from fitting.tryons import TryOn
from fitting.worn_now import Use, last_worn_by, uses_of

Uses = dict[tuple[str, str], tuple[Use, ...]]


def uses_in(
    yard: Yard, tack: tuple[Tack, ...], made_up: tuple[MadeUp, ...], today: date
) -> Uses:
    """Return by (item, part) which sets use it and which horse wears it (6 queries).

    Horses, try-ons with their parts, and what others tell of tack that was worn.
    """
    names = dict(yard.horses.values_list("pk", "name"))
    told: list[tuple[Any, Any]] = yard_tryons_asked.send(Yard, yard=yard)
    found: defaultdict[str, list[TryOn]] = defaultdict(list)
    for by_horse in (tryons_by_horse(yard), *(others for _, others in told)):
        for pk, tryons in by_horse.items():
            found[names[pk]] += tryons
    return uses_of(tack, made_up, last_worn_by(found, today))


def use_words(uses: tuple[Use, ...], horse: str = "", but: str = "") -> str:
    """Return who wears a part now, and in which sets it is, in short sentences.

    ``horse`` is not told of itself, nor the set ``but`` that is being looked at.
    """
    said = []
    for use in uses:
        if use.made_up == but and but:
            continue
        worn = f"{use.horse} wore it {use.on:%-d %b}" if use.on else ""
        if use.horse == horse:
            worn = ""
        part = f"In {use.made_up}" if use.made_up else ""
        words = ": ".join(filter(None, (part, worn)))
        if words:
            said.append(f"{words}.")
    return " ".join(dict.fromkeys(said))
