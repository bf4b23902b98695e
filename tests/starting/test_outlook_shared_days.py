"""Errands of an outlook put on one day, and kept off the day of a vaccination."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from fitting.age import read_foaled
from starting.gates import CareDone
from starting.outlook import Outlook, look_at_yard
from starting.outlook.shared import booked_days, errands_of
from starting.outlook.to_dos import AHEAD_DAYS, ToDo
from tests.starting.making_outlook import (
    TODAY,
    bitted_soon,
    entries,
    horse_facts,
    measured,
    teeth,
    yard_facts,
)


def test_visits_and_try_ons_share_the_measuring_days() -> None:
    found = entries(bitted_soon(teeth(160)), TODAY - timedelta(days=60))
    apart = {
        one.on
        for one in found.values()
        if one.kind in {"measure", "try_on", "care"} and "tooth_change" not in one.key
    }
    visit = found["care/teeth-2"]
    shares = [e for e in found.values() if e.on == visit.on and e.kind != "care"]
    assert {"measure"} <= {entry.kind for entry in shares}
    assert len(apart) < sum(
        one.kind in {"measure", "try_on", "care"} for one in found.values()
    )


def test_measuring_days_too_far_ahead_are_not_in_the_diary() -> None:
    foal = horse_facts(
        foaled=read_foaled((TODAY - timedelta(days=100)).isoformat()),
        measured=(measured("cannon_round", TODAY, 150, "tape"),),
    )
    (outlook,) = look_at_yard(yard_facts(foal), TODAY)
    last = TODAY + timedelta(days=AHEAD_DAYS)
    days = {day.on for day in outlook.measuring_days}
    in_diary = {entry.on for entry in outlook.entries if entry.kind == "measure"}
    assert max(days) > last
    assert in_diary == {day for day in days if day <= last}


def test_measures_are_told_in_one_order_whatever_presses_most() -> None:
    old, new = TODAY - timedelta(days=200), TODAY - timedelta(days=190)
    one = (
        measured("brow", old, 340, "tape"),
        measured("head_length", new, 900, "tape"),
    )
    two = (
        measured("brow", new, 340, "tape"),
        measured("head_length", old, 900, "tape"),
    )
    titles = {
        next(
            entry.title
            for entry in entries(horse_facts(measured=taken)).values()
            if entry.kind == "measure"
        )
        for taken in (one, two)
    }
    assert len(titles) == 1


def a_try_on(useful_from: int, due_by: int, vaccinated: int) -> tuple[date, date]:
    """Return the window left to a try-on beside a vaccination; days from today."""
    jab = CareDone(
        kind="vaccination",
        on=TODAY - timedelta(days=300),
        next_due=TODAY + timedelta(days=vaccinated),
    )
    tried = ToDo(
        kind="try_on",
        name="bit",
        what="a bit that fits",
        useful_from=TODAY + timedelta(days=useful_from),
        due_by=TODAY + timedelta(days=due_by),
        because="",
        path="",
    )
    (errand,) = errands_of(horse_facts(care=(jab,)), [tried])
    return errand.useful_from, errand.due_by


@pytest.mark.parametrize(
    ("vaccinated", "window"),
    [
        (7, (10, 20)),  # over the day before the window
        (8, (11, 20)),
        (15, (18, 20)),
        (18, (10, 17)),  # no day is left after it
        (21, (10, 20)),
    ],
)
def test_nothing_is_tried_on_in_the_days_after_a_vaccination(
    vaccinated: int, window: tuple[int, int]
) -> None:
    first, last = a_try_on(10, 20, vaccinated)
    assert ((first - TODAY).days, (last - TODAY).days) == window


def test_other_errands_are_not_moved_to_the_day_of_a_vaccination() -> None:
    soon = TODAY + timedelta(days=3)
    kinds = ("vaccination", "gelding", "farrier")
    named = {
        kind: booked_days(
            horse_facts(care=(CareDone(kind=kind, on=TODAY, next_due=soon),)), TODAY
        )
        for kind in kinds
    }
    assert named == {"vaccination": (), "gelding": (), "farrier": (soon,)}


FIRST = (
    ("withers_height", 1300.0, "stick"), ("head_length", 850.0, "tape"),
    ("mouth_width", 105.0, "string"), ("heart_girth", 1500.0, "tape"),
    ("weight", 300.0, "weigh_tape"),
)  # fmt: skip


def test_two_horses_are_measured_on_one_day_where_their_windows_allow() -> None:
    tansy, rue = (
        horse_facts(
            name,
            measured=tuple(
                measured(one, TODAY - timedelta(days=ago), value, method)
                for one, value, method in FIRST
            ),
        )
        for name, ago in (("Tansy", 40), ("Rue", 30))
    )
    together = look_at_yard(yard_facts(tansy, rue), TODAY)
    first, second = map(head_measured, together)
    (alone,) = look_at_yard(yard_facts(rue), TODAY)
    assert first == second > TODAY
    assert head_measured(alone) > second
    for one in together:
        in_diary = {entry.on for entry in one.entries if entry.kind == "measure"}
        assert in_diary <= {day.on for day in one.measuring_days}


def head_measured(outlook: Outlook) -> date:
    days = outlook.measuring_days
    return next(day.on for day in days if "head_length" in day.measures)
