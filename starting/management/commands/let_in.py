"""Make somebody an account: the way in for the first one."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError
from django.core.validators import validate_email

from starting.writes.members import make_account


class Command(BaseCommand):
    """Make an account and print its first password, once."""

    help = "Make an account to sign in with and print its first password, once."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Say what may be asked for."""
        parser.add_argument("name", help="the name to sign in with")
        parser.add_argument(
            "--email", default="", help="where a forgotten password is set anew"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        """Make the account, or say why not."""
        name, email = options["name"], options["email"]
        try:
            User.username_validator(name)
            if email:
                validate_email(email)
        except ValidationError as error:
            raise CommandError(" ".join(error.messages)) from error
        if User.objects.filter(username__iexact=name).exists():
            raise CommandError(
                f"{name} has an account already; manage.py changepassword sets"
                " its password anew."
            )
        _, password = make_account(name, email)
        self.stdout.write(f"Sign in as:     {name}")
        self.stdout.write(f"First password: {password}")
        self.stdout.write("It is shown this once. Change it after signing in.")
