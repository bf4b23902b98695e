"""What the months of one youngster are made from: say only what matters."""

from __future__ import annotations

from datetime import date
from typing import Any

from fitting.age import read_foaled
from starting.months import Ahead, EntrySeen, StepSeen

ON = date(2026, 11, 25)
FOALED = read_foaled("2024-04-19")


def step(key: str = "bridle", **fields: Any) -> StepSeen:
    fields.setdefault("name", key.replace("_", " ").capitalize())
    fields.setdefault("kind", "sessions")
    fields.setdefault("state", "waiting")
    for day in ("start", "finish", "finish_early", "finish_late"):
        fields.setdefault(day, None)
    fields.setdefault("because", "")
    return StepSeen(stage=key, **fields)


def drawn(key: str, start: date, finish: date, late: date, **fields: Any) -> StepSeen:
    fields.setdefault("finish_early", finish)
    return step(key, start=start, finish=finish, finish_late=late, **fields)


def entry(on: date, kind: str, title: str) -> EntrySeen:
    return EntrySeen(on=on, kind=kind, title=title)


def ahead(*steps: StepSeen, entries: tuple[EntrySeen, ...] = ()) -> Ahead:
    return Ahead(horse="Wren", key="wren", on=ON, stages=steps, entries=entries)
