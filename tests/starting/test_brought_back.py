"""Sixty days without a rider ask for the ladder; new tack for one session in it."""

from starting.progress import NewTack
from tests.starting.making_rules import KEYS, WAY, held, on, ride, seen, up_to

BACKED = up_to("led_walk")
RIDDEN = up_to("riding_away")


def test_more_than_sixty_days_off_a_mounted_step_ask_for_the_ladder() -> None:
    last = [ride(0, "led_walk")]
    assert held(seen(60, last, BACKED), "off_the_lead") == {}
    off = held(seen(61, last, BACKED), "off_the_lead")["long_off"]
    assert (off.to, off.needed, off.since) == ("roller", 1, on(0))


def test_the_ladder_is_climbed_in_order_one_good_session_each() -> None:
    log = [ride(0, "led_walk")]
    for day, rung in enumerate(
        ("roller", "long_reins", "saddle", "leaned_over", "led_walk"), start=70
    ):
        at = seen(day, log, BACKED)
        assert held(at, "off_the_lead")["long_off"].to == rung
        assert held(at, rung) == {}
        log.append(ride(day, rung))
    at = seen(75, log, BACKED)
    assert not any(at.of(key).held for key in KEYS)
    assert at.last_true_level == "led_walk"


def test_only_what_the_horse_knew_is_a_rung() -> None:
    log = [ride(0, "person_above"), *(ride(70 + n, k) for n, k in enumerate(
        ("roller", "long_reins", "saddle")))]  # fmt: skip
    at = seen(80, log, up_to("person_above"))
    assert held(at, "leaned_over")["long_off"].to == "person_above"


def test_a_session_of_a_rung_before_the_sixty_days_are_over_does_not_count() -> None:
    log = [ride(0, "led_walk"), ride(40, "roller")]
    assert held(seen(70, log, BACKED), "led_walk")["long_off"].to == "roller"


def test_a_session_with_a_rider_half_way_up_does_not_end_the_ladder() -> None:
    log = [ride(0, "led_walk"), ride(70, "led_walk")]
    assert held(seen(71, log, BACKED), "off_the_lead")["long_off"].to == "roller"


def test_a_horse_that_rode_away_is_brought_back_by_the_step_for_it() -> None:
    log = [ride(0, "riding_away")]
    off = held(seen(61, log, RIDDEN), "riding_away")["long_off"]
    assert (off.to, off.needed, off.good) == ("brought_back", 5, 0)
    assert held(seen(61, log, RIDDEN), "brought_back") == {}
    log += [ride(70 + n, "brought_back") for n in range(5)]
    assert held(seen(73, log, RIDDEN), "riding_away")["long_off"].good == 4
    assert held(seen(74, log, RIDDEN), "riding_away") == {}


def test_a_rest_and_the_checks_never_wait_for_the_ladder() -> None:
    at = seen(200, [ride(0, "riding_away")], RIDDEN)
    assert held(at, "turned_away") == held(at, "ready_check") == {}
    assert held(at, "long_reins") == {}


def test_a_horse_without_a_rider_yet_has_no_ladder() -> None:
    at = seen(400, [ride(0, "saddle")], up_to("saddle"))
    assert not any(at.of(key).held for key in KEYS)


def test_a_rung_that_went_back_leaves_the_way_to_the_step_below_it_open() -> None:
    log = [ride(0, "led_walk", stop="go_back")]
    rungs = ("roller", "long_reins", "saddle", "leaned_over")
    log += [ride(70 + n, rung) for n, rung in enumerate(rungs)]
    at = seen(80, log, BACKED)
    assert held(at, "led_walk")["go_back"].to == "astride"
    assert held(at, "astride") == {}
    assert held(at, "person_above")["long_off"].to == "led_walk"


NEW = NewTack(kind="roller", items=("Blue roller",))


def test_new_tack_asks_for_one_good_session_where_it_is_worn_for_its_own_sake() -> None:
    at = seen(1, (), BACKED, new=[NEW])
    asking = {key for key in KEYS if "new_tack" in held(at, key)}
    assert asking == {"long_reins", "brought_back"}
    hold = held(at, "long_reins")["new_tack"]
    assert (hold.to, hold.needed, hold.what) == ("roller", 1, "roller")
    worn = [ride(1, "roller", worn=("Blue roller",))]
    assert held(seen(1, worn, BACKED, new=[NEW]), "long_reins") == {}


def test_a_session_in_something_else_or_a_bad_one_is_not_the_one_in_new_tack() -> None:
    other = ride(1, "roller", worn=("Old roller",))
    bad = ride(1, "roller", worn=("Blue roller",), stop="end_today")
    elsewhere = ride(1, "long_reins", worn=("Blue roller",))
    for session in (other, bad, elsewhere):
        at = seen(1, [session], BACKED, new=[NEW])
        assert "new_tack" in held(at, "long_reins")


def test_altered_tack_asks_for_a_session_after_it_was_altered() -> None:
    altered = NewTack(kind="roller", items=("Blue roller",), since=on(5))
    before = [ride(5, "roller", worn=("Blue roller",))]
    assert "new_tack" in held(seen(6, before, BACKED, new=[altered]), "long_reins")
    after = [*before, ride(6, "roller", worn=("Blue roller",))]
    assert held(seen(6, after, BACKED, new=[altered]), "long_reins") == {}


def test_new_tack_is_no_lost_level() -> None:
    at = seen(1, (), BACKED, new=[NEW])
    assert at.of("long_reins").state == "established"
    assert not at.of("long_reins").go_over_again
    assert at.last_true_level == seen(1, (), BACKED).last_true_level


def test_what_is_not_learnt_yet_is_learnt_in_the_new_tack_anyway() -> None:
    at = seen(1, (), up_to("bridle"), new=[NEW])
    assert not any(at.of(key).held for key in KEYS)
    assert WAY.stage("long_reins").gates_to_do
