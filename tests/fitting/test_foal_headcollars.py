"""A young horse's headcollar: slack, no loop for a foot, and looked at daily."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from fitting.age import Foaled
from fitting.fit import Answer, Part, Wearer, fits
from fitting.tryons import TryOn
from tests.fitting.making_fit import (
    BORN,
    GOOD,
    NO,
    ON,
    UNKNOWN,
    WATCH,
    make_wearer,
    steady,
)
from tests.fitting.making_nose_straps import RIGHT, SLIP, worn
from tests.fitting.making_straps import of_parts, strap_on, strap_over

FOAL_BORN = ON - timedelta(days=60)


@pytest.mark.parametrize(
    ("room_mm", "grown", "young"),
    [
        (9.0, NO, NO),
        (10.0, WATCH, WATCH),
        (25.0, GOOD, GOOD),
        (60.0, GOOD, GOOD),
        (70.0, GOOD, WATCH),
        (95.0, WATCH, NO),
        (131.0, NO, NO),
    ],
)
def test_a_headcollar_has_slack_and_a_young_one_no_loop_for_a_hind_foot(
    room_mm: float, grown: Answer, young: Answer
) -> None:
    assert strap_over("nose", 600 + room_mm, 600).answer is grown
    assert strap_over("nose", 600 + room_mm, 600, grown=False).answer is young


def foal(*tryons: TryOn, measured: bool = True, born: date = FOAL_BORN) -> Wearer:
    unmeasured = () if measured else ("nose_round",)
    growth = steady(nose_round=350, unmeasured=unmeasured)
    return make_wearer(growth, grown=False, born=born, tryons=tryons)


@pytest.mark.parametrize("measured", [True, False])
@pytest.mark.parametrize(("days", "answer"), [(0, GOOD), (1, GOOD), (2, WATCH)])
def test_a_foal_s_headcollar_not_looked_at_since_yesterday_is_watched(
    measured: bool, days: int, answer: Answer
) -> None:
    looked = worn("nose", on=ON - timedelta(days=days))
    found = strap_on(foal(looked, measured=measured), SLIP)
    assert found.answer is answer
    assert "every day" in " ".join(found.cautions)
    if answer is GOOD:
        assert found.good_until == looked.on + timedelta(days=2)
    else:
        assert "Last looked at 2 days ago" in found.why


def test_only_a_headcollar_put_on_by_then_was_looked_at_on_the_foal() -> None:
    looked = worn("nose", on=ON - timedelta(days=2))
    held = replace(looked, on=ON, how="held")
    tomorrow = replace(looked, on=ON + timedelta(days=1))
    for later in (held, tomorrow):
        found = strap_on(foal(looked, later), SLIP)
        assert found.answer is WATCH
        assert "Last looked at 2 days ago" in found.why


def test_a_foal_that_may_be_under_six_months_still_is_looked_at_daily() -> None:
    looked = worn("nose", on=ON - timedelta(days=5))
    unsure = Foaled(first=date(2025, 8, 1), last=date(2025, 9, 30))
    wearer = replace(foal(looked), foaled=unsure)
    assert strap_on(wearer, SLIP).answer is WATCH


def test_the_day_of_six_months_ends_the_daily_look() -> None:
    looked = worn("nose", on=ON - timedelta(days=5))
    just_under = foal(looked, born=date(2025, 9, 3))
    six_months = foal(looked, born=date(2025, 9, 2))
    assert strap_on(just_under, SLIP).answer is WATCH
    assert strap_on(six_months, SLIP).answer is GOOD


def test_a_foal_s_headcollar_that_was_too_short_is_no_better_for_waiting() -> None:
    looked = worn("nose", "too_short", on=ON - timedelta(days=2))
    assert strap_on(foal(looked, measured=False), SLIP).answer is UNKNOWN
    assert strap_on(foal(looked), SLIP).answer is WATCH


def test_a_headcollar_never_put_on_is_reckoned_or_asked_for() -> None:
    assert strap_on(foal(), SLIP).answer is GOOD
    unmeasured = strap_on(foal(measured=False), SLIP)
    assert (unmeasured.answer, unmeasured.ask) == (UNKNOWN, "round the nose")


def test_a_headcollar_of_which_nothing_is_written_down_still_goes_round_the_nose() -> (
    None
):
    for kind in ("headcollar", "cavesson"):
        item = of_parts(kind)
        (found,) = fits(make_wearer(RIGHT), (item,), (), ON)
        assert (found.part, found.answer) == ("nose", UNKNOWN)
        assert found.ask == "length of the nose"
        whole = TryOn(on=ON, item=item.name, how="worn", answer="good")
        (tried,) = fits(make_wearer(RIGHT, tryons=(whole,)), (item,), (), ON)
        assert tried.answer is GOOD
    with_crown = of_parts("headcollar", Part(part="crown", length_mm=880))
    found_parts = fits(make_wearer(RIGHT), (with_crown,), (), ON)
    assert [one.part for one in found_parts] == ["nose", "crown"]


def test_a_growing_horse_s_headcollar_is_cautioned_daily_and_a_grown_one_s_not() -> (
    None
):
    young = make_wearer(RIGHT, grown=False, born=BORN)
    assert "every day" in " ".join(strap_on(young, SLIP).cautions)
    assert "every day" not in " ".join(strap_on(make_wearer(RIGHT), SLIP).cautions)
