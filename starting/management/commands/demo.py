"""Load the demo yard as of today, say what it says, and serve the site."""

from __future__ import annotations

import hashlib
import hmac
import os
import sys
from argparse import ArgumentParser
from datetime import date
from typing import Any, Final

from django.conf import settings
from django.contrib.auth.models import User
from django.core.management import call_command
from django.core.management.base import BaseCommand

from fitting.age import say_age
from fitting.models import Membership, Yard
from starting.models import CalendarKey
from starting.outlook import Outlook, Suggestion
from starting.reads.outlook import outlooks
from starting.writes import ensure_planned, today_in
from starting.writes.links import address_of, key_hash, make_link

YARD_FILE: Final = settings.BASE_DIR / "fixtures_demo" / "yard.json"
DATABASE: Final = settings.DATA_DIR / "demo.sqlite3"
PEOPLE: Final = (("jo", Membership.Role.KEEPER), ("sam", Membership.Role.HELPER))
PASSWORD: Final = "over-the-gate"  # noqa: S105 - the demo listens to this machine only
MARK: Final = "LONGREIN_DEMO"
NEXT_DATES: Final = 3


class Command(BaseCommand):
    """Show the whole job on an invented yard, on a database of its own."""

    help = "Load the demo yard as of today, print its summary, serve the site."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Say what may be asked for."""
        parser.add_argument("--no-serve", action="store_true", help="print, then end")
        parser.add_argument("--port", type=int, default=8000)

    def handle(self, *args: Any, **options: Any) -> None:
        """Work on the demo's own database: start again there, if not there yet."""
        address = f"http://127.0.0.1:{options['port']}"
        if os.environ.get(MARK) != address:
            self._start_again(address)
        call_command("migrate", verbosity=0)
        yard = self._yard()
        self._people(yard)
        self.stdout.write(self._summary(yard))
        self.stdout.write(f"Calendar link:  {self._link(yard)}")
        self.stdout.write(f"Site:           {address}{yard.get_absolute_url()}")
        names = " or ".join(name for name, _ in PEOPLE)
        self.stdout.write(f"Sign in:        {names}, password {PASSWORD}")
        self.stdout.flush()
        if not options["no_serve"]:
            os.execv(sys.executable, serving(options["port"]))  # noqa: S606 - our own

    def _start_again(self, address: str) -> None:
        os.environ.update(
            {
                MARK: address,
                "DATABASE_URL": f"sqlite:///{DATABASE}",
                "SITE_URL": address,
                "DEBUG": "off",
                "STATIC_FROM_PACKAGES": "on",
            }
        )
        os.execv(sys.executable, [sys.executable, *sys.argv])  # noqa: S606

    def _yard(self) -> Yard:
        call_command("load_yard", str(YARD_FILE), replace=True, verbosity=0)
        yard = Yard.objects.get(name="Withy Bank")
        ensure_planned(yard)
        return yard

    def _people(self, yard: Yard) -> None:
        for name, role in PEOPLE:
            user, made = User.objects.get_or_create(username=name)
            if made or not user.check_password(PASSWORD):
                user.set_password(PASSWORD)
                user.save()
            Membership.objects.update_or_create(
                yard=yard, user=user, defaults={"role": role}
            )

    def _link(self, yard: Yard) -> str:
        """Return the demo's own link: the same at every run."""
        secret = hmac.new(
            settings.SECRET_KEY.encode(), b"the demo's calendar link", hashlib.sha256
        ).hexdigest()
        if not CalendarKey.objects.filter(key_hash=key_hash(secret)).exists():
            make_link(yard, label="Demo", options={}, secret=secret)
        return address_of(secret)

    def _summary(self, yard: Yard) -> str:
        horses = {horse.key: horse for horse in yard.horses.filter(grown=False)}
        today = today_in(yard)
        seen = outlooks(yard)
        parts = [
            _youngster(seen[key], say_age(horse.foaled_days, today), today)
            for key, horse in horses.items()
            if key in seen
        ]
        return "\n".join([f"{yard.name}, {today.day} {today:%B %Y}", "", *parts])


def serving(port: int) -> list[str]:
    """Return the command that serves the site; it logs no address: some are secret."""
    return [
        sys.executable, "-m", "granian", "--interface", "wsgi",
        "--host", "127.0.0.1", "--port", str(port), "--workers", "2",
        "--blocking-threads", "1", "--no-log", "starting.wsgi:application",
    ]  # fmt: skip


def _youngster(outlook: Outlook, age: str, today: date) -> str:
    now = [f"  can do now:     {s.name}. {_when(s)}{s.why}" for s in outlook.can_do_now]
    dates = [e for e in outlook.entries if e.on >= today][:NEXT_DATES]
    lines = [
        f"{outlook.horse}, {age}",
        *(now or ["  can do now:     nothing today."]),
        f"  in the way:     {outlook.why_not_more or 'nothing.'}",
        *(f"  {e.on.day:>2} {e.on:%b %Y}:    {e.title}" for e in dates),
        "",
    ]
    return "\n".join(lines)


def _when(suggestion: Suggestion) -> str:
    day = suggestion.next_on
    return f"Not today: next on {day:%a} {day.day} {day:%b}. " if day else ""
