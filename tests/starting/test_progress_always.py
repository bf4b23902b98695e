from datetime import date, timedelta
from random import Random
from typing import get_args

from hypothesis import given, settings
from hypothesis import strategies as st

from starting.programme import StopLevel
from starting.progress import (
    CheckAnswer,
    Recorded,
    SessionDone,
    State,
    is_good,
)
from tests.starting.making_progress import DAY, KEYS, SMALL, by_hand, done, look, low

answers: st.SearchStrategy[CheckAnswer] = st.sampled_from(get_args(CheckAnswer))
stops: st.SearchStrategy[StopLevel | None] = st.sampled_from(
    (None, None, None, None, *get_args(StopLevel))
)
one_session = st.builds(
    done, st.integers(0, 50), st.sampled_from(KEYS), a=answers, b=answers, stop=stops
)
likely_yes: st.SearchStrategy[CheckAnswer] = st.sampled_from(
    ("yes", "yes", "yes", "nearly", "not_tried")
)
likely_good = st.builds(
    done, st.integers(0, 50), st.sampled_from(KEYS[:2]), a=likely_yes, b=likely_yes
)
logs = st.lists(st.one_of(one_session, likely_good), max_size=40)
hands = st.lists(
    st.builds(by_hand, st.sampled_from(KEYS), st.integers(0, 50), out=st.booleans()),
    max_size=6,
)


@given(logs, hands, st.randoms())
def test_the_order_in_which_the_log_is_given_never_matters(
    sessions: list[SessionDone], records: list[Recorded], random: Random
) -> None:
    one_a_day = list({(record.stage, record.on): record for record in records}.values())
    shuffled, records_too = sessions.copy(), one_a_day.copy()
    random.shuffle(shuffled)
    random.shuffle(records_too)
    assert look(shuffled, records_too, day=55) == look(sessions, one_a_day, day=55)


@given(logs, st.sampled_from(KEYS), likely_yes, likely_yes)
def test_a_later_good_session_never_takes_an_established_step_away(
    sessions: list[SessionDone], key: str, a: CheckAnswer, b: CheckAnswer
) -> None:
    before = look(sessions, day=60)
    after = look([*sessions, done(60, key, a=a, b=b)], day=60)
    for one, then in zip(before.stages, after.stages, strict=True):
        if one.state == "established":
            assert (then.state, then.established_on) == (one.state, one.established_on)
            assert then.go_over_again <= one.go_over_again


@given(logs, hands)
@settings(max_examples=50)
def test_a_log_grown_day_by_day_ends_as_the_log_loaded_at_once(
    sessions: list[SessionDone], records: list[Recorded]
) -> None:
    established: dict[str, date] = {}
    for day in range(0, 56, 5):
        so_far = [one for one in sessions if one.on <= DAY + timedelta(days=day)]
        at = look(so_far, records, day=day)
        assert at == look(sessions, records, day=day)
        for stage in at.stages:
            if stage.established_on and not records:
                kept = established.setdefault(stage.stage, stage.established_on)
                assert kept == stage.established_on


@given(logs, hands, st.integers(0, 120))
def test_every_state_is_one_of_the_five_and_agrees_with_its_figures(
    sessions: list[SessionDone], records: list[Recorded], day: int
) -> None:
    at = look(sessions, records, day=day)
    assert [one.stage for one in at.stages] == KEYS
    for one in at.stages:
        assert one.state in get_args(State)
        assert (one.state == "established") == (one.established_on is not None)
        assert 0 <= one.good_sessions <= one.sessions
        assert one.state != "under_way" or one.sessions > 0
        assert one.state not in ("open", "waiting") or one.sessions == 0
        assert not one.go_over_again or one.state == "established"
        passed = one.state in ("established", "left_out") or one.stage == "checked"
        assert (one.sessions_left == 0) == passed
    assert at.last_true_level in (None, *KEYS)


def needed_by_hand(sessions: list[SessionDone]) -> int:
    """Count by trying: how many all-yes sessions, a day each, establish *low*."""
    for more in range(12):
        extra = [done(60 + n) for n in range(more)]
        if low(*sessions, *extra, day=80).state == "established":
            return more
    raise AssertionError


@given(st.lists(st.one_of(one_session, likely_good), max_size=25))
def test_sessions_left_is_the_greater_of_the_typical_and_what_trying_shows(
    sessions: list[SessionDone],
) -> None:
    mine = [one for one in sessions if one.stage == "low"]
    at = low(*mine, day=55)
    needed = needed_by_hand(mine)
    typical = 6 - at.good_sessions
    assert at.sessions_left == (max(needed, typical) if needed else 0)


def plainly_established(sessions: list[SessionDone]) -> bool:
    """The rule read once more, in another way, over a whole log of *low*."""
    for last in sorted({one.on for one in sessions}):
        so_far = [one for one in sessions if one.on <= last]
        good = [one for one in so_far if is_good(SMALL.stage("low"), one)]
        newest = [one for one in so_far if sum(o.on > one.on for o in so_far) < 2]
        twice = all(yes_on_last_two(so_far, key) for key in ("a", "b"))
        if len(good) >= 3 and twice and not [one for one in newest if one.stop]:
            return True
    return False


def yes_on_last_two(sessions: list[SessionDone], key: str) -> bool:
    by_day: dict[date, set[str]] = {}
    for one in sessions:
        answer = dict(one.checks)[key]
        if answer != "not_tried":
            by_day.setdefault(one.on, set()).add(answer)
    last_two = [by_day[on] for on in sorted(by_day)[-2:]]
    return last_two == [{"yes"}, {"yes"}]


@given(st.lists(st.one_of(one_session, likely_good), max_size=25))
def test_the_tally_agrees_with_the_rule_read_over_the_whole_log(
    sessions: list[SessionDone],
) -> None:
    mine = [one for one in sessions if one.stage == "low"]
    assert (low(*mine, day=55).state == "established") == plainly_established(mine)
