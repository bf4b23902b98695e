"""When each kind of visit is due again, named by somebody or in general."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from starting.care.values import Told, Visit, Whose, say_date
from starting.outlook.care_due import last_of, named_next, next_care

# Of these somebody has to name the next day: no date of ours stands in its place.
NAMED_ONLY: Final = {
    "vaccination": "No next day is written down: ask your vet.",
    "worming": "No next day is written down: ask your vet.",
}


def again_told(
    told: Told, kind: str, visits: Sequence[Visit], whose: Whose, on: date
) -> Told:
    """Return what is told of a kind of visit, with the day it is due again."""
    done = [visit.done for visit in visits]
    last = last_of(done, kind, on)
    named = named_next(done, kind, on)
    if named is not None:
        return _with_day(told, "Next, as named, on", named, on)
    if last is not None and kind in NAMED_ONLY:
        return replace(told, text=f"{told.text} {NAMED_ONLY[kind]}")
    if whose.grown or whose.foaled is None or (last is not None and not last.clear):
        return told
    general = (due for due in next_care(done, whose.foaled, on) if due.kind == kind)
    due = next(general, None)
    return _with_day(told, "In general due again by", due.due_by, on) if due else told


def _with_day(told: Told, words: str, day: date, on: date) -> Told:
    text = f"{told.text} {words} {say_date(day)}."
    if day >= on or told.tone:
        return replace(told, text=text)
    return replace(told, text=text, tone="caution", word="overdue")
