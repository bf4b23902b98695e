"""A yard's own change of one step: what is refused in words, and what always holds."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from starting.differences import differences, said_of_all
from starting.outlook import look_at_yard
from starting.programme import read_programme, shipped, shipped_keys, shipped_table
from starting.programme.editing import (
    Tried,
    gone_from,
    put_back,
    step_changed,
    taken_out,
    ticks_from,
)
from tests.starting.making_outlook import TODAY, horse_facts, yard_facts

BASE = shipped_table("default")
KEYS = [step["key"] for step in BASE["stage"]]
SESSIONS = [s["key"] for s in BASE["stage"] if s["kind"] == "sessions"]


def change(key: str, **fields: Any) -> Tried:
    return step_changed(BASE, BASE, key, fields)


def said(tried: Tried) -> dict[str, str]:
    return {fault.field: fault.text for fault in tried.faults}


def own(tried: Tried) -> dict[str, Any]:
    assert not tried.faults
    return tomllib.loads(tried.text)


def test_a_change_that_is_right_makes_a_new_text() -> None:
    tried = change("bridle", earliest_months=32, typical_months=[33, 36])
    made = read_programme(tried.text, key="default")
    (one,) = differences(shipped(), made)
    assert (one.name, one.kind) == ("Bridle without a bit", "changed")
    assert one.lines == (
        "Earliest: 32 months, was 30 months.",
        "Usually begun at: 33 to 36 months, was 31 to 35 months.",
    )


REFUSED: list[tuple[str, dict[str, Any], str, str]] = [
    ("bridle", {"earliest_months": 23}, "earliest_months", "Not under 24 months"),
    ("astride", {"earliest_months": 35}, "earliest_months", "Not under 36 months"),
    ("bridle", {"typical_months": [29, 40]}, "typical_months", "cannot usually begin"),
    ("bridle", {"typical_months": [36, 35]}, "typical_months", "goes second"),
    ("bridle", {"min_good_sessions": 0}, "min_good_sessions", "One good session"),
    ("bridle", {"min_good_sessions": 30}, "typical_sessions", "It needs 30 good ones"),
    ("bridle", {"typical_sessions": [9, 8]}, "typical_sessions", "goes second"),
    ("bridle", {"minutes": [10, 5]}, "minutes", "goes second"),
    ("bridle", {"minutes": [0, 0]}, "minutes", "1 or more"),
    ("bridle", {"days_a_week": [3, 8]}, "days_a_week", "1 to 7 days"),
    ("bridle", {"days_in_a_row": 0}, "days_in_a_row", "1 day at least"),
    ("bridle", {"refresh_after_days": 3}, "refresh_after_days", "gone over again"),
    ("grow_at_grass", {"earliest_months": 30, "typical_months": [30, 31]},
     "earliest_months", "It ends at 30 months, so it could never begin."),
    ("bridle", {"checks": []}, "checks", "One tick at least"),
    ("bridle", {"checks": [{"key": "a", "text": "Calm"}, {"key": "b", "text": "calm"}]},
     "checks", "twice"),
    ("bridle", {"prerequisites": ["yields_in_hand", "body_check", "long_reins"]},
     "prerequisites",
     ("They would wait in a circle: Bridle without a bit waits for Long reins in the"
      " school, which waits for First roller, which waits for Bridle without a bit.")),
    ("bridle", {"prerequisites": ["bridle", "body_check"]}, "prerequisites",
     "Bridle without a bit cannot wait for itself."),
    ("person_above", {"prerequisites": ["saddle"]}, "prerequisites",
     "Up and down the block has to come after Ready-to-back check"),
    ("ready_check", {"prerequisites": ["saddle"]}, "prerequisites", ""),
    ("bridle", {"prerequisites": ["yields_in_hand"]}, "prerequisites",
     "Bridle without a bit has to come after Teeth, back and body check"),
]  # fmt: skip


@pytest.mark.parametrize(("key", "fields", "field", "text"), REFUSED)
def test_what_cannot_be_is_said_beside_its_field(
    key: str, fields: dict[str, Any], field: str, text: str
) -> None:
    tried = change(key, **fields)
    if not text:  # the saddle comes after the body check as well
        assert said(tried) == {}
        return
    assert text in said(tried)[field]
    assert tried.text == ""


def test_a_step_after_one_that_never_begins_is_out_of_reach() -> None:
    ring = step_changed(BASE, BASE, "feet", {"refresh_after_days": 0})
    assert not ring.faults
    shut = dict(BASE)
    shut["stage"] = [
        s | {"refresh_after_days": 2} if s["key"] == "travels" else s
        for s in BASE["stage"]
    ]
    tried = step_changed(shut, shut, "feet", {"prerequisites": ["company", "travels"]})
    assert said(tried)["prerequisites"] == (
        "Nobody could come to it: Loads and travels alone can never be begun."
    )


@pytest.mark.parametrize("key", ["body_check", "ready_check", "astride", "led_walk"])
def test_checks_and_steps_with_a_rider_stay(key: str) -> None:
    (fault,) = taken_out(BASE, BASE, key).faults
    assert "stays" in fault.text


def test_a_step_without_which_a_check_is_jumped_over_stays() -> None:
    """Mouthing, saddle and long reins hang on the checks by more than one line."""
    for key in ("stands_to_measure", "bridle", "mouthing", "saddle", "turned_away"):
        assert not taken_out(BASE, BASE, key).faults


def test_a_step_taken_out_and_put_back_leaves_no_trace() -> None:
    for key in ("big_circle", "mouthing", "weaned"):
        without = own(taken_out(BASE, BASE, key))
        assert [s["key"] for s in gone_from(BASE, without)] == [key]
        again = own(put_back(BASE, without, key))
        assert again == BASE


def test_a_written_order_hands_on_the_step_taken_out() -> None:
    new = own(change("feet", prerequisites=["company", "first_headcollar"]))
    without = own(taken_out(BASE, new, "first_headcollar"))
    feet = next(s for s in without["stage"] if s["key"] == "feet")
    assert feet["prerequisites"] == ["company"]


def test_ticks_keep_their_keys_and_new_ones_get_their_own() -> None:
    old = [{"key": "a", "text": "A"}, {"key": "calm", "text": "B"}]
    now = ticks_from(old, ["A, both sides", "", "Calm!", "Ünlike anything", "…"])
    assert now == [
        {"key": "a", "text": "A, both sides"},
        {"key": "calm_2", "text": "Calm!"},
        {"key": "nlike_anything", "text": "Ünlike anything"},
        {"key": "tick", "text": "…"},
    ]


def test_ways_up_say_how_they_differ_as_a_whole() -> None:
    assert said_of_all(shipped(), shipped("small_pony")) == (
        "It may end at Long-reined out, where nobody is named to ride.",
    )
    assert said_of_all(shipped(), shipped("late_starter")) == (
        "14 days to settle in, before anything is asked.",
        "From four years on 1.5 good sessions are needed for each usual one.",
    )
    assert said_of_all(shipped(), shipped()) == ()


def test_every_difference_of_the_shipped_ways_up_is_said() -> None:
    for key in shipped_keys()[1:]:
        apart = {one.stage: one for one in differences(shipped(), shipped(key))}
        for stage in shipped(key).stages:
            usual = shipped().stage(stage.key)
            assert (stage.key in apart) == (stage != usual), stage.key
        back = differences(shipped(key), shipped())
        assert {one.stage for one in back} == set(apart)


# What always holds

PAIR = st.lists(st.integers(0, 12), min_size=2, max_size=2)
FIELDS = st.fixed_dictionaries(
    {},
    optional={
        "earliest_months": st.integers(0, 70),
        "typical_months": st.lists(st.integers(0, 70), min_size=2, max_size=2),
        "min_good_sessions": st.integers(0, 12),
        "typical_sessions": PAIR,
        "minutes": PAIR,
        "days_a_week": PAIR,
        "days_in_a_row": st.integers(0, 7),
        "refresh_after_days": st.integers(0, 60),
        "prerequisites": st.lists(st.sampled_from(KEYS), unique=True, max_size=3),
        "checks": st.lists(
            st.sampled_from(["Calm", "Still", "Goes"]), unique=True, max_size=3
        ).map(lambda texts: ticks_from([], texts)),
    },
)


@settings(max_examples=150)
@given(st.sampled_from(shipped_keys()), st.data())
def test_a_change_that_passes_the_checks_always_loads(key: str, data: Any) -> None:
    base = shipped_table(key)
    step = data.draw(st.sampled_from([s["key"] for s in base["stage"]]))
    sessions = step in SESSIONS
    fields = {
        name: value
        for name, value in data.draw(FIELDS).items()
        if sessions or name in {"earliest_months", "typical_months", "checks"}
    }
    tried = step_changed(base, base, step, fields)
    if tried.faults:
        assert tried.text == ""
        return
    made = read_programme(tried.text, key=key)
    assert made.stage(step).earliest_months >= (made.stage(step).floor_months or 0)
    assert all(f.field for f in tried.faults)
    for name, value in fields.items():
        got = getattr(made.stage(step), name)
        if name == "checks":
            assert [c.text for c in got] == [c["text"] for c in value]
        else:
            assert got == (tuple(value) if isinstance(value, list) else value)


@settings(max_examples=12, deadline=None)
@given(st.sampled_from(SESSIONS), FIELDS)
def test_a_change_that_passes_the_checks_plans_for_a_horse(
    step: str, fields: dict[str, Any]
) -> None:
    tried = step_changed(BASE, BASE, step, fields)
    if tried.faults:
        return
    programme = read_programme(tried.text, key="default")
    horse = horse_facts(programme=programme)
    (outlook,) = look_at_yard(yard_facts(horse), TODAY)
    assert [look.stage for look in outlook.stages] == [s.key for s in programme.stages]
    assert all(look.because or look.start for look in outlook.stages)
