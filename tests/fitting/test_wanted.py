"""What is wanted: by when, of which horse, and nothing of what is unknown."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from fitting.fit import Part, Tack
from fitting.tryons import Tried, TryOn
from fitting.wanted import GOT_STANDS_DAYS, Got, Need, things_of
from tests.fitting.making_fit import ON, make_bit, make_bridle, steady
from tests.fitting.making_wanted import (
    MOUTH,
    NEEDED,
    growing,
    need,
    one,
    wanted_for,
    wearer_of,
)


def test_a_bit_is_wanted_three_weeks_before_its_step_in_the_sizes_it_comes_in() -> None:
    wanted = one(wanted_for(wearer_of(growing(MOUTH)), need("bit")).wanted)
    assert wanted.by == NEEDED - timedelta(days=21)
    assert wanted.good.from_mm == pytest.approx(121.0, abs=0.2)  # growing: 3 to 10 over
    assert wanted.good.to_mm == pytest.approx(128.0, abs=0.2)
    sizes = [(round(step.mm, 2), step.unit) for step in wanted.steps]
    assert sizes == [(127.0, "in"), (125.0, "mm")]


def test_what_is_needed_within_three_weeks_is_wanted_today() -> None:
    soon = need("bit", ON + timedelta(days=5))
    assert one(wanted_for(wearer_of(growing(MOUTH)), soon).wanted).by == ON


def test_nothing_is_wanted_of_what_was_never_measured() -> None:
    wants = wanted_for(wearer_of(growing({})), need("bit"))
    assert wants.wanted == ()
    (first,) = wants.first
    assert (first.measure, first.ask) == ("mouth_width", "Measure mouth width first.")


def test_nothing_is_wanted_of_what_is_only_supposed_from_the_type() -> None:
    supposed = steady(mouth_width=118.0, unmeasured=("mouth_width",))
    wants = wanted_for(wearer_of(supposed), need("bit"))
    assert (wants.wanted, len(wants.first)) == ((), 1)


def test_no_size_is_named_while_the_body_is_not_known_closely() -> None:
    wants = wanted_for(wearer_of(growing(MOUTH, sd=9.0)), need("bit"))
    assert wants.wanted == ()
    assert "again" in wants.first[0].ask


def test_what_is_wanted_is_gone_once_something_good_hangs_here() -> None:
    wearer = wearer_of(growing(MOUTH))
    small, right = make_bit(118.0), make_bit(125.0)
    assert wanted_for(wearer, need("bit"), tack=(small,)).wanted
    assert not wanted_for(wearer, need("bit"), tack=(right,)).wanted


def test_what_fits_today_is_wanted_for_the_day_it_does_not() -> None:
    wearer = wearer_of(growing(MOUTH, a_day={"mouth_width": 0.1}))
    bit = make_bit(125.0)
    soon, late = need("bit", ON + timedelta(days=10)), need("bit", NEEDED)
    assert not wanted_for(wearer, soon, tack=(bit,)).wanted
    wanted = one(wanted_for(wearer, soon, late, tack=(bit,)).wanted)
    assert wanted.needed_on == NEEDED
    assert wanted.body_mm == pytest.approx(124.0, abs=0.1)


def test_what_is_too_large_today_is_not_wanted_where_she_grows_into_it() -> None:
    wearer = wearer_of(growing(MOUTH, a_day={"mouth_width": 0.1}))
    assert not wanted_for(wearer, need("bit"), tack=(make_bit(132.0),)).wanted


def test_a_good_noseband_alone_is_no_bridle() -> None:
    growth = growing({"head_length": 1040.0, "nose_round": 600.0})
    part = Part(part="noseband", length_mm=640.0)
    loose = Tack(name="Odd noseband", kind="bridle", parts=(part,))
    wants = wanted_for(wearer_of(growth), need("bridle"), tack=(loose,))
    assert "whole" in {wanted.part for wanted in wants.wanted}


def test_a_size_that_rests_on_an_old_measurement_says_so() -> None:
    wearer = wearer_of(growing(MOUTH))
    old = replace(wearer, standing=(("mouth_width", "stale"),))
    assert not one(wanted_for(wearer, need("bit")).wanted).stale
    assert one(wanted_for(old, need("bit")).wanted).stale


def test_a_bridle_without_a_good_browband_wants_that_alone() -> None:
    growth = growing({"head_length": 1040.0, "brow": 380.0})
    short = make_bridle(more=(Part(part="browband", length_mm=370.0),))
    wanted = one(wanted_for(wearer_of(growth), need("bridle"), tack=(short,)).wanted)
    assert wanted.part == "browband"
    assert wanted.good.from_mm == pytest.approx(390.0, abs=0.2)
    assert [round(step.mm, 1) for step in wanted.steps] == [393.7, 406.4, 419.1]


def test_a_browband_that_hangs_on_another_bridle_is_not_wanted() -> None:
    growth = growing({"head_length": 1040.0, "brow": 380.0})
    short = make_bridle(more=(Part(part="browband", length_mm=370.0),))
    band = Part(part="browband", length_mm=400.0)
    other = Tack(name="Odd browband", kind="bridle", parts=(band,))
    assert not wanted_for(wearer_of(growth), need("bridle"), tack=(short, other)).wanted


def test_an_item_of_which_nothing_is_written_down_may_do() -> None:
    wants = wanted_for(
        wearer_of(growing(MOUTH)), need("bit"), tack=(make_bit(length_mm=None),)
    )
    assert wants.wanted == ()
    assert wants.first[0].ask.startswith("Steel snaffle may do.")


def test_no_length_alone_makes_a_saddle_do_for_the_day_it_is_needed() -> None:
    growth = growing({"back_length": 460.0})
    saddle = Tack(
        name="Brown saddle",
        kind="saddle",
        parts=(Part(part="panel", length_mm=420.0),),
    )
    wants = wanted_for(wearer_of(growth), need("saddle"), tack=(saddle,))
    assert wants.wanted == ()
    (first,) = wants.first
    assert first.ask == "Have a saddle fitter see Brown saddle on first: it may do."
    seen = TryOn(on=ON, item=saddle.name, how="worn", answer="good")
    wearer = wearer_of(growth, tryons=(seen,))
    soon = need("saddle", ON + timedelta(days=56))  # so long the check stands
    found = wanted_for(wearer, soon, tack=(saddle,))
    assert (found.wanted, found.first) == ((), ())
    over = need("saddle", ON + timedelta(days=57))
    assert wanted_for(wearer, over, tack=(saddle,)).first
    long = replace(saddle, parts=(Part(part="panel", length_mm=500.0),))
    wants = wanted_for(wearer_of(growth), need("saddle"), tack=(long,))
    assert one(wants.wanted).good.to_mm == pytest.approx(460, abs=0.2)


def test_what_was_seen_to_sit_badly_does_not_do_whatever_its_size() -> None:
    rubs = TryOn(
        on=ON,
        item="Steel snaffle",
        how="worn",
        parts=(Tried(part="mouthpiece", seen="rubs"),),
    )
    wearer = wearer_of(growing(MOUTH), tryons=(rubs,))
    assert wanted_for(wearer, need("bit"), tack=(make_bit(125.0),)).wanted


def test_each_part_is_wanted_once_for_the_first_step_that_needs_it() -> None:
    later = Need(kind="bit", on=NEEDED + timedelta(days=40), stage_name="Later")
    wants = wanted_for(wearer_of(growing(MOUTH)), later, need("bit"))
    assert one(wants.wanted).stage_name == "A step"


def test_nothing_is_wanted_for_steps_more_than_a_year_ahead() -> None:
    far = need("bit", ON + timedelta(days=366))
    assert not wanted_for(wearer_of(growing(MOUTH)), far).wanted


@pytest.mark.parametrize(("days", "ticked"), [(0, True), (90, True), (91, False)])
def test_a_tick_counts_for_ninety_days(days: int, *, ticked: bool) -> None:
    got = Got(kind="bit", part="mouthpiece", on=ON - timedelta(days=days))
    wants = wanted_for(wearer_of(growing(MOUTH)), need("bit"), got=(got,))
    assert GOT_STANDS_DAYS == 90
    assert (one(wants.wanted).got_on is not None) is ticked


def test_a_tick_of_another_part_ticks_nothing() -> None:
    got = Got(kind="bridle", part="browband", on=ON)
    wants = wanted_for(wearer_of(growing(MOUTH)), need("bit"), got=(got,))
    assert one(wants.wanted).got_on is None


def test_a_bridle_is_one_thing_with_its_straps_and_a_browband_one_by_itself() -> None:
    growth = growing({"head_length": 1040.0, "brow": 380.0, "nose_round": 600.0})
    whole = wanted_for(wearer_of(growth), need("bridle")).wanted
    (thing,) = things_of(whole)
    assert (thing.with_article, len(thing.wanted)) == ("a bridle", 3)
    short = make_bridle(more=(Part(part="browband", length_mm=370.0),))
    band = wanted_for(wearer_of(growth), need("bridle"), tack=(short,)).wanted
    (alone,) = things_of(band)
    assert (alone.words, alone.part) == ("browband", "browband")


def test_a_thing_is_got_once_all_its_parts_are() -> None:
    growth = growing({"head_length": 1040.0, "brow": 380.0})
    one_strap = Got(kind="bridle", part="browband", on=ON)
    all_of_it = Got(kind="bridle", part="", on=ON)
    for got, day in ((one_strap, None), (all_of_it, ON)):
        found = wanted_for(wearer_of(growth), need("bridle"), got=(got,))
        (thing,) = things_of(found.wanted)
        assert thing.got_on == day
