"""What is a helper's to do: whom to stand by, what to hold for, and what to bring."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, Literal

from starting.diary import BACKING, WORN, EntryKind
from starting.gates.words import CAUTION_SAFETY
from starting.outlook import DayAhead

FEW: Final = 8  # ours: of more to hold for on a day, those alike stand together
DAYS: Final = 14  # ours: today and the thirteen days after
HOLDS_FOR: Final[frozenset[EntryKind]] = frozenset({"measure", "try_on", "care"})
HANDS: Final = frozenset({"help", "handle"})
TO_HOLD: Final = ("headcollar and rope",)  # common practice, no published source

Part = Literal["stand_by", "ride", "train", "hold"]
PARTS: Final[dict[Part, str]] = {
    "stand_by": "Stand by as the second person.",
    "ride": "Ride, as the plan names you.",
    "train": "Be there as the trainer, as the plan names you.",
    "hold": "Hold the horse.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """Somebody who helps, and what they can do; a child holds no horse."""

    name: str
    can: frozenset[str] = HANDS
    child: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseDays:
    """One horse with the planned days of its steps, and whom its plan names."""

    name: str
    key: str
    days: tuple[DayAhead, ...]
    rider: str = ""
    trainer: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Appointment:
    """An entry of the diary that a horse is held for, and what is brought to it."""

    on: date
    kind: EntryKind
    horse: str
    title: str
    reason: str
    href: str
    what: str = ""  # the title without the horse
    bring: tuple[str, ...] = ()
    done_on: str = ""  # the address where it is written in; empty: not theirs


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One thing that is theirs to do on a day."""

    horse: str
    key: str  # of the horse; of an entry empty
    part: Part
    what: str
    lines: tuple[str, ...]
    worn: tuple[str, ...] = ()  # by them
    on_horse: tuple[str, ...] = ()
    ready: tuple[str, ...] = ()  # what is brought, or seen to before
    asks: tuple[str, ...] = ()
    caution: str = ""
    stage: str = ""
    href: str = ""
    done_on: str = ""
    since: date | None = None  # overdue: the day it was due
    short: str = ""  # what, without the horse
    names: tuple[tuple[str, str], ...] = ()  # of many alike: each horse, and its page

    @property
    def part_words(self) -> str:
        """What they do, in words."""
        return PARTS[self.part]


@dataclass(frozen=True, slots=True, kw_only=True)
class HelpDay:
    """One day with all that is theirs; today's may be empty, and no day of theirs."""

    on: date
    jobs: tuple[Job, ...]
    theirs: bool = True


def help_days(
    hand: Hand,
    horses: Sequence[HorseDays],
    entries: Sequence[Appointment],
    weekdays: frozenset[int],
    on: date,
) -> tuple[HelpDay, ...]:
    """Return what is theirs today and on their next days, up to a fortnight.

    Today always stands first, whether or not it is a day of theirs: what is due or
    overdue may be done on it. A child is asked for nothing (ours).

    Args:
        hand: who helps.
        horses: the youngsters, with the planned days of their steps.
        entries: of the diary, by day.
        weekdays: the helper's days, 0 for Monday.
        on: today.
    """
    days = (on + timedelta(days=n) for n in range(DAYS))
    found = (
        HelpDay(
            on=day,
            jobs=_gathered(tuple(_jobs(hand, horses, entries, day, on))),
            theirs=day.weekday() in weekdays,
        )
        for day in days
        if day == on or day.weekday() in weekdays
    )
    return tuple(day for day in found if day.jobs or day.on == on)


def _jobs(
    hand: Hand,
    horses: Sequence[HorseDays],
    entries: Sequence[Appointment],
    day: date,
    today: date,
) -> Iterator[Job]:
    if hand.child:
        return
    for horse in horses:
        for ahead in horse.days:
            part = _part(hand, horse, ahead)
            if ahead.on == day and part is not None:
                yield _session(horse, ahead, part)
    if not hand.can & HANDS:
        return
    for entry in entries:
        due = entry.on <= today if day == today else entry.on == day
        if due and entry.kind in HOLDS_FOR:
            yield _held(entry, today)


def _part(hand: Hand, horse: HorseDays, ahead: DayAhead) -> Part | None:
    if ahead.mounted and hand.name == horse.rider:
        return "ride"
    if ahead.mounted and hand.name == horse.trainer:
        return "train"
    return "stand_by" if ahead.second and hand.can & HANDS else None


def _session(horse: HorseDays, ahead: DayAhead, part: Part) -> Job:
    minutes = f"About {ahead.minutes} minutes, " if ahead.minutes else ""
    people = f"{ahead.people}." if minutes else f"{ahead.people.capitalize()}."
    first = (f"Only once this is done: {ahead.first}",) if ahead.first else ()
    return Job(
        horse=horse.name,
        key=horse.key,
        part=part,
        what=ahead.name,
        lines=(f"{minutes}{people}", *first),
        worn=WORN["mounted" if ahead.mounted else "in_hand"],
        on_horse=ahead.wear,
        asks=ahead.asks,
        caution=BACKING if ahead.mounted else CAUTION_SAFETY,
        stage=ahead.stage,
    )


def _held(entry: Appointment, today: date) -> Job:
    return Job(
        horse=entry.horse,
        key="",
        part="hold",
        what=entry.title,
        lines=(entry.reason,) if entry.reason else (),
        ready=tuple(dict.fromkeys((*TO_HOLD, *entry.bring))),
        href=entry.href,
        done_on=entry.done_on,
        since=entry.on if entry.on < today else None,
        short=entry.what,
    )


def _gathered(jobs: tuple[Job, ...]) -> tuple[Job, ...]:
    """Return a day's jobs; of many to hold for, those alike as one, with the horses."""
    held = [job for job in jobs if job.part == "hold"]
    if len(held) <= FEW:
        return jobs
    alike: dict[str, list[Job]] = {}
    for job in held:
        alike.setdefault(job.short, []).append(job)
    others = (job for job in jobs if job.part != "hold")
    return (*others, *(_as_one(short, rows) for short, rows in alike.items()))


def _as_one(short: str, jobs: Sequence[Job]) -> Job:
    ready = dict.fromkeys(thing for job in jobs for thing in job.ready)
    return Job(
        horse="",
        key="",
        part="hold",
        what=short,
        lines=(),
        ready=tuple(ready),
        since=min((job.since for job in jobs if job.since), default=None),
        names=tuple((job.horse, job.href) for job in jobs),
    )
