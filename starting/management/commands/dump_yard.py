"""Write a yard as its file."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from starting.management.plain import PlainCommand, one_yard
from starting.yardfile import dump_yard


class Command(PlainCommand):
    """Write one yard: to a file, or to standard output."""

    help = (
        "Write a yard as its file. Not in it: users, passwords, calendar keys, photos."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Say what may be asked for."""
        parser.add_argument("yard", metavar="YARD")
        parser.add_argument("file", metavar="FILE", nargs="?")

    def handle(self, *args: Any, **options: Any) -> None:
        """Write the bytes."""
        self.out(dump_yard(one_yard(options["yard"])), options["file"])
