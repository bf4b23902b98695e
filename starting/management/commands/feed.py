"""Write a yard's calendar as a file."""

from __future__ import annotations

from argparse import ArgumentParser
from datetime import UTC, date, datetime, time
from typing import Any

from fitting.models import Yard
from starting.feed import FeedOptions, Revised
from starting.management.plain import PlainCommand, day, looks, one_yard
from starting.writes import ensure_planned
from starting.writes.calendar_files import calendar_body
from starting.writes.publish import next_diary, published, retired_of


class Command(PlainCommand):
    """Write the diary as iCalendar: to a file, or to standard output."""

    help = "Write a yard's calendar as a file: as it is published, or for another day."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Say what may be asked for."""
        parser.add_argument("yard", metavar="YARD")
        parser.add_argument(
            "--on",
            type=day,
            metavar="DATE",
            help="as it would be published on that day; nothing is kept",
        )
        parser.add_argument("--out", metavar="FILE")

    def handle(self, *args: Any, **options: Any) -> None:
        """Write the bytes."""
        yard = one_yard(options["yard"])
        if options["on"]:
            entries = diary_on(yard, options["on"])
        else:
            ensure_planned(yard)
            entries = published(yard)
        self.out(calendar_body(yard, entries, FeedOptions()), options["out"])


def diary_on(yard: Yard, on: date) -> list[Revised]:
    """Return the diary as it would be published on a day, counted on from today's."""
    wanted = [entry for outlook in looks(yard, on) for entry in outlook.entries]
    before, now = published(yard), datetime.combine(on, time.min, UTC)
    return next_diary(yard, before, retired_of(yard, before, wanted), wanted, on, now)
