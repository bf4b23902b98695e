"""A small feed: its head, its entries, and a yard of them."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

from starting.diary import Entry, Step, Task, entry_uid, stage_starts_entry
from starting.feed import KIND_WORDS, FeedHead, FeedOptions, Revised, revise

NOW = datetime(2025, 12, 1, 6, 30, tzinfo=UTC)
HEAD = FeedHead(
    name="Long Meadow; diary, ½",
    description="The site is always right.",
    site_url="https://yard.example/",
)
ASTRIDE = Step(key="astride", name="Astride, standing", work="mounted", people=2)
PLAIN = FeedOptions()


def uid_of(key: str) -> str:
    return entry_uid("Long Meadow", key, "yard.example")


def make_entry(**only_what_matters: object) -> Entry:
    task = Task(
        horse="Pennyroyal",
        horse_key="pennyroyal",
        on=date(2025, 12, 31),
        because="Gannet's saddle is free; so Pennyroyal's turn is now, at 36 months.",
        path="/horses/pennyroyal/",
        after=("pennyroyal/care/teeth",),
        others=("Gannet",),
    )
    return replace(stage_starts_entry(task, ASTRIDE), **only_what_matters)  # type: ignore[arg-type]


def publish(*entries: Entry) -> tuple[Revised, ...]:
    return revise((), entries, uid_of=uid_of, now=NOW)


def a_yard() -> tuple[Revised, ...]:
    days = [date(2025, 12, 31), date(2026, 2, 28), date(2028, 2, 29)]
    entries = [
        make_entry(key=f"{horse}/{kind}/x", kind=kind, on=on, forecast=on.year > 2025)
        for horse in ("pennyroyal", "gannet")
        for kind in KIND_WORDS
        for on in days[: 1 + (horse == "gannet")][-1:]
    ]
    return tuple(
        replace(revised, sequence=n) for n, revised in enumerate(publish(*entries))
    )
