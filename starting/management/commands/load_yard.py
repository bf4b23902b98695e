"""Make a yard from its file."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.utils import timezone

from starting.management.plain import Error, PlainCommand, day
from starting.yardfile import YardFileError, YardThereError, load_yard


class Command(PlainCommand):
    """Load one yard: all of it, or nothing."""

    help = "Make a yard from its file. A file that is wrong changes nothing."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Say what may be asked for."""
        parser.add_argument("file", metavar="FILE")
        parser.add_argument(
            "--replace",
            action="store_true",
            help="write over a yard of that name; members, calendar links and photos"
            " stay",
        )
        parser.add_argument(
            "--on",
            type=day,
            metavar="DATE",
            help="the day from which days like -400d are told (default: today)",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        """Read the file, load it, and say what is there now."""
        body = Path(options["file"]).read_bytes()
        on = options["on"] or timezone.localdate()
        try:
            yard = load_yard(body, on, replace=options["replace"])
        except YardThereError as error:
            raise Error(f"{error} --replace writes over it.") from error
        except YardFileError as error:
            raise Error(f"{options['file']}: {error}") from error
        if options["verbosity"]:
            horses, tack = yard.horses.count(), yard.tack.count()
            self.stdout.write(f"{yard.name}: horses {horses}, tack {tack}.")
