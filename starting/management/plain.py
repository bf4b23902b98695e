"""What the yard's commands share: one clear line when something is wrong."""

from __future__ import annotations

import sys
from argparse import ArgumentTypeError
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import DatabaseError

from fitting.models import Yard
from starting.outlook import Outlook, look_at_yard
from starting.reads.facts import yard_facts


class Error(CommandError):
    """What is wrong, in one line; the command ends with 1."""


class PlainCommand(BaseCommand):
    """A command that never shows a traceback for what somebody else can mend."""

    requires_system_checks = ()  # they are about pages; these commands read rows

    def create_parser(
        self, prog_name: str, subcommand: str, **kwargs: Any
    ) -> CommandParser:
        """Return the parser; what it cannot read becomes an error like any other."""
        parser = super().create_parser(prog_name, subcommand, **kwargs)
        parser.called_from_command_line = False
        return parser

    def run_from_argv(self, argv: list[str]) -> None:
        """Run the command; arguments it cannot read end it with 1."""
        try:
            super().run_from_argv(argv)
        except CommandError as error:
            self.stderr.write(str(error))
            sys.exit(error.returncode)

    def execute(self, *args: Any, **options: Any) -> str | None:
        """Run the command; say what is wrong with files and the database."""
        try:
            return super().execute(*args, **options)
        except DatabaseError as error:
            said = " ".join(str(error).split())
            raise Error(
                f"The database: {said}. Is `manage.py migrate` done?"
            ) from error
        except OSError as error:
            raise Error(f"{error.filename}: {error.strerror}.") from error

    def out(self, body: bytes, path: str | None) -> None:
        """Write bytes to a file, or as they are to standard output."""
        if path:
            Path(path).write_bytes(body)
            return
        self.stdout.flush()
        raw = getattr(self.stdout, "buffer", None)
        if raw is None:
            self.stdout.write(body.decode(), ending="")
        else:
            raw.write(body)
            raw.flush()


def day(text: str) -> date:
    """Return the day of ``--on``.

    Raises:
        ArgumentTypeError: it is no ISO day.
    """
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        said = f"{text!r} is no day; write it 2026-04-19"
        raise ArgumentTypeError(said) from error


def one_yard(name: str) -> Yard:
    """Return the yard of that name, or with that address.

    Raises:
        Error: there is none.
    """
    yard = (
        Yard.objects.filter(name=name).first() or Yard.objects.filter(slug=name).first()
    )
    if yard is None:
        names = said(Yard.objects.values_list("name", flat=True))
        raise Error(f"There is no yard called {name!r}; there is: {names}.")
    return yard


def said(names: Iterable[str]) -> str:
    """Return names in one line; in words where there are none."""
    return ", ".join(names) or "none yet"


def looks(yard: Yard, on: date) -> tuple[Outlook, ...]:
    """Return the outlooks of a yard as they are computed for a day; nothing is kept."""
    return look_at_yard(yard_facts(yard), on)
