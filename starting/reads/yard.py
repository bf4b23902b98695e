"""What the yard's own pages show: today, what to write, the plan."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.lending import near_day
from fitting.models import Horse, Yard
from fitting.reads.apart import Apart, apart_of
from fitting.reads.horses import horse_words
from starting.models import DiaryEntry
from starting.outlook import AimLook, Brief, NextStep, Suggestion
from starting.reads.diary_rows import live_row
from starting.reads.outlook import briefs
from starting.turns import InTurn, whose_turn
from starting.week import FEW, Gathered, gathered

WEEK_DAYS: Final = 7
STEPS_OF_MANY: Final = 2
QUIET_FROM: Final = 9  # horses: from here on those with nothing to do get one line


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseToday:
    """One horse on the first page."""

    on: date
    name: str
    key: str
    kind: str
    off_work: str
    resting: str
    phases: tuple[str, ...]
    phase: str
    suggestions: tuple[Suggestion, ...]
    why_not_more: str
    why_stage: str
    watch: tuple[str, ...]
    apart: tuple[Apart, ...]
    complete: str
    asked: str

    @property
    def can_today(self) -> bool:
        """Whether something can be done with it this very day."""
        return any(one.next_on is None for one in self.suggestions)

    @property
    def why_not_today(self) -> str:
        """The one line of a horse for which nothing can be done today."""
        later = (
            f"{one.name}: next on {near_day(one.next_on, self.on)}."
            for one in self.suggestions
            if one.next_on
        )
        why = self.complete or self.why_not_more
        said = (self.off_work, self.resting, next(later, ""), why)
        return next((one for one in said if one), "Nothing is open today.")


@dataclass(frozen=True, slots=True, kw_only=True)
class TodayPage:
    """The first page of a yard."""

    on: date
    busy: tuple[HorseToday, ...]
    quiet: tuple[HorseToday, ...]
    grown: tuple[str, ...]
    week: tuple[Gathered, ...]
    empty: bool
    to_get: int
    turn: str  # whose it is, where there are fewer sessions than horses


def today_page(yard: Yard, on: date) -> TodayPage:
    """Return the first page (3 queries: horses, outlooks, diary)."""
    seen = briefs(yard)
    rows = list(yard.horses.all())
    young = [_horse_today(row, seen.get(row.key), on) for row in rows if not row.grown]
    young.sort(key=lambda horse: not horse.can_today)
    many = len(young) >= QUIET_FROM
    busy = [h for h in young if not many or h.can_today or h.apart]
    return TodayPage(
        on=on,
        busy=tuple(busy),
        quiet=tuple(h for h in young if h not in busy),
        grown=tuple(row.name for row in rows if row.grown),
        week=_week(yard, on),
        empty=not rows,
        to_get=sum(brief.to_get for brief in seen.values()),
        turn=_whose_turn(yard, rows, seen, on),
    )


def _whose_turn(
    yard: Yard, rows: Sequence[Horse], seen: Mapping[str, Brief], on: date
) -> str:
    found = ((row.name, b.turn) for row in rows if (b := seen.get(row.key)))
    turns = [InTurn(name=n, turn=t.turn, until=t.until) for n, t in found if t]
    return whose_turn(turns, yard.sessions_a_day, on)


def _horse_today(row: Horse, brief: Brief | None, on: date) -> HorseToday:
    phases = brief.phases if brief else ()
    begun = [name for name, state in phases if state not in {"waiting", "left_out"}]
    return HorseToday(
        on=on,
        name=row.name,
        key=row.key,
        kind=horse_words(row, on),
        off_work=brief.off_work if brief else "",
        resting=brief.resting if brief else "",
        phases=tuple(state for _, state in phases),
        phase=begun[-1] if begun else "",
        suggestions=brief.can_do_now if brief else (),
        why_not_more=brief.why_not_more if brief else "",
        why_stage=brief.why_not_more_stage if brief else "",
        watch=brief.soon_outgrown if brief else (),
        complete=brief.complete if brief else "",
        asked=brief.asked if brief else "",
        apart=apart_of(brief.contradictions, row.yard) if brief else (),
    )


def _week(yard: Yard, on: date) -> tuple[Gathered, ...]:
    """Return what is still to do, and the week's entries (1 query)."""
    until = on + timedelta(days=WEEK_DAYS - 1)
    rows = list(DiaryEntry.objects.filter(yard=yard, on__lte=until))
    acts = len(rows) <= FEW  # a gathered row shows none
    return gathered([live_row(row, yard.slug, on, acts=acts) for row in rows])


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseName:
    """A horse to choose: its name and its key."""

    name: str
    key: str
    grown: bool


def horse_names(yard: Yard) -> tuple[HorseName, ...]:
    """Return the horses to choose from, youngsters first (1 query)."""
    rows = yard.horses.order_by("grown", "name").values_list("name", "key", "grown")
    return tuple(HorseName(name=n, key=k, grown=g) for n, k, g in rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class HorsePlanRows:
    """The steps ahead of one horse, in the order of their days."""

    name: str
    key: str
    steps: tuple[NextStep, ...]
    undated: tuple[NextStep, ...]
    aim: AimLook | None
    pace: str
    complete: str


def plan_page(yard: Yard) -> tuple[HorsePlanRows, ...]:
    """Return the next steps of every youngster (2 queries); of many, the first two."""
    seen = briefs(yard)
    rows = [row for row in yard.horses.filter(grown=False) if row.key in seen]
    most = STEPS_OF_MANY if len(rows) >= QUIET_FROM else None
    return tuple(
        HorsePlanRows(
            name=row.name,
            key=row.key,
            steps=seen[row.key].next_steps[:most],
            undated=seen[row.key].undated,
            aim=seen[row.key].aim,
            pace=seen[row.key].pace,
            complete=seen[row.key].complete,
        )
        for row in rows
    )
