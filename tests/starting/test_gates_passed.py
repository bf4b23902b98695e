from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.age import reaches_months
from fitting.body import Standing
from fitting.fit import Answer
from fitting.weight import BestWeight, Weight
from starting.gates import (
    CareDone,
    GateAnswer,
    GateFacts,
    MeasureStands,
    Off,
    Passed,
    RestSpan,
    Somebody,
    gates_of,
    may_start,
)
from starting.programme import Stage
from starting.progress import State
from tests.starting.making_gates import (
    ASTRIDE,
    BRIDLE,
    MOUTHING,
    ON,
    STAGES,
    born,
    done,
    facts,
    finding,
    gate,
    progress_of,
    seen,
)

DAY = timedelta(days=1)
ALL_KEYS = sorted(
    {"age", "stages_before", "rest", "off_work", "farrier", "season", "vet"}
    | {"rider_experience", "trainer", "recent_sessions"}
    | {key for stage in STAGES for key in stage.gates_dated + stage.gates_to_do}
)


def reason(
    key: str, stage: Stage = MOUTHING, on: date = ON, why: str = "Calm."
) -> Passed:
    return Passed(stage=stage.key, gate=key, reason=why, who="Ines", on=on)


def test_a_caution_is_passed_with_a_reason_that_stays_visible() -> None:
    asked = gate("teeth", MOUTHING, care=(seen(100),), passed=(reason("teeth"),))
    assert asked.answer is GateAnswer.CAUTION
    assert asked.went_ahead
    assert asked.went_ahead_because == "Calm. (Ines, 2026-03-02)"
    assert may_start([asked])


@pytest.mark.parametrize(
    "passed",
    [
        reason("teeth", why="  "),
        reason("teeth", stage=BRIDLE),
        reason("age"),
        reason("teeth", on=ON + DAY),
        reason("teeth", on=ON - 101 * DAY),  # before the look the caution rests on
    ],
)
def test_a_reason_counts_only_for_its_own_caution(passed: Passed) -> None:
    asked = gate("teeth", MOUTHING, care=(seen(100),), passed=(passed,))
    assert asked.may_pass
    assert not asked.went_ahead
    assert not may_start([asked])


def test_age_between_floor_and_earliest_may_be_passed_and_below_never() -> None:
    floor = reaches_months(born(date(2023, 4, 19)), 24)
    passed = (reason("age", BRIDLE, on=floor - DAY),)
    assert gate("age", BRIDLE, floor, passed=passed).went_ahead
    assert not gate("age", BRIDLE, floor - DAY, passed=passed).went_ahead


def test_a_measure_never_taken_may_be_passed_but_is_never_met() -> None:
    asked = gate("fresh:mouth_width", MOUTHING, passed=(reason("fresh:mouth_width"),))
    assert asked.answer is GateAnswer.NOT_KNOWN
    assert asked.went_ahead


DAYS = st.integers(-400, 400).map(lambda days: ON + timedelta(days=days))
VISITS = st.builds(
    CareDone,
    kind=st.sampled_from(["teeth", "vet"]),
    on=DAYS,
    clear=st.booleans(),
    wolf_teeth=st.sampled_from([None, "none", "left", "out"]),
    healing_until=st.none() | DAYS,
)
OFFS = st.builds(
    Off,
    start=DAYS,
    why=st.just("lame"),
    until=st.none() | DAYS,
    cleared_by=st.sampled_from(["", "the vet"]),
    cleared_on=st.none() | DAYS,
)
RESTS = st.builds(RestSpan, start=DAYS, end=st.none() | DAYS)
STANDS = st.builds(
    MeasureStands,
    measure=st.just("mouth_width"),
    name=st.just("Mouth width"),
    standing=st.sampled_from(get_args(Standing)),
)
FINDINGS = st.builds(
    finding,
    st.sampled_from(["Eggbutt", "Schooling"]),
    st.sampled_from(["bit", "bridle"]),
    st.sampled_from(["length", "thickness", "cheekpieces", "whole"]),
    st.sampled_from(list(Answer)),
)
PROGRESS = st.builds(
    lambda states, again: progress_of(
        *(
            done(s.key, state, again=again)
            for s, state in zip(STAGES, states, strict=True)
        )
    ),
    st.lists(
        st.sampled_from(get_args(State)), min_size=len(STAGES), max_size=len(STAGES)
    ),
    st.booleans(),
)
RIDERS = st.builds(
    Somebody,
    name=st.just("Sam"),
    weight_kg=st.none() | st.floats(20, 140),
    has_backed_horses=st.booleans(),
    child=st.booleans(),
    trains=st.booleans(),
)
WEIGHTS = st.builds(
    lambda kg, days, small: BestWeight(
        weight=Weight(
            on=ON - 9 * DAY, kg=kg, method="formula", share=0.1, until=ON + days * DAY
        ),
        why="",
        small=small,
        cautions=(),
    ),
    st.floats(80, 700),
    st.integers(-3, 20),
    st.booleans(),
)
PEOPLE_STEP = replace(
    ASTRIDE,
    gates_to_do=(
        *("rider_load", "rider_experience", "trainer", "vet", "farrier"),
        "recent_sessions",
    ),
)
MAY_BE_PASSED_FURTHER = {"farrier", "season", "fresh:mouth_width", "stages_before"}
EVERYTHING_PASSED = tuple(
    reason(key, stage, on=ON - 500 * DAY + shift * DAY)
    for key in ALL_KEYS
    for stage in STAGES
    for shift in (0, 500)
)


@st.composite
def any_facts(draw: st.DrawFn) -> GateFacts:
    return facts(
        foaled=born(draw(st.integers(0, 2000).map(lambda n: ON - timedelta(days=n)))),
        progress=draw(PROGRESS),
        measures=tuple(draw(st.lists(STANDS, max_size=1))),
        findings=tuple(draw(st.lists(FINDINGS, max_size=3))),
        set_names=("Schooling",),
        care=tuple(draw(st.lists(VISITS, max_size=3))),
        off=tuple(draw(st.lists(OFFS, max_size=2))),
        rests=tuple(draw(st.lists(RESTS, max_size=2))),
        rider=draw(st.none() | RIDERS),
        trainer=draw(st.none() | RIDERS),
        tack_kg=draw(st.none() | st.floats(1, 25)),
        weight=draw(st.none() | WEIGHTS),
        hemisphere=draw(st.sampled_from(["north", "south"])),
        passed=draw(st.sampled_from([(), EVERYTHING_PASSED])),
    )


@given(any_facts(), st.sampled_from([BRIDLE, MOUTHING, ASTRIDE]))
@settings(max_examples=300, deadline=None)
def test_no_facts_start_a_step_below_its_floor(at: GateFacts, stage: Stage) -> None:
    gates = gates_of(stage, at, ON)
    floor = reaches_months(at.foaled, stage.floor_months or 0)
    assert not (may_start(gates) and floor > ON)


@given(any_facts(), st.sampled_from([BRIDLE, MOUTHING, ASTRIDE, PEOPLE_STEP]))
@settings(max_examples=300, deadline=None)
def test_no_reason_opens_what_must_not_be_passed(at: GateFacts, stage: Stage) -> None:
    plain = {one.gate: one for one in gates_of(stage, replace(at, passed=()), ON)}
    forced = gates_of(stage, replace(at, passed=EVERYTHING_PASSED), ON)
    for one in forced:
        assert one.answer is plain[one.gate].answer
        if one.gate == "stages_before":
            assert not one.went_ahead
        if one.gate not in MAY_BE_PASSED_FURTHER:
            assert not one.went_ahead or one.answer is GateAnswer.CAUTION


LACKING = {
    "teeth": {"care": ()},
    "wolf_teeth": {"care": ()},
    "fresh:mouth_width": {"measures": ()},
    "fit:bit": {"findings": ()},
    "fit:bridle": {"findings": ()},
    "stages_before": {"progress": progress_of()},
}


@given(any_facts(), st.sampled_from(sorted(LACKING)))
@settings(max_examples=200, deadline=None)
def test_a_missing_fact_is_unknown_and_still_blocks(at: GateFacts, key: str) -> None:
    lacking = replace(at, passed=(), **LACKING[key])  # type: ignore[arg-type]
    gates = gates_of(MOUTHING, lacking, ON)
    asked = next(one for one in gates if one.gate == key)
    unmet = {GateAnswer.NOT_KNOWN, GateAnswer.SHUT}
    assert asked.answer in unmet
    assert not may_start([asked])
    assert not may_start(gates)


@given(any_facts(), st.sampled_from(STAGES))
@settings(max_examples=200, deadline=None)
def test_an_opening_day_is_ahead_and_opens_what_is_dated(
    at: GateFacts, stage: Stage
) -> None:
    at = replace(at, care=tuple(visit for visit in at.care if visit.on <= ON))
    for one in gates_of(stage, at, ON):
        if one.opens_on is None:
            continue
        assert one.opens_on > ON
        then = gates_of(stage, at, one.opens_on)
        again = next(gate for gate in then if gate.gate == one.gate)
        assert again.kind != "dated" or again.answer is GateAnswer.MET
        before = gates_of(stage, at, one.opens_on - DAY)
        assert (
            next(g for g in before if g.gate == one.gate).answer is not GateAnswer.MET
        )


@given(any_facts(), st.sampled_from(["rider", "tack_kg", "weight"]))
@settings(max_examples=200, deadline=None)
def test_no_rider_no_tack_or_no_weight_never_starts_a_mounted_step(
    at: GateFacts, lacking: str
) -> None:
    bare = replace(at, **{lacking: None})  # type: ignore[arg-type]
    gates = gates_of(PEOPLE_STEP, bare, ON)
    load = next(one for one in gates if one.gate == "rider_load")
    assert load.answer is GateAnswer.NOT_KNOWN
    assert not may_start(gates)


@given(any_facts())
@settings(max_examples=200, deadline=None)
def test_a_child_never_starts_a_mounted_step(at: GateFacts) -> None:
    if at.rider is not None:
        at = replace(at, rider=replace(at.rider, child=True))
    gates = gates_of(PEOPLE_STEP, at, ON)
    asked = next(one for one in gates if one.gate == "rider_experience")
    assert asked.answer in {GateAnswer.SHUT, GateAnswer.NOT_KNOWN}
    assert not may_start([asked])


def test_a_young_horse_with_everything_done_starts_its_first_bit() -> None:
    ready = facts(
        measures=(
            MeasureStands(measure="mouth_width", name="Mouth width", standing="stands"),
        ),
        findings=(
            finding("Eggbutt", "bit", "length", Answer.GOOD),
            finding("Bridle", "bridle", "whole", Answer.GOOD),
        ),
        care=(seen(30, wolf_teeth="none"),),
    )
    assert may_start(gates_of(MOUTHING, ready, ON))
