"""What is a helper's to do, on which day, and what they bring."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from starting.diary import BACKING
from starting.gates.words import CAUTION_SAFETY
from starting.helping import (
    DAYS,
    FEW,
    Appointment,
    Hand,
    HelpDay,
    HorseDays,
    Job,
    help_days,
)
from starting.outlook import DayAhead

ON = date(2026, 11, 26)  # a Thursday
WEEKEND = frozenset({5, 6})
SATURDAY = date(2026, 11, 28)


def ahead(on: date = SATURDAY, **fields: Any) -> DayAhead:
    facts: dict[str, Any] = {
        "stage": "mouthing", "name": "Mouthing", "people": "two people",
        "second": True, "mounted": False, "minutes": 8,
    }  # fmt: skip
    return DayAhead(on=on, **facts | fields)


def tansy(*days: DayAhead, **fields: Any) -> HorseDays:
    return HorseDays(name="Tansy", key="tansy", days=days, **fields)


def entry(on: date = SATURDAY, **fields: Any) -> Appointment:
    facts: dict[str, Any] = {
        "kind": "measure", "horse": "Tansy", "title": "Tansy: measure brow",
        "reason": "Brow: a measurement stands 84 days.", "href": "/entry/",
        "bring": ("tape",),
    }  # fmt: skip
    return Appointment(on=on, **facts | fields)


def days(
    *horses: HorseDays, entries: tuple[Appointment, ...] = (), **hand: Any
) -> tuple[HelpDay, ...]:
    hand.setdefault("name", "Sam")
    return help_days(Hand(**hand), horses, entries, WEEKEND, ON)


def jobs(*horses: HorseDays, **more: Any) -> list[Job]:
    return [job for day in days(*horses, **more) for job in day.jobs]


def test_a_session_that_needs_a_second_person_is_theirs_with_what_to_wear() -> None:
    one = ahead(wear=("Tansy's bridle on hole 4",), asks=("Is it calm?",))
    (job,) = jobs(tansy(one))
    assert (job.horse, job.part, job.what) == ("Tansy", "stand_by", "Mouthing")
    assert job.lines == ("About 8 minutes, two people.",)
    assert job.worn == ("hat to a current standard", "gloves", "boots")
    assert job.on_horse == ("Tansy's bridle on hole 4",)
    assert (job.asks, job.caution) == (("Is it calm?",), CAUTION_SAFETY)
    assert jobs(tansy(ahead(second=False, people="one person"))) == []


def test_what_has_to_be_done_before_it_is_said_with_it() -> None:
    (job,) = jobs(tansy(ahead(first="Measure her brow.", minutes=0)))
    assert job.lines == ("Two people.", "Only once this is done: Measure her brow.")


@pytest.mark.parametrize(
    ("plan", "part"),
    [({"rider": "Sam"}, "ride"), ({"trainer": "Sam"}, "train"), ({}, "stand_by")],
)
def test_with_a_rider_the_plan_says_who_does_what(plan: Any, part: str) -> None:
    (job,) = jobs(tansy(ahead(mounted=True), **plan))
    assert job.part == part
    assert job.caution == BACKING
    assert "body protector" in job.worn


def test_who_only_rides_is_asked_for_nothing_but_what_the_plan_names_them_for() -> None:
    horse = tansy(ahead(), ahead(mounted=True, stage="astride"), rider="Sam")
    found = jobs(horse, entries=(entry(),), can=frozenset({"ride"}))
    assert [(job.part, job.stage) for job in found] == [("ride", "astride")]


def test_a_child_is_asked_for_nothing() -> None:
    horse = tansy(ahead(mounted=True), rider="Sam")
    assert jobs(horse, entries=(entry(),), child=True) == []
    assert jobs(horse, entries=(entry(),)) != []


def test_measuring_a_try_on_and_a_visit_are_held_for_and_no_more() -> None:
    kinds = ("measure", "try_on", "care", "get", "stage_opens", "stage_starts")
    found = jobs(entries=tuple(entry(kind=kind, title=kind) for kind in kinds))
    assert [job.what for job in found] == ["measure", "try_on", "care"]
    assert found[0].ready == ("headcollar and rope", "tape")


def test_today_comes_first_with_what_is_overdue_and_then_their_own_days() -> None:
    late, today = ON - timedelta(days=9), ON
    friday = ON + timedelta(days=1)
    found = days(
        tansy(ahead(ON), ahead(friday), ahead(SATURDAY)),
        entries=tuple(entry(day) for day in (late, today, friday, SATURDAY)),
    )
    assert [(day.on, day.theirs) for day in found] == [(ON, False), (SATURDAY, True)]
    assert [(job.part, job.since) for job in found[0].jobs] == [
        ("stand_by", None), ("hold", late), ("hold", None),
    ]  # fmt: skip
    assert [job.part for job in found[1].jobs] == ["stand_by", "hold"]


def test_a_day_without_anything_is_left_out_but_for_today() -> None:
    assert days() == (HelpDay(on=ON, jobs=(), theirs=False),)


def test_of_many_to_hold_for_those_alike_stand_together_with_each_horse() -> None:
    many = tuple(
        entry(
            horse=f"Horse {n}",
            what="Measure",
            href=f"/{n}/",
            bring=("tape", f"{n % 2}"),
        )
        for n in range(FEW)
    )
    assert len(jobs(entries=many)) == FEW
    teeth = entry(kind="care", horse="Rue", what="Care: teeth", href="/rue/", bring=())
    measure, care = jobs(entries=(*many, teeth))
    assert measure.what == "Measure"
    assert measure.ready == ("headcollar and rope", "tape", "0", "1")
    assert measure.names == tuple((f"Horse {n}", f"/{n}/") for n in range(FEW))
    assert (care.what, care.names) == ("Care: teeth", (("Rue", "/rue/"),))


@given(
    st.lists(st.integers(-20, 40), max_size=8),
    st.lists(st.integers(0, 40), max_size=8),
    st.frozensets(st.integers(0, 6)),
)
def test_each_thing_stands_once_and_only_on_their_days(
    entries: list[int], sessions: list[int], weekdays: frozenset[int]
) -> None:
    held = [entry(ON + timedelta(days=n), title=f"{i}") for i, n in enumerate(entries)]
    horse = tansy(*(ahead(ON + timedelta(days=n)) for n in sessions))
    found = help_days(Hand(name="Sam"), [horse], held, weekdays, ON)
    assert all(day.on == ON or day.on.weekday() in weekdays for day in found)
    assert all(day.on < ON + timedelta(days=DAYS) for day in found)
    titles = [job.what for day in found for job in day.jobs if job.part == "hold"]
    assert len(titles) == len(set(titles))
    overdue = {f"{i}" for i, n in enumerate(entries) if n <= 0}
    assert overdue <= set(titles)
