"""Going back a step: a sign that asks for it, a yes lost twice, back too often.

All numbers here are ours.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Final, Literal

from starting.programme import Programme, Stage
from starting.progress.log import Log, tried
from starting.progress.values import Held, Look, Looked, SessionDone

GOOD_ONES_BACK: Final = 2  # ours: good sessions of the step before, then try again
LOSING_RUN: Final = 2  # ours: sessions running that lose an earlier yes
TOO_OFTEN: Final = 3  # ours: go-backs on one step ...
WITHIN_DAYS: Final = 30  # ours: ... from the first to the last of them
TO_LOOK_AT: Final[tuple[Look, ...]] = ("teeth", "back", "feet", "tack")


@dataclass(frozen=True, slots=True, kw_only=True)
class WentBack:
    """A day on which a step was lost, and by which rule."""

    on: date
    rule: Literal["go_back", "lost_yes"]


def falls_to(programme: Programme, stage: str, log: Log) -> str | None:
    """Return the nearest step of sessions to go back to, past any left out.

    None: there is none below, so that the step itself goes on.
    """
    to = programme.falls_back_to(stage)
    while to and (programme.stage(to).kind != "sessions" or log.left_out(to)):
        to = programme.falls_back_to(to)
    return to


def went_back(stage: Stage, sessions: Sequence[SessionDone]) -> Iterator[WentBack]:
    """Yield the days on which a step was lost, in order, at most one a day.

    A yes is lost by a *no* to what was yes on an earlier day: a *nearly* still makes
    a good session. Sessions that tried nothing are passed over; of a day on which
    only some lose, one counts as the last (ours: their order is not known).
    """
    yes: set[str] = set()
    run = 0
    for on, day in groupby(sessions, key=lambda done: done.on):
        rows = tuple(day)
        answers = [tried(stage, row) for row in rows]
        run = _run(run, [_loses(row, yes) for row in answers if row])
        yes |= {key for row in answers for key, answer in row if answer == "yes"}
        if any(row.stop == "go_back" for row in rows):
            run = 0
            yield WentBack(on=on, rule="go_back")
        elif run >= LOSING_RUN:
            run = 0
            yield WentBack(on=on, rule="lost_yes")


def _loses(answers: Sequence[tuple[str, str]], yes: set[str]) -> bool:
    return any(answer == "no" and key in yes for key, answer in answers)


def _run(before: int, losing: Sequence[bool]) -> int:
    if not losing:
        return before
    if all(losing):
        return before + len(losing)
    return 1 if any(losing) else 0


def gone_back(
    stage: Stage, log: Log, lost: Sequence[WentBack], to: str | None
) -> Held | None:
    """Return that a step waits for two good sessions of the one it fell back to.

    A later record by hand ends it: the keeper says that it is established.
    """
    if not lost or to is None:
        return None
    last = lost[-1]
    by_hand = log.by_hand(stage.key)
    good = log.good(log.programme.stage(to), last.on)
    if good >= GOOD_ONES_BACK or (by_hand and by_hand > last.on):
        return None
    return Held(
        rule=last.rule,
        stage=stage.key,
        since=last.on,
        to=to,
        needed=GOOD_ONES_BACK,
        good=good,
    )


def stuck(
    stage: Stage, lost: Sequence[WentBack], looked: Sequence[Looked]
) -> Held | None:
    """Return that a step, lost three times in 30 days, waits until pain is ruled out.

    Those three do not count once more towards the next time.
    """
    near: list[date] = []
    since: date | None = None
    for on in (one.on for one in lost):
        near = [*(day for day in near if (on - day).days <= WITHIN_DAYS), on]
        if len(near) == TOO_OFTEN:
            since, near = on, []
    if since is None:
        return None
    missing = still_to_look(TO_LOOK_AT, looked, since)
    if not missing:
        return None
    return Held(rule="stuck", stage=stage.key, since=since, waits_for=missing)


def still_to_look(
    wanted: Sequence[Look], looked: Sequence[Looked], since: date
) -> tuple[Look, ...]:
    """Return what nobody has found clear after a day; the newest look decides."""
    newest: dict[str, bool] = {}
    # Of two looks on one day the open one counts.
    for one in sorted(looked, key=lambda look: (look.on, not look.clear)):
        if one.on > since:
            newest[one.what] = one.clear
    return tuple(what for what in wanted if not newest.get(what, False))
