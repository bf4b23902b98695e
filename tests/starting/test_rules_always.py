"""The rules over many logs: replay, order, and a slow but sound learner gets there."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from random import Random
from statistics import median
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from starting.programme import StopLevel
from starting.progress import (
    CheckAnswer,
    Held,
    Incident,
    Look,
    Looked,
    Progress,
    Recorded,
    SessionDone,
)
from tests.starting.making_rules import KEYS, WAY, look_at, on, ride, seen, up_to

SPAN = 200
days = st.integers(0, SPAN)
stops: st.SearchStrategy[StopLevel | None] = st.sampled_from(
    (None, None, None, *get_args(StopLevel))
)
RIDDEN_KEYS = [key for key in KEYS if WAY.stage(key).kind == "sessions"][8:]


@st.composite
def sessions(draw: st.DrawFn) -> SessionDone:
    stage = draw(st.sampled_from(RIDDEN_KEYS))
    checks = [check.key for check in WAY.stage(stage).checks]
    wrong = draw(st.lists(st.sampled_from(checks), max_size=1))
    return ride(draw(days), stage, no=wrong, stop=draw(stops))


logs = st.lists(sessions(), max_size=25)
incidents = st.lists(
    st.builds(
        lambda day, what: Incident(on=on(day), what=what),
        days,
        st.sampled_from(["fall", "bolt", "line_dragged", "kick"]),
    ),
    max_size=2,
)
looks = st.lists(
    st.builds(
        lambda day, what, clear: Looked(what=what, on=on(day), clear=clear),
        days,
        st.sampled_from(get_args(Look)),
        st.booleans(),
    ),
    max_size=8,
)
tops = st.sampled_from(["roller", "saddle", "led_walk", "riding_away"])


@given(logs, incidents, looks, tops, days)
@settings(max_examples=60, deadline=None)
def test_a_log_read_day_by_day_ends_as_the_log_loaded_at_once(
    log: list[SessionDone],
    happened: list[Incident],
    looked: list[Looked],
    top: str,
    day: int,
) -> None:
    so_far = seen(
        day,
        [one for one in log if one.on <= on(day)],
        up_to(top),
        incidents=[one for one in happened if one.on <= on(day)],
        looked=[one for one in looked if one.on <= on(day)],
    )
    assert so_far == seen(day, log, up_to(top), incidents=happened, looked=looked)


@given(logs, incidents, looks, tops, st.randoms())
@settings(max_examples=40, deadline=None)
def test_the_order_in_which_it_was_written_down_never_matters(
    log: list[SessionDone],
    happened: list[Incident],
    looked: list[Looked],
    top: str,
    random: Random,
) -> None:
    at = seen(SPAN, log, up_to(top), incidents=happened, looked=looked)
    for rows in (log, happened, looked):
        random.shuffle(rows)
    assert seen(SPAN, log, up_to(top), incidents=happened, looked=looked) == at


@given(logs, incidents, looks, tops, days)
@settings(max_examples=60, deadline=None)
def test_whatever_holds_a_step_can_be_done_or_waited_for(
    log: list[SessionDone],
    happened: list[Incident],
    looked: list[Looked],
    top: str,
    day: int,
) -> None:
    at = seen(day, log, up_to(top), incidents=happened, looked=looked)
    everything = [held for one in at.stages for held in one.held]
    for held in everything:
        assert held.since <= on(day)
        assert held.to or held.waits_for or held.opens_on
        assert held.opens_on is None or held.opens_on > on(day)
        if held.needed:
            assert 0 <= held.good < held.needed
            assert KEYS.index(held.to) < KEYS.index(held.stage) or (
                held.rule == "long_off"
            )
        if held.rule != "new_tack":
            assert at.last_true_level != held.stage
    after = _cleared(at, log, happened, looked, top, day)
    assert not any(one.held for one in after.stages)


def _cleared(
    at: Progress,
    log: list[SessionDone],
    happened: list[Incident],
    looked: list[Looked],
    top: str,
    day: int,
) -> Progress:
    """Do as the rules say, day by day, until nothing is held any more."""
    done, clear = list(log), list(looked)
    done = [one for one in done if one.on <= on(day)]
    past = [one for one in happened if one.on <= on(day)]
    for _ in range(120):
        if not any(one.held for one in at.stages):
            return at
        day += 1
        clear += look_at(day, "vet", "teeth", "back", "feet", "saddle", "tack")
        done += [ride(day, to) for to in _ways(at)]
        at = seen(day, done, up_to(top), incidents=past, looked=clear)
    return at


def _ways(at: Progress) -> list[str]:
    """Return the steps to do instead, of those that nothing holds themselves."""
    named = dict.fromkeys(held.to for one in at.stages for held in one.held if held.to)
    sessions = [key for key in named if WAY.stage(key).kind == "sessions"]
    return [key for key in sessions if not at.of(key).held]


@dataclass(slots=True, kw_only=True)
class Learner:
    """Somebody slow but sound, who does as the rules say: three days a week."""

    random: Random
    log: list[SessionDone] = field(default_factory=list)
    records: dict[str, Recorded] = field(default_factory=dict)
    looked: list[Looked] = field(default_factory=list)
    fired: Counter[str] = field(default_factory=Counter)

    def look(self, day: int) -> Progress:
        return seen(day, self.log, list(self.records.values()), looked=self.looked)

    def practise(self, day: int, stage: str) -> None:
        """Every fourth answer is not yet a yes, and every twentieth session stops."""
        checks = WAY.stage(stage).checks
        done = sum(one.stage == stage for one in self.log)
        odds = min(0.93, 0.6 + 0.03 * done)
        answers: list[tuple[str, CheckAnswer]] = [
            (check.key, self._answer(odds)) for check in checks
        ]
        signs: tuple[StopLevel | None, ...] = (None, "end_today", "go_back")
        stop = self.random.choices(signs, weights=(95, 3, 2))[0]
        self.log.append(
            SessionDone(
                on=on(day),
                stage=stage,
                checks=tuple(answers),
                stop=stop,
            )
        )

    def _answer(self, odds: float) -> CheckAnswer:
        if self.random.random() < odds:
            return "yes"
        return "nearly" if self.random.random() < 0.7 else "no"


def next_step(at: Progress) -> str | None:
    """Return what to do next: a way back, what is stale below, then the next ahead."""
    back = _ways(at)
    if back:
        return back[0]
    for one in at.stages:
        stage = WAY.stage(one.stage)
        if one.state in {"established", "left_out"} or one.held or stage.optional:
            continue
        before = [at.of(key) for key in stage.prerequisites]
        if stage.kind != "rest" and all(b.state == "established" for b in before):
            stale = [b.stage for b in before if b.go_over_again and not b.held]
            return stale[0] if stale else one.stage
    return None


def bring_on(seed: int, most_days: int = 1500) -> tuple[Learner, int | None]:
    """Return the learner, and the day it was led under a rider; None: never."""
    first = KEYS.index("yields_in_hand")
    came_with = up_to(KEYS[first - 1])
    learner = Learner(random=Random(seed))
    learner.records = {one.stage: one for one in came_with}
    for day in range(1, most_days):
        if day % 7 not in {1, 3, 5}:
            continue
        at = learner.look(day)
        if at.of("led_walk").state == "established" and not any(
            one.held for one in at.stages
        ):
            return learner, day
        _asked(learner, at, day)
        to = next_step(at)
        if to is None:
            continue
        if WAY.stage(to).kind == "sessions":
            learner.practise(day, to)
        else:
            learner.records[to] = Recorded(stage=to, state="established", on=on(day))
    return learner, None


def _asked(learner: Learner, at: Progress, day: int) -> None:
    """Have looked at what a rule asks for, and count how often each rule acted."""
    holds: list[Held] = [held for one in at.stages for held in one.held]
    for held in holds:
        if held.since == learner.log[-1].on:
            learner.fired[held.rule] += 1
        learner.looked += look_at(day, *held.waits_for)


def test_no_log_of_a_slow_but_sound_learner_ever_locks_it_out(
    capsys: pytest.CaptureFixture[str],
) -> None:
    runs = [bring_on(seed) for seed in range(12)]
    reached = [day for _, day in runs if day is not None]
    rules = sum((learner.fired for learner, _ in runs), Counter[str]())
    sessions = sum(len(learner.log) for learner, _ in runs)
    acted = ", ".join(f"{rule} {n}" for rule, n in sorted(rules.items()))
    with capsys.disabled():
        print(  # noqa: T201  the rate itself is what is asked for
            f"\n{len(reached)} of {len(runs)} slow learners were led under a rider, the"
            f" middle one after {median(reached):.0f} days; of {sessions} sessions a"
            f" rule acted after: {acted}"
        )
    assert len(reached) == len(runs)
    assert min(rules["go_back"], rules["lost_yes"]) > 0  # they were put to the test
