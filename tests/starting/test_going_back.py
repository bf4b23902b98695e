"""A step is lost by a sign or by a yes lost twice, and too often means pain."""

import pytest

from starting.progress import Look, Recorded, SessionDone
from tests.starting.making_rules import KEYS, WAY, held, look_at, on, ride, seen, up_to

CHECK = WAY.stage("long_reins").checks[0].key
OTHER = WAY.stage("long_reins").checks[1].key
REST = up_to("saddle")
ALL_LOOKED: tuple[Look, ...] = ("teeth", "back", "feet", "tack")


def test_a_sign_to_go_back_asks_for_two_good_sessions_of_the_step_before() -> None:
    lost = ride(5, "roller", stop="go_back")
    back = held(seen(5, [lost], REST), "roller")["go_back"]
    assert (back.to, back.needed, back.good, back.since) == (
        "cloth_and_ropes",  # the step its programme names
        2,
        0,
        on(5),
    )
    one = [lost, ride(6, "cloth_and_ropes")]
    assert held(seen(6, one, REST), "roller")["go_back"].good == 1
    two = [*one, ride(8, "cloth_and_ropes")]
    assert held(seen(8, two, REST), "roller") == {}


def test_a_step_without_a_named_way_back_falls_to_its_last_prerequisite() -> None:
    lost = ride(5, "long_reins", stop="go_back")
    assert WAY.stage("long_reins").falls_back_to is None
    assert held(seen(5, [lost], REST), "long_reins")["go_back"].to == "cloth_and_ropes"


@pytest.mark.parametrize("stop", ["end_today", "ring_vet"])
def test_the_other_stop_signs_ask_for_no_step_back(stop: str) -> None:
    lost = ride(5, "roller", stop=stop)  # type: ignore[arg-type]
    assert held(seen(5, [lost], REST), "roller") == {}


def test_sessions_of_the_same_day_and_bad_ones_do_not_count_as_good_ones_back() -> None:
    below = WAY.stage("cloth_and_ropes").checks[0].key
    log = [
        ride(5, "roller", stop="go_back"),
        ride(5, "cloth_and_ropes"),
        ride(6, "cloth_and_ropes", no=[below]),
        ride(7, "cloth_and_ropes", stop="end_today"),
    ]
    assert held(seen(7, log, REST), "roller")["go_back"].good == 0


def test_what_stands_on_a_lost_step_waits_and_the_level_is_the_one_below() -> None:
    at = seen(5, [ride(5, "long_reins", stop="go_back")], REST)
    assert at.of("long_reins").state == "established"
    assert at.of("long_reins").go_over_again
    assert at.of("long_reins_out").state == "established"
    only = [one for one in REST if one.stage not in {"saddle", "long_reins_out"}]
    lost = seen(5, [ride(5, "long_reins", stop="go_back")], only)
    assert lost.of("saddle").state == "waiting"
    assert seen(5, (), only).of("saddle").state == "open"
    assert seen(5, (), only).last_true_level == "long_reins_on_bit"


def test_a_way_back_through_a_check_or_a_step_left_out_goes_further_down() -> None:
    out = Recorded(stage="saddle", state="left_out", on=on(0))
    records = [*(one for one in REST if one.stage != "saddle"), out]
    lost = ride(5, "person_above", stop="go_back")
    assert held(seen(5, [lost], REST), "person_above")["go_back"].to == "saddle"
    # First saddle falls back to its last prerequisite, the long reins.
    further = held(seen(5, [lost], records), "person_above")["go_back"]
    assert further.to == "long_reins"


def test_a_first_step_has_nowhere_to_go_back_to() -> None:
    assert held(seen(5, [ride(5, "company", stop="go_back")]), "company") == {}


def test_a_record_by_hand_after_it_ends_a_step_back_but_not_one_before_it() -> None:
    lost = [ride(5, "roller", stop="go_back")]
    later = Recorded(stage="roller", state="established", on=on(9))
    others = [one for one in REST if one.stage != "roller"]
    assert held(seen(9, lost, [*others, later]), "roller") == {}
    assert held(seen(8, lost, [*others, later]), "roller") != {}


def test_two_sessions_running_that_lose_an_earlier_yes_ask_the_same() -> None:
    log = [ride(1, "long_reins"), ride(2, "long_reins", no=[CHECK])]
    assert held(seen(2, log, REST), "long_reins") == {}
    twice = [*log, ride(4, "long_reins", no=[OTHER])]
    lost = held(seen(4, twice, REST), "long_reins")["lost_yes"]
    assert (lost.to, lost.needed, lost.since) == ("cloth_and_ropes", 2, on(4))


def test_a_no_to_what_was_never_yes_loses_nothing() -> None:
    log = [ride(n, "long_reins", no=[CHECK]) for n in range(4)]
    assert held(seen(4, log, REST), "long_reins") == {}


def test_a_good_session_between_two_that_lose_breaks_the_run() -> None:
    log = [
        ride(1, "long_reins"),
        ride(2, "long_reins", no=[CHECK]),
        ride(3, "long_reins"),
        ride(4, "long_reins", no=[CHECK]),
    ]
    assert held(seen(4, log, REST), "long_reins") == {}
    assert held(seen(5, [*log, ride(5, "long_reins", no=[CHECK])], REST), "long_reins")


def test_two_losing_sessions_of_one_day_are_two_running() -> None:
    log = [ride(1, "long_reins"), *[ride(2, "long_reins", no=[CHECK])] * 2]
    assert "lost_yes" in held(seen(2, log, REST), "long_reins")


def three_lost(*days: int) -> list[SessionDone]:
    return [ride(n, "roller", stop="go_back") for n in days]


def test_three_go_backs_in_thirty_days_wait_for_teeth_back_feet_and_tack() -> None:
    stuck = held(seen(30, three_lost(0, 10, 30), REST), "roller")["stuck"]
    assert (stuck.waits_for, stuck.since) == (ALL_LOOKED, on(30))
    assert "stuck" not in held(seen(31, three_lost(0, 10, 31), REST), "roller")
    assert "stuck" not in held(seen(30, three_lost(0, 30), REST), "roller")


def test_the_looks_come_after_the_third_and_leave_nothing_open() -> None:
    lost = three_lost(0, 10, 30)
    same_day = look_at(30, *ALL_LOOKED)
    assert "stuck" in held(seen(31, lost, REST, looked=same_day), "roller")
    some = look_at(31, "teeth", "back")
    left = held(seen(31, lost, REST, looked=some), "roller")["stuck"]
    assert left.waits_for == ("feet", "tack")
    sore = (*look_at(31, *ALL_LOOKED), *look_at(32, "back", clear=False))
    still = held(seen(32, lost, REST, looked=sore), "roller")["stuck"]
    assert still.waits_for == ("back",)
    mended = (*sore, *look_at(40, "back"))
    assert "stuck" not in held(seen(40, lost, REST, looked=mended), "roller")


def test_three_that_were_looked_into_do_not_count_once_more() -> None:
    looked = look_at(31, *ALL_LOOKED)
    fourth = seen(35, three_lost(0, 10, 30, 35), REST, looked=looked)
    assert "stuck" not in held(fourth, "roller")
    again = seen(45, three_lost(0, 10, 30, 35, 40, 45), REST, looked=looked)
    assert held(again, "roller")["stuck"].since == on(45)


def test_a_record_by_hand_never_passes_the_looks() -> None:
    records = [
        *(one for one in REST if one.stage != "roller"),
        Recorded(stage="roller", state="established", on=on(33)),
    ]
    assert "stuck" in held(seen(33, three_lost(0, 10, 30), records), "roller")


def test_only_the_step_that_was_lost_is_held() -> None:
    at = seen(30, three_lost(0, 10, 30), REST)
    assert [key for key in KEYS if at.of(key).held] == ["roller"]
