"""Small yards and programmes, for the tests of the plan."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from hypothesis import strategies as st

from starting.programme import Stage
from starting.schedule import (
    Closed,
    Hold,
    HorseAhead,
    PlannedStage,
    StageAhead,
    YardDays,
    plan_yard,
)

# 2 Mar 2026 is a Monday. Every number below follows from the rules, which are ours.
TODAY = date(2026, 3, 2)
BORN = date(2023, 3, 2)
EVERY_DAY = frozenset(range(7))
KEYS = ("bridle", "roller", "reins", "saddle", "check", "hack")


def day(n: int) -> date:
    return TODAY + timedelta(days=n)


def make_step(key: str = "bridle", **changed: Any) -> Stage:
    facts: dict[str, Any] = {
        "key": key,
        "name": key.capitalize(),
        "phase": "Only",
        "kind": "sessions",
        "aim": "It stands.",
        "days_a_week": (1, 7),
    }
    return Stage(**facts | changed)


def make_ahead(key: str = "bridle", left: int = 1, **changed: Any) -> StageAhead:
    ahead = {
        *("under_way", "holds", "to_dos", "recent_days", "fewest_left", "most_left"),
        *("good_sessions", "closed"),
    }
    facts = {name: changed.pop(name) for name in ahead & changed.keys()}
    return StageAhead(stage=make_step(key, **changed), sessions_left=left, **facts)


def make_horse(*stages: StageAhead, **changed: Any) -> HorseAhead:
    facts: dict[str, Any] = {"horse": "Pennyroyal", "born": BORN, "stages": stages}
    return HorseAhead(**facts | changed)


def make_yard(free: str = "0123456", helper: str = "", sessions: int = 2) -> YardDays:
    return YardDays(
        free=frozenset(map(int, free)),
        helper=frozenset(map(int, helper)),
        sessions_a_day=sessions,
    )


def plan_of(
    horse: HorseAhead, yard: YardDays | None = None, today: date = TODAY
) -> dict[str, PlannedStage]:
    (plan,) = plan_yard([horse], yard or make_yard(), today)
    return {one.stage: one for one in plan.stages}


def days_of(planned: PlannedStage) -> list[int]:
    return [(on - TODAY).days for on in planned.days]


small_days = st.integers(-6, 40).map(day)
some_days = st.lists(small_days, max_size=3, unique=True).map(tuple)
spans = st.builds(
    lambda first, length: (first, first + timedelta(days=length)),
    small_days,
    st.integers(0, 12),
)
past_days = st.lists(st.integers(-8, 0).map(day), max_size=3, unique=True)
holds = st.lists(
    st.builds(
        lambda until: Hold(gate="season", until=until, why="Out of season"),
        st.one_of(small_days, small_days, small_days, st.none()),
    ),
    max_size=1,
).map(tuple)
closings = st.lists(
    st.builds(
        lambda span: Closed(gate="season", first=span[0], last=span[1], why="Winter"),
        spans,
    ),
    max_size=2,
).map(tuple)
week = st.frozensets(st.integers(0, 6))


@st.composite
def steps_ahead(draw: st.DrawFn, place: int) -> StageAhead:
    kind = draw(st.sampled_from(["sessions"] * 4 + ["check", "event", "rest"]))
    earliest = draw(st.sampled_from([0, 12, 36, 37]))
    under_way = draw(st.booleans())
    return make_ahead(
        KEYS[place],
        draw(st.integers(0, 5)),
        kind=kind,
        optional=draw(st.booleans()),
        earliest_months=earliest,
        typical_months=(earliest + draw(st.sampled_from([0, 0, 1, 30])), 99),
        prerequisites=tuple(draw(st.sets(st.sampled_from(KEYS[:place])))) * 1
        if place
        else (),
        days_a_week=(1, draw(st.integers(1, 7))),
        days_in_a_row=draw(st.integers(0, 3)),
        people=draw(st.integers(1, 2)),
        two_a_day=draw(st.booleans()),
        gates_on_the_day=draw(st.sampled_from([(), (), ("second_person_first",)])),
        good_sessions=draw(st.integers(0, 2)),
        rest_days=draw(st.integers(1, 40)) if kind == "rest" else None,
        under_way=under_way,
        holds=draw(holds),
        closed=draw(closings),
        recent_days=tuple(draw(past_days)) if under_way and kind != "rest" else (),
    )


@st.composite
def horses_ahead(draw: st.DrawFn, name: str = "Pennyroyal") -> HorseAhead:
    stages = [draw(steps_ahead(place)) for place in range(draw(st.integers(1, 6)))]
    recent = {on for one in stages for on in one.recent_days}
    off = st.tuples(small_days, st.one_of(small_days, st.none()))
    return make_horse(
        *stages,
        horse=name,
        born=draw(st.sampled_from([BORN, date(2023, 4, 30), date(2024, 1, 31)])),
        rests=tuple(draw(st.lists(spans, max_size=1))),
        off_work=tuple(draw(st.lists(off, max_size=1))),
        care_days=draw(some_days),
        vaccinated=draw(some_days),
        gelded=tuple(draw(st.lists(off, max_size=1))),
        recent_days=tuple(sorted(recent)),
        as_early_as_allowed=draw(st.booleans()),
    )


yards = st.builds(YardDays, free=week, helper=week, sessions_a_day=st.integers(0, 3))


@st.composite
def whole_yards(draw: st.DrawFn) -> tuple[list[HorseAhead], YardDays]:
    names = ["Pennyroyal", "Tansy", "Woodruff"][: draw(st.integers(1, 3))]
    return [draw(horses_ahead(name)) for name in names], draw(yards)
