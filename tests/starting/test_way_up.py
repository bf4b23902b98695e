import re
import tomllib
from importlib.resources import files
from typing import Any

import pytest

from fitting.body import MEASURES
from starting.programme import Programme, Stage, needs_second_person, shipped
from starting.programme_fields import FRESH_MEASURES

STEPS = shipped().stages
by_step = pytest.mark.parametrize("step", STEPS, ids=lambda step: step.key)


def ancestors(programme: Programme, step: Stage) -> set[str]:
    found = set(step.prerequisites)
    for key in step.prerequisites:
        found |= ancestors(programme, programme.stage(key))
    return found


def test_the_way_up_has_its_36_steps_in_seven_phases() -> None:
    in_order = (
        "company first_headcollar feet led_with_dam ramp_with_dam weaned"
        " handling_block tied_and_groomed led_out travels stands_to_measure"
        " grow_at_grass yields_in_hand cloth_and_ropes body_check bridle mouthing"
        " led_in_bit roller big_circle long_reins long_reins_on_bit long_reins_out"
        " saddle side_reins ready_check person_above leaned_over astride led_walk"
        " off_the_lead first_trot first_hack riding_away turned_away brought_back"
    )
    assert " ".join(step.key for step in STEPS) == in_order
    assert len(STEPS) == 36
    assert len(dict.fromkeys(step.phase for step in STEPS)) == 7
    assert {step.key for step in STEPS if step.optional} == {
        "big_circle", "side_reins", "turned_away",
    }  # fmt: skip


def test_the_floors_are_24_months_for_tack_and_36_for_a_rider() -> None:
    # Ours: both floors are policy; the gates shut below them.
    keys = [step.key for step in STEPS]
    tack, rider = keys.index("bridle"), keys.index("ready_check")
    assert {step.floor_months for step in STEPS[:tack]} == {None}
    assert {step.floor_months for step in STEPS[tack:rider]} == {24}
    assert {step.floor_months for step in STEPS[rider:]} == {36}


def test_no_purposeful_tack_before_30_months_and_no_rider_before_36() -> None:
    # German guideline on animal welfare in horse sport, 2020, read in summaries:
    # training for use not before 30 months, counted from the true birthday.
    for step in STEPS:
        if step.floor_months is not None:
            assert step.earliest_months >= (30 if step.floor_months == 24 else 36)


def test_the_figures_of_single_steps_are_kept() -> None:
    of = shipped().stage
    assert of("turned_away").rest_days == 90
    assert of("grow_at_grass").ends_at_months == 30
    assert of("ready_check").recent_good == (4, 14)
    assert of("brought_back").prerequisites_once == ("riding_away",)
    assert (of("feet").earliest_days, of("led_with_dam").earliest_days) == (8, 23)
    assert (of("ramp_with_dam").people, of("ramp_with_dam").people_better) == (2, 3)
    assert (of("roller").people, of("roller").people_better) == (2, 2)
    assert of("mouthing").min_good_sessions == 6
    assert of("mouthing").typical_sessions == (8, 12)
    assert of("mouthing").prerequisites == ("bridle", "body_check")
    assert of("side_reins").prerequisites == ("big_circle", "long_reins_on_bit")
    assert of("led_with_dam").days_in_a_row == 2  # Loy and others 2019: two, then off


def test_the_shortest_way_from_bridle_to_a_led_ride_takes_44_good_sessions() -> None:
    # Ours: 3 + 6 + 4 + 4 + 5 + 5 + 5 on the ground, 3 + 3 + 2 + 4 in backing.
    on_the_way = (
        "bridle mouthing led_in_bit roller long_reins long_reins_on_bit saddle"
        " person_above leaned_over astride led_walk"
    )
    steps = [shipped().stage(key) for key in on_the_way.split()]
    assert sum(step.min_good_sessions for step in steps) == 44
    assert sum(step.typical_sessions[0] for step in steps) == 49
    assert sum(step.typical_sessions[1] for step in steps) == 79


@by_step
def test_no_step_may_start_before_what_it_needs(step: Stage) -> None:
    for key in step.prerequisites:
        assert shipped().stage(key).earliest_months <= step.earliest_months


@by_step
def test_an_optional_step_holds_up_no_step_that_must_be(step: Stage) -> None:
    if not step.optional:
        needed = [shipped().stage(key) for key in step.prerequisites]
        assert not [one.key for one in needed if one.optional]


@by_step
def test_a_step_falls_back_to_sessions_that_lie_beneath_it(step: Stage) -> None:
    back = shipped().falls_back_to(step.key)
    if step.kind == "sessions" and step.key != "company":
        assert back is not None
        assert shipped().stage(back).kind == "sessions"
        assert back in ancestors(shipped(), step)


def test_falling_back_follows_the_stop_signs_that_name_a_step() -> None:
    back = shipped().falls_back_to
    assert back("roller") == "cloth_and_ropes"
    assert back("long_reins_out") == "long_reins_on_bit"
    assert back("grow_at_grass") == "handling_block"
    assert back("leaned_over") == "person_above"  # its last prerequisite
    assert back("company") is None


@by_step
def test_a_sign_that_names_the_vet_rings_the_vet(step: Stage) -> None:
    assert step.stop_signs
    for sign in step.stop_signs:
        assert ("vet" in re.findall("[a-z]+", sign.text)) == (sign.level == "ring_vet")
        goes_back = "go back" in sign.text
        assert goes_back == (sign.level == "go_back")


@by_step
def test_every_step_with_a_rider_names_helper_hat_and_vest(step: Stage) -> None:
    words = " ".join(step.cautions)
    if step.floor_months == 36 and step.kind == "sessions":
        assert "Never alone" in words
        assert "hat to a current standard" in words.lower()
        assert "body protector" in words
        assert "ring the vet" in words
        assert step.people >= 2
        assert "safety_gear" in step.gates_on_the_day or step.key == "brought_back"


@by_step
def test_every_step_says_what_can_hurt_and_what_it_rests_on(step: Stage) -> None:
    assert step.cautions
    assert re.search(r"\bours\b|no published source|[12]\d{3}|\(", step.evidence)


@pytest.mark.parametrize(
    ("key", "who"),
    [
        ("mouthing", "qualified dental technician"),
        ("led_in_bit", "qualified dental technician"),
        ("long_reins_on_bit", "qualified dental technician"),
        ("body_check", "qualified dental technician"),
        ("saddle", "saddle fitter"),
        ("ready_check", "saddle fitter"),
        ("side_reins", "trainer"),
        ("astride", "trainer"),
        ("weaned", "vet"),
    ],
)
def test_a_caution_defers_to_those_who_know(key: str, who: str) -> None:
    assert who in " ".join(shipped().stage(key).cautions)


@pytest.mark.parametrize(
    "key", ["roller", "big_circle", "long_reins", "long_reins_on_bit", "long_reins_out"]
)
def test_lines_and_roller_are_never_worked_alone(key: str) -> None:
    step = shipped().stage(key)
    assert "Never alone" in " ".join(step.cautions)
    assert needs_second_person(step)
    assert "safety_gear" in step.gates_on_the_day


def test_a_second_person_is_needed_by_number_or_by_gate() -> None:
    assert not needs_second_person(shipped().stage("yields_in_hand"))
    assert not needs_second_person(shipped().stage("mouthing"))  # the first times only
    assert needs_second_person(shipped().stage("side_reins"))  # by its number of people
    assert needs_second_person(shipped().stage("long_reins_on_bit"))  # by its gate


def test_no_text_uses_a_code_a_mark_or_an_exclamation() -> None:
    text = (files("starting") / "programmes" / "default.toml").read_text("utf-8")
    assert not re.findall(r"\b[A-G][0-9]{1,2}\b|\[V|\bOWN\b|!", text)
    assert not re.findall(r"\d-\d", text)  # ranges are written with "to"


def test_all_text_on_screen_is_short_and_whole() -> None:
    for step in STEPS:
        assert len(step.name) <= 40, step.key
        assert step.aim.endswith(".")
        assert step.evidence.endswith(".")
        for check in step.checks:
            assert len(check.text) <= 85, check.text
            assert not check.text.endswith(".")
        for caution in step.cautions:
            assert caution.endswith(".")


def test_measures_asked_for_are_measures_of_the_body() -> None:
    growing = {measure.key for measure in MEASURES} - {"condition_score"}
    assert growing == FRESH_MEASURES


def test_the_file_and_the_steps_hold_the_same_fields() -> None:
    text = (files("starting") / "programmes" / "default.toml").read_text("utf-8")
    table: dict[str, Any] = tomllib.loads(text)
    for entry, step in zip(table["stage"], STEPS, strict=True):
        for name in set(entry) - {"checks", "stop_signs"}:
            value = getattr(step, name)
            assert (list(value) if isinstance(value, tuple) else value) == entry[name]
        assert [one.text for one in step.checks] == [c["text"] for c in entry["checks"]]
