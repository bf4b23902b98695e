"""A machine of a keeper's own: it syncs a link served here into a folder of files."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from typing import ClassVar, Final

from django.urls import reverse

from fitting.models import Horse
from starting.models import CalendarKey, CareVisit
from starting.writes import replan, today_in
from starting.writes.links import make_link
from tests.make import make_horse, make_yard

PROGRAMS: Final = Path(sys.executable).parent
CLOCK: Final = "Pacific/Pago_Pago"  # far from the yard's: a day is a day there too
SYNCING: Final = """
[general]
status_path = "{folder}/status"
[pair yard]
a = "here"
b = "there"
collections = null
[storage here]
type = "filesystem"
path = "{folder}/kept"
fileext = ".ics"
[storage there]
type = "http"
url = "{address}"
"""


@dataclass(frozen=True)
class Subscriber:
    """A program that fetches the file into a folder, for another one to show.

    ``told``: what the one that shows it is told, its ``folder`` to be filled in.
    """

    folder: Path
    told: ClassVar[str] = ""

    @property
    def showing(self) -> Path:
        return self.folder / "showing.py"

    def sync(self) -> str:
        """Fetch the file; return what changed here, in the program's words."""
        said = self.run("vdirsyncer", "-c", str(self.folder / "syncing"), "sync")
        return "\n".join(line for line in said.splitlines() if "Syncing" not in line)

    def subscribe(self, address: str) -> None:
        (self.folder / "kept").mkdir()
        told = SYNCING.format(folder=self.folder, address=address)
        (self.folder / "syncing").write_text(told, encoding="utf-8")
        shown_by = self.told.format(folder=self.folder)
        self.showing.write_text(shown_by, encoding="utf-8")
        self.run("vdirsyncer", "-c", str(self.folder / "syncing"), "discover")
        self.sync()

    def kept(self) -> dict[str, int]:
        """Return the files kept here, and when each was written."""
        files = (self.folder / "kept").glob("*.ics")
        return {file.name: file.stat().st_mtime_ns for file in files}

    def run(self, program: str, *arguments: str) -> str:
        own = {"HOME": str(self.folder), "LC_ALL": "C.UTF-8", "TZ": CLOCK}
        done = subprocess.run(
            [PROGRAMS / program, *arguments],
            env={"PATH": os.environ["PATH"], "NO_PROXY": "*", **own},
            capture_output=True,
            text=True,
            timeout=600,  # only ever waited out by one that hangs
            check=False,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout + done.stderr


@dataclass(frozen=True)
class Link:
    """A yard's calendar link, and what stands behind it."""

    horse: Horse
    key: CalendarKey
    address: str

    def visit(self, kind: str, in_days: int) -> None:
        """Name the day of the horse's next visit of a kind."""
        today = today_in(self.horse.yard)
        CareVisit.objects.update_or_create(
            horse=self.horse,
            kind=kind,
            on=today - timedelta(days=30),
            defaults={"next_due": today + timedelta(days=in_days)},
        )

    def plan(self) -> None:
        replan(self.horse.yard, today_in(self.horse.yard))


def make_subscribed(url: str, *, as_tasks: bool) -> Link:
    """Make a yard with three visits to come, and a link to its calendar."""
    horse = make_horse(make_yard(name="Low Fold; é"), name="Tansy", plan=False)
    options = {"alarm": "day", "as_tasks": as_tasks}
    key, secret = make_link(horse.yard, label="Phone", options=options)
    address = url + reverse("calendar", args=[secret])
    link = Link(horse=horse, key=key, address=address)
    for kind, in_days in (("vet", 40), ("vaccination", 12), ("worming", 20)):
        link.visit(kind, in_days)
    link.plan()
    return link
