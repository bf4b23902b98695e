"""A small programme and its log, for the tests of progress."""

from collections.abc import Iterable
from datetime import date, timedelta

from starting.programme import StopLevel, read_programme
from starting.progress import (
    CheckAnswer,
    Progress,
    Recorded,
    SessionDone,
    StageProgress,
    progress,
)

# Every number below follows from the rule itself, which is ours.
DAY = date(2031, 3, 3)


SESSIONS = """
kind = "sessions"
min_good_sessions = 3
typical_sessions = [4, 7]
minutes = [5, 10]
days_a_week = [2, 3]
days_in_a_row = 2
refresh_after_days = 30
people = 1
"""


def step(key: str, *, needs: Iterable[str] = (), more: str = SESSIONS) -> str:
    return f"""
[[stage]]
key = "{key}"
name = "{key}"
phase = "Only"
aim = "It stands."
earliest_months = 6
typical_months = [6, 9]
prerequisites = [{", ".join(f'"{one}"' for one in needs)}]
checks = [{{ key = "a", text = "A" }}, {{ key = "b", text = "B" }}]
stop_signs = []
evidence = "Ours."
{more}
"""


SMALL = read_programme(
    'name = "Small"\nfor_whom = "Nobody."\n'
    + step("low")
    + step("side", more=SESSIONS + "optional = true")
    + step("checked", needs=["low"], more='kind = "check"')
    + step("high", needs=["low", "side"])
    + step("top", needs=["high", "checked"])
    + step("back", needs=["top"], more=SESSIONS + 'prerequisites_once = ["top"]'),
    key="small",
)
KEYS = [one.key for one in SMALL.stages]


def done(
    day: int,
    stage: str = "low",
    *,
    a: CheckAnswer = "yes",
    b: CheckAnswer = "yes",
    stop: StopLevel | None = None,
) -> SessionDone:
    on = DAY + timedelta(days=day)
    return SessionDone(on=on, stage=stage, checks=(("a", a), ("b", b)), stop=stop)


def by_hand(stage: str, day: int = 0, *, out: bool = False) -> Recorded:
    on = DAY + timedelta(days=day)
    return Recorded(stage=stage, state="left_out" if out else "established", on=on)


def look(
    sessions: Iterable[SessionDone] = (),
    records: Iterable[Recorded] = (),
    *,
    day: int = 20,
) -> Progress:
    today = DAY + timedelta(days=day)
    return progress(SMALL, tuple(sessions), tuple(records), today)


def low(*sessions: SessionDone, day: int = 20) -> StageProgress:
    return look(sessions, day=day).of("low")
