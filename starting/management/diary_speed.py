"""How long publishing takes: a diary of many entries, one of which moves."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import cycle
from typing import Final

from django.db import transaction

from fitting.models import Yard
from starting.diary import Entry, Task, stage_starts_entry
from starting.feed import FeedHead, FeedOptions, render_all, revise
from starting.outlook.entries import step_of
from starting.programme import shipped
from starting.writes.links import make_link
from starting.writes.publish import publish

FEED: Final = 300
RENDERED: Final = (250, 1000)
HEAD: Final = FeedHead(name="Yard", description="", site_url="https://yard.example")


def diary_of(on: date, how_many: int) -> list[Entry]:
    """Return so many planned starts as a calendar file has them, a day or two apart."""
    steps = [step_of(stage) for stage in shipped().stages]
    task = Task(
        horse="Tansy",
        horse_key="tansy",
        on=on,
        because="The first day with the helper from 12 Jan 2027 is Saturday.",
        path="/yard/horses/tansy/steps/roller/",
        forecast=True,
        after=("tansy/care/teeth-2",),
    )
    return [
        stage_starts_entry(
            replace(task, on=on + timedelta(days=number + 30)),
            replace(step, key=f"{step.key}-{number}"),
        )
        for number, step in zip(range(how_many), cycle(steps))
    ]


def first_render(on: date, how_many: int) -> None:
    """Render a calendar file of which nothing is kept."""
    now = datetime(on.year, on.month, on.day, tzinfo=UTC)
    entries = revise((), diary_of(on, how_many), uid_of=str, now=now)
    render_all(HEAD, entries, FeedOptions())


def one_moves(on: date) -> Callable[[], None]:
    """Return a publishing of a diary with one link, one entry of which moves."""
    yard = Yard.objects.create(name="Long diary", slug="long-diary", planned_on=on)
    diary = diary_of(on, FEED)
    publish(yard, diary, on)
    make_link(yard, label="Benchmark", options={})
    days = cycle([diary[0].on + timedelta(days=9), diary[0].on])

    def move() -> None:
        diary[0] = replace(diary[0], on=next(days))
        with transaction.atomic():
            publish(yard, diary, on)

    return move
