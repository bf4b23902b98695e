"""A move in words: how far, from which day to which, and why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.fit import Answer
from starting.moves.marks import Mark
from starting.moves.moving import Move, What
from starting.schedule.days import say_day

ANSWERS: Final = {
    Answer.GOOD: "good",
    Answer.WATCH: "only just",
    Answer.NO: "no",
    Answer.NOT_KNOWN: "can't say",
}
STEP_TITLES: Final[dict[What, str]] = {
    "dated": "has a day now",
    "undated": "has no day any more",
    "established": "established",
    "reopened": "no longer established",
    "left_out": "left out",
    "taken_up": "no longer left out",
    "appears": "new on the way up",
    "vanishes": "no longer on the way up",
}
NO_END: Final = "as far as is looked"
ALIKE_FROM: Final = 3  # steps; so many that come to the same are told as one


@dataclass(frozen=True, slots=True, kw_only=True)
class Led:
    """A move with those that only follow it: steps that wait for it."""

    move: Move
    followers: tuple[Move, ...] = ()


def led(found: Sequence[Move]) -> tuple[Led, ...]:
    """Return the moves by those that lead them, the order kept.

    A step follows another if it waits for it, and both moved the same way.
    """
    by_key = {one.mark.subject: one for one in found if one.kind == "step"}
    first = {one.mark.subject: _leader(one, by_key) for one in by_key.values()}
    return tuple(
        Led(
            move=one,
            followers=tuple(
                other
                for key, other in by_key.items()
                if one.kind == "step" and other is not one and first[key] is one
            ),
        )
        for one in found
        if one.kind == "item" or first[one.mark.subject] is one
    )


def _leader(one: Move, by_key: dict[str, Move]) -> Move:
    """Return the step whose move moved this one; itself where none did."""
    leader, seen = one, {one.mark.subject}
    while True:
        before = leader.after.waits_for if leader.after else ""
        ahead = by_key.get(before)
        if ahead is None or ahead.what != one.what:
            return leader
        if before in seen:  # they wait for each other: each is told by itself
            return one
        seen.add(before)
        leader = ahead


def title(one: Move) -> str:
    """Return how a step or an item moved, in a few words."""
    if one.days is not None and one.what in {"later", "sooner"}:
        by = days_said(abs(one.days))
        if one.kind == "item":
            return f"good for {by} {'longer' if one.what == 'later' else 'less'}"
        return f"{by} {one.what}"
    if one.kind == "item":
        return _item_title(one)
    return STEP_TITLES.get(one.what, one.what)


def _item_title(one: Move) -> str:
    if one.what == "later":
        return "good for longer"
    if one.what == "sooner":
        return "good for less long"
    answer = ANSWERS[Answer(one.mark.state)]
    return f"{answer} now" if one.what == "good" else f"{answer}, no longer good"


def text(one: Move) -> str:
    """Return from which day to which it moved, and why; full sentences."""
    said = _item_text(one) if one.kind == "item" else " ".join(_step_text(one))
    return said.strip()


def _step_text(one: Move) -> Iterator[str]:
    was, now = one.before, one.after
    if now and now.day:
        yield f"Likely done {say_day(now.day)}{_it_was(was)}."
    elif was and was.day:
        yield f"Before: likely done {say_day(was.day)}."
    if one.what in {"reopened", "taken_up"}:
        yield "What is written down no longer says so."
    yield from why(one)


def _it_was(was: Mark | None) -> str:
    if was is None:
        return ""
    return f"; it was {say_day(was.day)}" if was.day else "; it had no day before"


def why(one: Move) -> Iterator[str]:
    """Yield why a step stands where it is now; full sentences."""
    was, now = one.before, one.after
    if now is None:
        return
    waited = now.free and one.what == "later"
    if was and now.day and (was.left != now.left or (waited and now.left)):
        yield _left(was.left, now.left)
    if now.because and not waited:
        yield now.because


def _left(was: int, now: int) -> str:
    plural = "" if now == 1 else "s"
    before = "as many as before" if was == now else f"it was {was}"
    return f"About {now} session{plural} still to come, {before}."


def _item_text(one: Move) -> str:
    now, was = one.after, one.before
    if was is None or now is None:
        return ""
    if one.what == "not_good":
        return f"It was good until about {_until(was)}."
    if one.what == "good":
        before = ANSWERS[Answer(was.state)]
        return f"Good until about {_until(now)}; the answer before: {before}."
    return f"Good until about {_until(now)}; it was {_until(was)}."


def _until(mark: Mark) -> str:
    return say_day(mark.day) if mark.day else NO_END


def days_said(days: int) -> str:
    """Return a number of days with its word."""
    return f"{days} day" if days == 1 else f"{days} days"


def sentence(horse: str, one: Move) -> str:
    """Return a move as one sentence with the horse's name."""
    was, now = one.before, one.after
    name = f"{horse}'s {one.mark.name}"
    if one.kind == "step" and was and now and was.day and now.day:
        reason = _joined(why(one))
        return f"{name} moves from {from_to(was.day, now.day)}{reason}."
    said = text(one)
    return f"{name}: {title(one)}.{f' {said}' if said else ''}"


def _joined(reasons: Iterable[str]) -> str:
    """Return sentences as one clause behind a colon."""
    said = "; ".join(f"{one[:1].lower()}{one[1:]}".rstrip(".") for one in reasons)
    return f": {said}" if said else ""


def from_to(was: date, now: date) -> str:
    """Return two days: ``3 Mar to 17 Mar 2027``; both with a year where it differs."""
    said = say_day(was) if was.year != now.year else say_day(was)[:-5]
    return f"{said} to {say_day(now)}"


def alike(found: Iterable[Led]) -> tuple[tuple[Led, ...], ...]:
    """Return the moves in runs: many steps that came to the same state are one run."""
    runs: dict[object, list[Led]] = {}
    for one in found:
        state = one.move.what if one.move.what in STEP_TITLES else None
        same = state if one.move.kind == "step" and state else one.move.mark.subject
        runs.setdefault((one.move.kind, same), []).append(one)
    return tuple(
        part
        for run in runs.values()
        for part in ([tuple(run)] if len(run) >= ALIKE_FROM else [(x,) for x in run])
    )


def run_title(run: Sequence[Led]) -> str:
    """Return what many steps came to: ``15 steps: established``."""
    return f"{len(run)} steps: {title(run[0].move)}"


def run_names(run: Sequence[Led]) -> str:
    """Return the names of many steps."""
    return f"{', '.join(one.move.mark.name for one in run)}."


def run_sentence(horse: str, run: Sequence[Led]) -> str:
    """Return a run as one sentence with the horse's name."""
    if len(run) == 1:
        return sentence(horse, run[0].move)
    return f"{horse}, {run_title(run)}, the last of them {run[-1].move.mark.name}."


def loudest(found: Iterable[Led], most: int) -> tuple[tuple[Led, ...], ...]:
    """Return what matters most on a first page: steps by how far they moved."""
    return tuple(sorted(alike(found), key=_loudness)[:most])


def _loudness(run: Sequence[Led]) -> tuple[bool, int]:
    far = run[0].move.days
    return run[0].move.kind == "item", -abs(far) if far is not None else -1_000
