"""Marks for what moved: say only what matters."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from hypothesis import strategies as st

from starting.moves import Mark, Marks, Move

ON = date(2026, 11, 25)
ANSWERS = ("good", "watch", "no", "not_known")
STATES = ("ahead", "established", "left_out")


def day(after: int) -> date:
    return ON + timedelta(days=after)


def step(key: str = "bridle", after: int | None = 10, **fields: Any) -> Mark:
    fields.setdefault("state", "ahead")
    fields.setdefault("name", key.replace("_", " ").capitalize())
    on = None if after is None else day(after)
    return Mark(subject=key, day=on, **fields)


def item(name: str = "Small eggbutt", after: int | None = 90, **fields: Any) -> Mark:
    fields.setdefault("state", "good")
    on = None if after is None else day(after)
    return Mark(subject=name, name=name, day=on, **fields)


def marks(*of: Mark, on: date = ON) -> Marks:
    items = tuple(mark for mark in of if mark.state in ANSWERS)
    return Marks(
        on=on, steps=tuple(mark for mark in of if mark not in items), items=items
    )


def whats(found: tuple[Move, ...]) -> dict[str, str]:
    return {one.mark.subject: one.what for one in found}


def _step(key: str, state: str, after: int | None) -> Mark:
    return step(key, after if state == "ahead" else None, state=state)


def _item(name: str, state: str, after: int | None) -> Mark:
    return item(name, after if state == "good" else None, state=state)


FAR = st.one_of(st.none(), st.integers(1, 60))
STEPS = st.builds(_step, st.sampled_from("abcdef"), st.sampled_from(STATES), FAR)
ITEMS = st.builds(_item, st.sampled_from("stuvw"), st.sampled_from(ANSWERS), FAR)


@st.composite
def any_marks(draw: st.DrawFn) -> Marks:
    """Draw the marks of a horse, each subject once."""
    found = draw(st.lists(st.one_of(STEPS, ITEMS), unique_by=lambda m: m.subject))
    return marks(*found, on=day(draw(st.integers(-5, 0))))
