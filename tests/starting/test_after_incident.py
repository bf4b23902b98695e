"""After a fall, a bolt or a dragged line: a wait, looks, then up again from below."""

from datetime import timedelta

import pytest

from starting.progress import Incident, Recorded
from tests.starting.making_rules import KEYS, held, look_at, on, ride, seen, up_to

RIDING = up_to("led_walk")
LINES = (
    "roller", "long_reins", "long_reins_on_bit", "long_reins_out", "saddle",
)  # fmt: skip
MOUNTED = KEYS[KEYS.index("ready_check") :]


def happened(what: str = "fall", day: int = 1) -> tuple[Incident, ...]:
    return (Incident(on=on(day), what=what),)


@pytest.mark.parametrize(
    "what", ["fall", "bolt", "bucked_off", "horse_down", "line_dragged"]
)
def test_steps_with_a_rider_and_on_lines_wait_fourteen_days_and_for_the_looks(
    what: str,
) -> None:
    at = seen(2, (), RIDING, incidents=happened(what))
    waiting = {key for key in KEYS if "incident" in held(at, key)}
    assert waiting == {"big_circle", *LINES, *MOUNTED} - {"turned_away"}
    wait = held(at, "led_walk")["incident"]
    assert (wait.since, wait.opens_on) == (on(1), on(15))
    assert wait.waits_for == ("vet", "teeth", "saddle")


@pytest.mark.parametrize("what", ["kick", "other"])
def test_a_kick_holds_nothing(what: str) -> None:
    assert seen(2, (), RIDING, incidents=happened(what)) == seen(2, (), RIDING)


def test_the_wait_ends_with_the_fourteenth_day_and_not_a_day_before() -> None:
    looked = look_at(3, "vet", "teeth", "saddle")
    before = seen(14, (), RIDING, incidents=happened(), looked=looked)
    assert held(before, "led_walk")["incident"].waits_for == ()
    after = seen(15, (), RIDING, incidents=happened(), looked=looked)
    assert held(after, "led_walk") == {}


def test_without_the_looks_no_time_opens_it() -> None:
    some = look_at(3, "vet", "teeth")
    wait = held(seen(50, (), RIDING, incidents=happened(), looked=some), "ready_check")[
        "incident"
    ]
    assert (wait.opens_on, wait.waits_for) == (None, ("saddle",))
    before = look_at(0, "vet", "teeth", "saddle")
    still = seen(20, (), RIDING, incidents=happened(), looked=before)
    assert held(still, "led_walk")["incident"].waits_for == ("vet", "teeth", "saddle")


def test_a_horse_never_saddled_needs_no_look_at_a_saddle() -> None:
    records = up_to("long_reins_on_bit")
    wait = held(seen(2, (), records, incidents=happened("bolt")), "long_reins")
    assert wait["incident"].waits_for == ("vet", "teeth")


def test_what_lies_ahead_holds_nothing_yet() -> None:
    assert seen(0, (), RIDING, incidents=happened(day=1)) == seen(0, (), RIDING)


LOOKED = look_at(3, "vet", "teeth", "saddle")


def test_after_a_fall_it_goes_up_again_from_the_ready_check() -> None:
    at = seen(15, (), RIDING, incidents=happened(), looked=LOOKED)
    again = [key for key in KEYS if at.of(key).again_since]
    assert again == [
        "ready_check",
        "person_above",
        "leaned_over",
        "astride",
        "led_walk",
    ]
    assert all(at.of(key).go_over_again for key in again)
    assert at.last_true_level == "saddle"


def test_the_ready_check_asks_for_a_new_record_each_step_for_a_good_session() -> None:
    records = [
        *(one for one in RIDING if one.stage != "ready_check"),
        Recorded(stage="ready_check", state="established", on=on(16)),
    ]
    at = seen(16, (), records, incidents=happened(), looked=LOOKED)
    assert not at.of("ready_check").go_over_again
    assert at.of("person_above").again_since == on(1)
    rides = [ride(17, "person_above"), ride(18, "leaned_over", stop="end_today")]
    then = seen(18, rides, records, incidents=happened(), looked=LOOKED)
    assert then.of("person_above").again_since is None
    assert then.of("leaned_over").again_since == on(1)  # no good session yet


def test_a_step_ahead_waits_until_the_climb_has_reached_it() -> None:
    records = [one for one in RIDING if one.stage != "led_walk"]
    at = seen(16, [ride(16, "astride")], records, incidents=happened(), looked=LOOKED)
    # A good session above stands for all below it, but never for a check.
    assert at.of("ready_check").again_since == at.of("astride").again_since == on(1)
    assert at.of("led_walk").state == "waiting"
    checked = [
        *(one for one in records if one.stage != "ready_check"),
        Recorded(stage="ready_check", state="established", on=on(16)),
    ]
    ridden = [ride(16, "astride")]
    then = seen(16, ridden, checked, incidents=happened(), looked=LOOKED)
    assert then.of("astride").again_since is None
    assert then.of("led_walk").state == "open"


def test_what_was_ridden_during_the_wait_is_not_the_climb() -> None:
    records = [
        *(one for one in RIDING if one.stage != "ready_check"),
        Recorded(stage="ready_check", state="established", on=on(14)),
    ]
    rides = [ride(14, "led_walk")]
    at = seen(15, rides, records, incidents=happened(), looked=LOOKED)
    assert at.of("person_above").again_since == on(1)
    rides = [ride(15, "led_walk")]
    later = seen(15, rides, records, incidents=happened(), looked=LOOKED)
    assert later.of("led_walk").again_since is None


def test_after_a_dragged_line_it_goes_up_again_from_the_long_reins() -> None:
    at = seen(15, (), RIDING, incidents=happened("line_dragged"), looked=LOOKED)
    again = {key for key in KEYS if at.of(key).again_since}
    assert again == {
        "long_reins", "long_reins_on_bit", "long_reins_out", "saddle", "ready_check",
        "person_above", "leaned_over", "astride", "led_walk",
    }  # fmt: skip
    assert (
        held(seen(2, (), RIDING, incidents=happened("line_dragged")), "led_walk")[
            "incident"
        ].to
        == "long_reins"
    )


def test_before_the_ready_check_every_incident_leads_to_the_long_reins() -> None:
    at = seen(2, (), up_to("long_reins"), incidents=happened("bolt"))
    assert held(at, "long_reins")["incident"].to == "long_reins"
    young = seen(2, (), up_to("handling_block"), incidents=happened("horse_down"))
    assert held(young, "long_reins")["incident"].to == ""
    assert not any(young.of(key).again_since for key in KEYS)


def test_the_last_of_two_incidents_sets_the_wait() -> None:
    both = (*happened(day=1), *happened("bolt", 9))
    wait = held(seen(16, (), RIDING, incidents=both, looked=LOOKED), "led_walk")
    assert (wait["incident"].since, wait["incident"].opens_on) == (on(9), on(23))
    assert wait["incident"].opens_on == on(9) + timedelta(days=14)
    assert wait["incident"].waits_for == ("vet", "teeth", "saddle")
