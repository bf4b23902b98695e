"""The log becomes each step's state.

A session is *good* when no stop sign was seen, at least one of its step's checks was
tried and none was answered no (ours). Sessions of one day have no order among
themselves: a check is yes on a day only if every answer of that day is yes. Sessions,
records and checks that the programme does not know are passed over, and so is all
that lies after the day asked for.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from starting.programme import Programme, Stage
from starting.progress.after_incident import WAIT_DAYS, aftermath
from starting.progress.going_back import falls_to, gone_back, stuck, went_back
from starting.progress.ladder import long_off
from starting.progress.log import Log, later, read_log
from starting.progress.tack import new_tack, outgrown
from starting.progress.tally import Tally, tally_of
from starting.progress.values import (
    Beside,
    CheckAnswer,
    Held,
    Progress,
    Recorded,
    SessionDone,
    StageProgress,
    State,
)

NOTHING: Final = Beside()
NOT_LOST: Final = frozenset({"new_tack", "outgrown"})  # tack is no lost level


def progress(
    programme: Programme,
    sessions: Sequence[SessionDone],
    records: Sequence[Recorded],
    today: date,
    beside: Beside = NOTHING,
) -> Progress:
    """Return every step's state from the log on a day, and the rules that hold it.

    ``waiting`` and ``open`` are told apart here by ``stages_before`` and the rules
    alone; the outlook turns ``open`` into ``waiting`` where another gate is shut. A
    step waits while a step before it is missing or needs going over again.
    """
    log = read_log(programme, sessions, records, today)
    seen = _seen(log, beside)
    found: dict[str, StageProgress] = {}
    for stage in programme.stages:
        ready = all(
            _passed(programme, stage, key, found) for key in stage.prerequisites
        )
        found[stage.key] = _progress_of(stage, seen, log, ready=ready)
    stages = tuple(found.values())
    true = [s.stage for s in stages if _stands(s)]
    return Progress(stages=stages, last_true_level=true[-1] if true else None)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Seen:
    """What the whole log says of every step."""

    tallies: Mapping[str, Tally]
    fresh: Mapping[str, date | None]
    held: Mapping[str, tuple[Held, ...]]
    again: Mapping[str, date]  # to be done again since an incident


def _free_the_way(
    off: dict[str, Held], lost: Mapping[str, tuple[Held, ...]]
) -> dict[str, Held]:
    """Return a ladder's holds without the steps that its next rung goes back to."""
    to = next((one.to for one in off.values()), "")
    while to and (ways := [one.to for one in lost[to] if one.to]):
        to = ways[0]
        off.pop(to, None)
    return off


def _seen(log: Log, beside: Beside) -> _Seen:
    tallies = {stage.key: tally_of(stage, log) for stage in log.programme.stages}
    looked = tuple(one for one in beside.looked if one.on <= log.today)
    beside = replace(beside, looked=looked)
    after = aftermath(log, tallies, beside)
    lost = {stage.key: _lost(stage, log, beside) for stage in log.programme.stages}
    off = _free_the_way(long_off(log, tallies), lost)
    tack = new_tack(log, tallies, beside.new_tack)
    small = outgrown(log.programme, tallies, beside.outgrown)
    held = {
        stage.key: (
            *_one(after.held.get(stage.key)),
            *lost[stage.key],
            *_one(off.get(stage.key)),
            *tack.get(stage.key, ()),
            *small.get(stage.key, ()),
        )
        for stage in log.programme.stages
    }
    return _Seen(
        tallies=tallies,
        fresh=_fresh_on(log, tallies),
        held=held,
        again=_still_to_climb(log, tallies, after.again),
    )


def _one(held: Held | None) -> tuple[Held, ...]:
    return (held,) if held else ()


def _lost(stage: Stage, log: Log, beside: Beside) -> tuple[Held, ...]:
    """Return what holds a step that was lost: pain to be ruled out, a step back."""
    lost = tuple(went_back(stage, log.sessions[stage.key]))
    to = falls_to(log.programme, stage.key, log)
    back = gone_back(stage, log, lost, to)
    return (*_one(stuck(stage, lost, beside.looked)), *_one(back))


def _fresh_on(log: Log, tallies: Mapping[str, Tally]) -> dict[str, date | None]:
    """Return the last day that kept each step fresh: its own, or of a step above it.

    A step set by hand counts as gone over on the day of its record.
    """
    kept = {key: later(t.last_on, t.established_on) for key, t in tallies.items()}
    worked = _with_those_above(log, {key: t.last_on for key, t in tallies.items()})
    return {key: later(kept[key], worked[key]) for key in kept}


def _still_to_climb(
    log: Log, tallies: Mapping[str, Tally], again: Mapping[str, date]
) -> dict[str, date]:
    """Return the steps without a good session, or record, once the wait was over.

    A good session of a step above does as well, but a check asks for its own record,
    and holds all that stands on it until then.
    """
    order = [stage.key for stage in log.programme.stages]
    good = _with_those_above(log, {key: t.last_good for key, t in tallies.items()})
    found: dict[str, date] = {}
    for key, since in sorted(again.items(), key=lambda one: order.index(one[0])):
        done = later(log.by_hand(key), good[key])
        if log.programme.stage(key).kind != "sessions":
            done = log.by_hand(key)
        over = since + timedelta(days=WAIT_DAYS)
        below = found.keys() & set(log.programme.stage(key).prerequisites)
        if done is None or done < over or below:
            found[key] = since
    return found


def _with_those_above(
    log: Log, days: Mapping[str, date | None]
) -> dict[str, date | None]:
    """Return the latest day of each step and all that stands on it."""
    latest = dict(days)
    for stage in reversed(log.programme.stages):
        for needed in stage.prerequisites:
            latest[needed] = later(latest[needed], latest[stage.key])
    return latest


def _passed(
    programme: Programme, stage: Stage, needed: str, found: Mapping[str, StageProgress]
) -> bool:
    before = found[needed]
    if before.state == "left_out":
        return programme.stage(needed).optional
    once = needed in stage.prerequisites_once
    return _stands(before) or (once and before.state == "established")


def _stands(stage: StageProgress) -> bool:
    return stage.state == "established" and not stage.go_over_again


def _progress_of(stage: Stage, seen: _Seen, log: Log, *, ready: bool) -> StageProgress:
    tally, held = seen.tallies[stage.key], seen.held[stage.key]
    fresh_on = seen.fresh[stage.key] if tally.established_on else None
    fresh_until = None
    if fresh_on and stage.refresh_after_days:
        fresh_until = fresh_on + timedelta(days=stage.refresh_after_days)
    stale = fresh_until is not None and fresh_until < log.today
    lost = any(one.rule not in NOT_LOST for one in held)
    again = seen.again.get(stage.key)
    established = tally.established_on is not None
    return StageProgress(
        stage=stage.key,
        state=_state(tally, ready=ready and not held),
        go_over_again=established and (stale or lost or again is not None),
        good_sessions=tally.good,
        sessions=tally.sessions,
        sessions_left=_sessions_left(stage, tally),
        required_left=_required_left(stage, tally),
        established_on=tally.established_on,
        last_on=tally.last_on,
        last_checks=_last_checks(stage, tally),
        fresh_on=fresh_on,
        fresh_until=fresh_until,
        held=held,
        again_since=again,
        clean_left=_clean_left(stage, tally),
    )


def _last_checks(stage: Stage, tally: Tally) -> tuple[tuple[str, CheckAnswer], ...]:
    last = tally.last_checks
    return tuple((c.key, last[c.key]) for c in stage.checks if c.key in last)


def _state(tally: Tally, *, ready: bool) -> State:
    if tally.established_on:
        return "established"
    if tally.left_out:
        return "left_out"
    if tally.sessions:
        return "under_way"
    return "open" if ready else "waiting"


def _required_left(stage: Stage, tally: Tally) -> int:
    if tally.established_on or tally.left_out or stage.kind != "sessions":
        return 0
    return tally.still_required(stage)


def _clean_left(stage: Stage, tally: Tally) -> int:
    over = tally.established_on or tally.left_out
    return 0 if over else tally.clean_left(stage)


def _sessions_left(stage: Stage, tally: Tally) -> int:
    """Return the typical middle, rounded up, less the good ones; 0 when passed."""
    if tally.established_on or tally.left_out or stage.kind != "sessions":
        return 0
    if left := tally.clean_left(stage):
        return left
    middle = (sum(stage.typical_sessions) + 1) // 2
    return max(middle - tally.good, tally.still_required(stage))
