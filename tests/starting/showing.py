"""Two programs that show what was fetched: a calendar, and a list of tasks."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import date, datetime, timedelta
from typing import Final, NamedTuple
from zoneinfo import ZoneInfo

from django.utils import timezone

from tests.starting.subscribing import CLOCK, Subscriber

CALENDAR: Final = """
[calendars]
[[yard]]
path = {folder}/kept
readonly = True
[locale]
local_timezone = Europe/London
default_timezone = Europe/London
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
[sqlite]
path = {folder}/shown.db
"""
TASKS: Final = """
path = "{folder}/kept"
date_format = "%Y-%m-%d"
time_format = "%H:%M"
cache_path = "{folder}/shown.db"
"""


class ShownEntry(NamedTuple):
    """An entry as it is shown: its first and its last day."""

    on: date
    until: date
    status: str


def _entry(row: Mapping[str, str]) -> ShownEntry:
    first, last = (date.fromisoformat(row[f"{end}-date"]) for end in ("start", "end"))
    return ShownEntry(on=first, until=last, status=row["status"].strip())


class Calendar(Subscriber):
    """A calendar program on the machine that subscribes."""

    told = CALENDAR

    def shown(self) -> dict[str, ShownEntry]:
        """Return the entries as they are shown, by title."""
        fields = ("title", "start-date", "end-date", "status")
        asked = [word for field in fields for word in ("--json", field)]
        since = (timezone.now().date() - timedelta(days=30)).isoformat()
        config = str(self.showing)
        said = self.run("khal", "-c", config, "list", *asked, since, "800d")
        rows = [row for line in said.splitlines() for row in json.loads(line)]
        entries = {row["title"]: _entry(row) for row in rows}
        assert len(entries) == len(rows), "an entry is shown on more than one day"
        return entries


class ShownTask(NamedTuple):
    """A task as it is shown."""

    on: date
    text: str
    kinds: tuple[str, ...]
    done: bool


class TaskList(Subscriber):
    """A program for tasks on the machine that subscribes."""

    told = TASKS

    def shown(self) -> dict[str, ShownTask]:
        """Return the tasks as they are shown, by title."""
        config = str(self.showing)
        said = self.run("todo", "-c", config, "--porcelain", "list", "--status", "ANY")
        rows = json.loads(said)
        tasks = {
            row["summary"]: ShownTask(
                on=datetime.fromtimestamp(row["due"], ZoneInfo(CLOCK)).date(),
                text=row["description"],
                kinds=tuple(row["categories"]),
                done=row["completed"],
            )
            for row in rows
        }
        assert len(tasks) == len(rows), "two tasks of one title"
        return tasks

    def printed(self) -> str:
        """Return the list as a person sees it."""
        return self.run("todo", "-c", str(self.showing), "list")
