"""The small part of an outlook that the first pages show."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from fitting.fit import Answer, Finding
from fitting.readings import Units
from starting.outlook import Outlook, Suggestion, brief_of, look_at_yard
from starting.outlook.saying import say_outlook
from tests.starting.making_outlook import TODAY, horse_facts, yard_facts


@pytest.fixture
def outlook() -> Outlook:
    return look_at_yard(yard_facts(horse_facts()), TODAY)[0]


def part(
    item: str, name: str, good_until: date | None, *, stale: bool = False
) -> Finding:
    return Finding(
        item=item,
        kind="bridle",
        part=name,
        answer=Answer.GOOD,
        why="It sits right.",
        good_until=good_until,
        stale=stale,
    )


def wearing(outlook: Outlook, *wear: str, fits: tuple[Finding, ...]) -> Outlook:
    one = Suggestion(
        stage="bridle", name="Bridle", state="open", why="", asks=(), wear=wear
    )
    return replace(outlook, can_do_now=(one,), fits=fits)


def test_what_is_outgrown_soon_is_told_once_with_its_first_day(
    outlook: Outlook,
) -> None:
    soon, later = TODAY + timedelta(days=20), TODAY + timedelta(days=60)
    fits = (
        part("Brown bridle", "browband", later),
        part("Brown bridle", "cheekpieces", soon),
        part("Brown bridle", "headpiece", soon),
    )
    found = brief_of(wearing(outlook, "Brown bridle on hole 4", fits=fits))
    assert found.soon_outgrown == ("Brown bridle is good until about 15 Dec 2026.",)


def test_only_what_is_worn_and_ends_within_two_months_is_told(
    outlook: Outlook,
) -> None:
    fits = (
        part("Brown", "cheekpieces", TODAY + timedelta(days=20)),
        part("Brown bridle", "cheekpieces", TODAY + timedelta(days=61)),
        part("Brown bridle", "browband", None),
    )
    assert brief_of(wearing(outlook, "Brown bridle", fits=fits)).soon_outgrown == ()


def test_steps_without_a_day_stand_apart_from_those_with_one(outlook: Outlook) -> None:
    first, second, *rest = outlook.stages
    stages = (replace(first, start=None), replace(second, start=TODAY), *rest)
    found = brief_of(replace(outlook, stages=stages))
    assert first.stage in {step.stage for step in found.undated}
    assert found.next_steps[0].stage == second.stage
    assert len(found.next_steps) == 6


@pytest.mark.parametrize(
    ("states", "whole"),
    [
        (("established", "left_out"), "established"),
        (("established", "waiting"), "under_way"),
        (("under_way", "waiting"), "under_way"),
        (("open", "waiting"), "open"),
        (("waiting", "waiting"), "waiting"),
        (("waiting", "left_out"), "waiting"),
    ],
)
def test_a_phase_is_as_far_as_its_steps(
    outlook: Outlook, states: tuple[str, str], whole: str
) -> None:
    stages = tuple(
        replace(stage, phase="In tack", state=state)  # type: ignore[arg-type]
        for stage, state in zip(outlook.stages[:2], states, strict=True)
    )
    found = brief_of(replace(outlook, stages=stages))
    assert found.phases == (("In tack", whole),)


def test_what_rests_on_old_measurements_says_so_in_words(outlook: Outlook) -> None:
    units = Units(height="cm", length="cm", weight="kg")
    old = replace(outlook, fits=(part("Brown bridle", "browband", None, stale=True),))
    new = replace(outlook, fits=(part("Brown bridle", "browband", None),))
    assert "too old: measure again" in say_outlook(old, units)
    assert "too old: measure again" not in say_outlook(new, units)
