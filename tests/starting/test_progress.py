from datetime import date, timedelta

import pytest

from starting.programme import shipped
from starting.progress import (
    CheckAnswer,
    SessionDone,
    is_good,
    progress,
)
from tests.starting.making_progress import DAY, KEYS, SMALL, by_hand, done, look, low


def test_three_good_sessions_with_every_check_yes_twice_establish_a_step() -> None:
    assert low(done(0), done(2)).state == "under_way"
    third = low(done(0), done(2), done(4))
    assert (third.state, third.established_on) == ("established", date(2031, 3, 7))
    assert (third.good_sessions, third.sessions_left) == (3, 0)


def test_two_sessions_on_one_day_are_one_tried_day() -> None:
    one_day = low(done(0), done(0), done(0))
    assert (one_day.good_sessions, one_day.state) == (3, "under_way")
    assert low(done(0), done(0), done(1)).established_on == date(2031, 3, 4)


def test_a_check_must_be_yes_on_its_last_two_tried_days() -> None:
    days = [done(0), done(1), done(2, a="nearly")]
    assert low(*days).state == "under_way"
    assert low(*days, done(3)).state == "under_way"
    assert low(*days, done(3), done(4)).state == "established"


def test_a_check_not_tried_neither_helps_nor_harms() -> None:
    days = [done(0), done(1), done(2, b="not_tried")]
    assert low(*days).state == "established"
    assert low(done(0, b="not_tried"), *days[1:]).state == "under_way"


def test_two_answers_of_one_day_count_as_the_worse() -> None:
    days = [done(0), done(1), done(2), done(2, a="nearly")]
    assert low(*days).state == "under_way"
    assert dict(low(*days).last_checks) == {"a": "nearly", "b": "yes"}


def test_a_stop_sign_in_the_last_two_sessions_holds_the_step() -> None:
    days = [done(0), done(1, stop="end_today"), done(2), done(3)]
    assert low(*days[:3]).state == "under_way"
    assert low(*days).state == "established"


@pytest.mark.parametrize(
    ("session", "good"),
    [
        (done(0), True),
        (done(0, a="nearly"), True),
        (done(0, a="not_tried"), True),
        (done(0, a="no"), False),
        (done(0, a="not_tried", b="not_tried"), False),
        (done(0, stop="end_today"), False),
        (done(0, stop="ring_vet"), False),
        (SessionDone(on=DAY, stage="low"), False),
        (SessionDone(on=DAY, stage="low", checks=(("other", "yes"),)), False),
        (SessionDone(on=DAY, stage="low", checks=(("a", "yes"), ("o", "no"))), True),
    ],
)
def test_a_good_session_tries_something_fails_nothing_and_has_no_stop_sign(
    session: SessionDone, good: bool
) -> None:
    assert is_good(SMALL.stage("low"), session) is good


@pytest.mark.parametrize(
    ("sessions", "left"),
    [
        ((), 6),  # the middle of 4 to 7, rounded up
        ((done(0),), 5),
        ((done(0), done(1, a="no")), 5),
        (tuple(done(n, a="nearly") for n in range(6)), 2),  # a is never yes yet
        ((*(done(n, a="nearly") for n in range(6)), done(6)), 1),
        (tuple(done(n, b="not_tried") for n in range(9)), 2),
        ((done(0), done(1, b="no"), done(2)), 4),
        ((done(0), done(1), done(2)), 0),
        ((*(done(n, a="nearly") for n in range(8)), done(9, stop="go_back")), 2),
    ],
)
def test_sessions_left_are_the_typical_middle_but_never_under_the_rule(
    sessions: tuple[SessionDone, ...], left: int
) -> None:
    assert low(*sessions).sessions_left == left


def test_a_step_is_open_when_those_before_it_are_established() -> None:
    nothing = look()
    assert [one.state for one in nothing.stages] == [
        "open", "open", "waiting", "waiting", "waiting", "waiting",
    ]  # fmt: skip
    assert look(records=[by_hand("low")]).of("checked").state == "open"
    assert look(records=[by_hand("low")]).of("high").state == "waiting"


def test_only_an_optional_step_may_be_left_out_on_the_way() -> None:
    left_out = look(records=[by_hand("low"), by_hand("side", out=True)])
    assert left_out.of("side").state == "left_out"
    assert left_out.of("side").sessions_left == 0
    assert left_out.of("high").state == "open"
    must_be = look(records=[by_hand("low", out=True), by_hand("side")])
    assert must_be.of("high").state == "waiting"


def test_a_session_takes_up_a_step_that_was_left_out() -> None:
    records = [by_hand("side", 5, out=True)]
    assert look([done(4, "side")], records).of("side").state == "left_out"
    assert look([done(6, "side")], records).of("side").state == "under_way"


def test_the_last_record_of_a_step_holds() -> None:
    records = [by_hand("side", 3, out=True), by_hand("side", 7)]
    assert look(records=records).of("side").established_on == date(2031, 3, 10)
    assert look(records=records, day=5).of("side").state == "left_out"
    same_day = [by_hand("side", 3), by_hand("side", 3, out=True)]
    assert look(records=same_day).of("side").state == "left_out"
    assert look(records=same_day[::-1]).of("side").state == "left_out"


def test_a_check_is_established_by_its_record_and_not_by_sessions() -> None:
    sessions = [done(n, "checked") for n in range(4)]
    assert look(sessions).of("checked").state == "under_way"
    assert look(sessions).of("checked").sessions_left == 0
    recorded = look(sessions, [by_hand("checked", 9)]).of("checked")
    assert (recorded.state, recorded.established_on) == (
        "established",
        date(2031, 3, 12),
    )


def test_a_step_is_gone_over_again_after_its_window_and_not_a_day_before() -> None:
    days = [done(0), done(1), done(2)]
    assert not low(*days, day=32).go_over_again
    late = low(*days, day=33)
    assert (late.state, late.go_over_again) == ("established", True)
    assert (late.fresh_on, late.fresh_until) == (date(2031, 3, 5), date(2031, 4, 4))


def test_a_step_that_never_goes_stale_stays_fresh() -> None:
    of = look(records=[by_hand("checked")], day=4000).of("checked")
    assert (of.go_over_again, of.fresh_until) == (False, None)


def test_a_session_keeps_all_the_steps_beneath_it_fresh() -> None:
    records = [by_hand(key) for key in ("low", "side", "checked", "high")]
    again = look([done(40, "top")], records, day=60)
    assert [one.stage for one in again.stages if one.go_over_again] == []
    beside = look([done(40, "checked")], records, day=60)
    assert [one.stage for one in beside.stages if one.go_over_again] == ["side", "high"]


def test_a_step_waits_while_one_before_it_needs_going_over_again() -> None:
    records = [by_hand("low"), by_hand("side")]
    assert look(records=records, day=30).of("high").state == "open"
    assert look(records=records, day=31).of("high").state == "waiting"
    refreshed = [done(31, "low"), done(31, "side")]
    assert look(refreshed, records, day=31).of("high").state == "open"


def test_what_is_needed_once_need_not_be_fresh() -> None:
    records = [by_hand(key) for key in KEYS if key != "back"]
    old = look(records=records, day=400)
    assert old.of("top").go_over_again
    assert old.of("back").state == "open"
    assert look(day=400).of("back").state == "waiting"


def test_the_last_true_level_is_the_furthest_step_that_is_fresh() -> None:
    assert look().last_true_level is None
    records = [by_hand("low", 15), by_hand("high", 0)]
    assert look(records=records).last_true_level == "high"
    assert look(records=records, day=40).last_true_level == "low"
    assert look(records=records, day=60).last_true_level is None


def test_what_lies_ahead_or_is_unknown_is_passed_over() -> None:
    known = [done(0), done(1)]
    strange = [done(2), done(1, "of_another_programme")]
    assert look([*known, *strange], day=1) == look(known, day=1)
    records = [by_hand("low", 2), by_hand("of_another_programme")]
    assert look(known, records, day=1) == look(known, day=1)


def test_an_unknown_step_is_a_key_error() -> None:
    with pytest.raises(KeyError, match="nowhere"):
        look().of("nowhere")


def test_last_checks_stand_in_the_order_of_the_step() -> None:
    session = SessionDone(on=DAY, stage="low", checks=(("b", "no"), ("a", "nearly")))
    assert low(session).last_checks == (("a", "nearly"), ("b", "no"))
    assert low(session).last_on == DAY


def test_a_youngster_goes_up_the_shipped_way_by_its_log() -> None:
    programme = shipped()
    first = programme.stage("company")
    said: CheckAnswer = "yes"
    yes = tuple((check.key, said) for check in first.checks)
    sessions = [
        SessionDone(on=DAY + timedelta(days=n), stage="company", checks=yes)
        for n in range(3)
    ]
    at = progress(programme, sessions, [], DAY + timedelta(days=3))
    assert at.last_true_level == "company"
    opened = [one.stage for one in at.stages if one.state == "open"]
    assert opened == ["first_headcollar", "feet"]
    assert progress(programme, [], [], DAY).of("company").sessions_left == 10
