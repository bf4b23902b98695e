from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from fitting.age import Foaled
from starting.gates import (
    Gate,
    GateAnswer,
    MeasureStands,
    Off,
    gate_name,
    gates_of,
    holding,
    may_start,
)
from starting.gates.words import NAMES
from starting.programme import shipped
from starting.programme_fields import (
    DATED_GATES,
    FIT_KINDS,
    FRESH_MEASURES,
    ON_THE_DAY_GATES,
    TO_DO_GATES,
)
from tests.starting.making_gates import (
    ALL_DONE,
    ASTRIDE,
    BRIDLE,
    CHECK,
    MOUTHING,
    ON,
    PROGRAMME,
    STAGES,
    YIELDS,
    born,
    done,
    facts,
    gate,
    progress_of,
)

DAY = timedelta(days=1)


@pytest.mark.parametrize(
    ("on", "answer"),
    [
        (date(2025, 4, 18), GateAnswer.SHUT),  # the day before 24 months
        (date(2025, 4, 19), GateAnswer.CAUTION),
        (date(2025, 10, 18), GateAnswer.CAUTION),
        (date(2025, 10, 19), GateAnswer.MET),  # 30 months
    ],
)
def test_age_is_shut_to_the_floor_and_a_caution_to_the_earliest_age(
    on: date, answer: GateAnswer
) -> None:
    asked = gate("age", BRIDLE, on)
    assert asked.answer is answer
    opens = None if answer is GateAnswer.MET else date(2025, 10, 19)
    assert asked.opens_on == opens
    assert asked.kind == "dated"


def test_age_says_its_ages_are_no_targets_and_the_floors_are_ours() -> None:
    asked = gate("age", BRIDLE, date(2025, 4, 18))
    assert "earliest starting points, not targets" in asked.caution
    assert "the floors under them are ours" in asked.caution
    assert "Bracken is 23 months old" in asked.why
    assert "19 October 2025" in asked.why
    assert "ours" in asked.sources


def test_a_step_without_a_floor_is_never_shut_by_age() -> None:
    check = replace(CHECK, earliest_months=28)
    assert gate("age", check, date(2023, 6, 1)).answer is GateAnswer.CAUTION


def test_a_step_counted_in_days_opens_on_its_day() -> None:
    feet = replace(YIELDS, earliest_months=0.25, earliest_days=8)
    asked = gate("age", feet, date(2023, 4, 26))
    assert asked.answer is GateAnswer.CAUTION
    assert asked.opens_on == date(2023, 4, 27)
    assert "7 days old" in asked.why
    assert gate("age", feet, date(2023, 4, 27)).answer is GateAnswer.MET


def test_a_foaling_year_counts_from_its_last_day() -> None:
    year = Foaled(first=date(2023, 1, 1), last=date(2023, 12, 31))
    asked = gate("age", BRIDLE, date(2026, 6, 29), foaled=year)
    assert asked.answer is GateAnswer.CAUTION
    assert "at least 29 months" in asked.why


def test_a_day_before_the_last_foaling_day_is_no_age() -> None:
    year = Foaled(first=date(2026, 1, 1), last=date(2026, 12, 31))
    assert "as late as 31 December 2026" in gate("age", BRIDLE, foaled=year).why


def test_steps_before_are_missed_by_name() -> None:
    asked = gate("stages_before", BRIDLE, progress=progress_of(done("yields_in_hand")))
    assert asked.answer is GateAnswer.SHUT
    assert asked.why == "First comes: Body check."
    assert asked.record == "stage:body_check"


@pytest.mark.parametrize(
    ("optional", "answer"), [(True, GateAnswer.MET), (False, GateAnswer.SHUT)]
)
def test_a_step_left_out_counts_as_settled_only_where_it_is_optional(
    optional: bool, answer: GateAnswer
) -> None:
    stages = (YIELDS, replace(CHECK, optional=optional), BRIDLE)
    at = progress_of(done("yields_in_hand"), done("body_check", "left_out"))
    asked = gate(
        "stages_before",
        BRIDLE,
        progress=at,
        programme=replace(PROGRAMME, stages=stages),
    )
    assert asked.answer is answer


def test_a_step_to_go_over_again_is_a_caution_that_no_reason_passes() -> None:
    at = progress_of(done("yields_in_hand", again=True), done("body_check"))
    asked = gate("stages_before", BRIDLE, progress=at)
    assert asked.answer is GateAnswer.CAUTION
    assert not asked.may_pass
    assert not may_start([asked])


def test_a_step_asked_for_once_need_not_be_fresh() -> None:
    back = replace(
        BRIDLE, prerequisites=("body_check",), prerequisites_once=("body_check",)
    )
    lapsed = progress_of(done("body_check", "under_way", again=True))
    assert gate("stages_before", back, progress=lapsed).answer is GateAnswer.MET
    never = progress_of(replace(done("body_check", "open"), established_on=None))
    assert gate("stages_before", back, progress=never).answer is GateAnswer.SHUT


@pytest.mark.parametrize(
    ("standing", "answer"),
    [
        ("stands", GateAnswer.MET),
        ("stale", GateAnswer.CAUTION),
        ("never", GateAnswer.NOT_KNOWN),
    ],
)
def test_a_measure_is_met_while_it_stands(standing: str, answer: GateAnswer) -> None:
    asked = gate("fresh:mouth_width", MOUTHING, measures=(mouth(standing),))
    assert asked.answer is answer
    assert asked.record == "measure:mouth_width"


def mouth(standing: str, last_on: date | None = None) -> MeasureStands:
    return MeasureStands(
        measure="mouth_width",
        name="Mouth width",
        standing=standing,  # type: ignore[arg-type]
        last_on=last_on,
    )


def test_a_measure_nobody_spoke_of_is_not_known_and_holds() -> None:
    asked = gate("fresh:mouth_width", MOUTHING)
    assert asked.answer is GateAnswer.NOT_KNOWN
    assert asked.would_meet == "Measure her mouth width."
    assert not may_start([asked])


def test_a_measure_past_its_last_day_no_longer_stands() -> None:
    past = replace(mouth("stands"), until=ON - DAY)
    asked = gate("fresh:mouth_width", MOUTHING, measures=(past,))
    assert asked.answer is GateAnswer.CAUTION


@pytest.mark.parametrize("key", MOUTHING.gates_on_the_day + ASTRIDE.gates_on_the_day)
def test_what_is_asked_on_the_day_is_a_question_and_holds_nothing(key: str) -> None:
    stage = MOUTHING if key in MOUTHING.gates_on_the_day else ASTRIDE
    asked = gate(key, stage, progress=progress_of())
    assert asked.kind == "on_the_day"
    assert asked.answer is GateAnswer.NOT_KNOWN
    assert asked.why.endswith("?")
    assert may_start([asked])
    assert asked.opens_on is None


def test_a_second_person_at_first_is_asked_for_until_two_good_sessions() -> None:
    one = progress_of(replace(done("mouthing", "under_way"), good_sessions=1))
    two = progress_of(replace(done("mouthing", "under_way"), good_sessions=2))
    key = "second_person_first"
    assert gate(key, MOUTHING, progress=one).answer is GateAnswer.NOT_KNOWN
    assert gate(key, MOUTHING, progress=two).answer is GateAnswer.MET


def test_a_rider_wears_a_body_protector() -> None:
    roller = replace(BRIDLE, gates_on_the_day=("safety_gear",))
    assert "body protector" in gate("safety_gear", ASTRIDE).why
    assert "body protector" not in gate("safety_gear", roller).why


ALLOWED = sorted(
    DATED_GATES
    | TO_DO_GATES
    | ON_THE_DAY_GATES
    | {f"fit:{kind}" for kind in FIT_KINDS}
    | {f"fresh:{measure}" for measure in FRESH_MEASURES}
)


@pytest.mark.parametrize("key", ALLOWED)
def test_every_gate_that_a_programme_may_ask_for_has_its_rule(key: str) -> None:
    fields = ("gates_dated", "gates_to_do", "gates_on_the_day")
    sets = (DATED_GATES, TO_DO_GATES, ON_THE_DAY_GATES)
    of = next((f for f, s in zip(fields, sets, strict=True) if key in s), fields[1])
    stage = replace(YIELDS, **{of: (key,)})  # type: ignore[arg-type]
    asked = next(one for one in gates_of(stage, facts(), ON) if one.gate == key)
    assert asked.stage == stage.key
    assert asked.why.endswith((".", "?"))
    assert asked.sources
    assert asked.answer is GateAnswer.MET or asked.would_meet
    assert key not in DATED_GATES | TO_DO_GATES or asked.kind != "on_the_day"


@pytest.mark.parametrize(
    "key", sorted({key for key in ALLOWED if key not in ON_THE_DAY_GATES} - {"season"})
)
def test_where_nothing_is_written_down_no_gate_but_the_months_is_met(key: str) -> None:
    dated = (key,) if key in DATED_GATES else ()
    stage = replace(YIELDS, gates_dated=dated, gates_to_do=() if dated else (key,))
    asked = next(one for one in gates_of(stage, facts(), ON) if one.gate == key)
    assert asked.answer is not GateAnswer.MET
    assert not may_start([asked])


def test_every_step_is_asked_for_age_steps_before_rest_and_off_work() -> None:
    for stage in STAGES:
        keys = [one.gate for one in gates_of(stage, facts(), ON)]
        assert {"age", "stages_before", "rest", "off_work"} <= set(keys)
        listed = stage.gates_dated + stage.gates_to_do + stage.gates_on_the_day
        assert tuple(keys[4:]) == listed


def test_every_gate_of_the_shipped_programme_is_named_and_answered() -> None:
    programme = shipped()
    assert len(programme.stages) == 36
    for stage in programme.stages:
        for one in gates_of(stage, facts(programme=programme), ON):
            assert one.why.endswith((".", "?"))
            assert one.gate.partition(":")[0] in {"fresh", "fit"} or one.gate in NAMES


def test_the_one_reason_is_what_the_horse_is_off_work_for() -> None:
    off = Off(start=ON, why="lame", cleared_by="the vet")
    young = facts(off=(off,), foaled=born(ON), progress=progress_of())
    held = holding(gates_of(MOUTHING, young, ON))
    assert [one.gate for one in held[:3]] == ["off_work", "age", "stages_before"]


def test_steps_before_come_ahead_of_what_is_to_do() -> None:
    held = holding(gates_of(MOUTHING, facts(progress=progress_of()), ON))
    assert held[0].gate == "stages_before"


def test_what_is_held_is_all_that_keeps_a_step_from_starting() -> None:
    open_step = gates_of(BRIDLE, facts(progress=ALL_DONE), ON)
    assert holding(open_step) == ()
    assert may_start(open_step)


@pytest.mark.parametrize(
    ("key", "name"),
    [
        ("age", "old enough"),
        ("fresh:mouth_width", "mouth width measured"),
        ("fit:bit", "a bit that fits"),
        ("fit:saddle", "a saddle that fits"),
        ("teeth", "teeth looked at"),
        ("something_new", "something new"),
    ],
)
def test_a_gate_is_called_what_the_trade_says(key: str, name: str) -> None:
    assert gate_name(key) == name


def test_a_colt_is_he() -> None:
    asked: Gate = gate("second_person", ASTRIDE, she="he")
    assert asked.why == "Is somebody at his head who knows horses?"
