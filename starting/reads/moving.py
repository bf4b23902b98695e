"""What another programme would change for one horse, before it is moved there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.models import Horse
from fitting.reads.horses import horse_words
from starting.differences import Apart, differences, said_of_all
from starting.models import Plan, ProgrammeVersion
from starting.moves import Move, marks_of, moves
from starting.moves.moving import What
from starting.moves.saying import led, text, title
from starting.outlook import HorseFacts, Outlook, YardFacts, look_at_yard
from starting.programme import Programme
from starting.progress import Recorded, progress
from starting.progress.of_its_age import of_its_age
from starting.proposing import Proposal
from starting.reads.facts import programme_of, yard_facts
from starting.reads.outlook import outlook_of
from starting.reads.programmes import ProgrammeRow, programmes_page
from starting.reads.which_programme import ref_of

Kept = tuple[Recorded, ...]
TOGETHER: Final[tuple[What, ...]] = ("left_out", "taken_up")


@dataclass(frozen=True, slots=True, kw_only=True)
class DateMoved:
    """A step whose dates would move, with those that only follow it."""

    name: str
    title: str
    text: str
    followers: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoosePage:
    """Every programme a horse may follow, the one it has and the one asked about."""

    name: str
    key: str
    kind: str
    now: str
    now_name: str
    asked: Proposal | None
    rows: tuple[ProgrammeRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MovePage:
    """What a programme would change for one horse."""

    name: str
    key: str
    her: str
    to: str
    to_name: str
    from_name: str
    same: bool
    as_a_whole: tuple[str, ...]
    apart: tuple[Apart, ...]
    dates: tuple[DateMoved, ...]
    stays: tuple[str, ...]  # steps established that the new programme has
    kept: tuple[Recorded, ...]  # of these, those set by hand so that they stay
    vanish: tuple[str, ...]  # steps established that it has not got
    aim_lost: str
    complete: str
    settle_days: int


def choose_page(horse: Horse, plan: Plan, on: date) -> ChoosePage:
    """Return every programme a horse may follow (3 queries: horses, own, outlook)."""
    page, outlook = programmes_page(horse.yard), outlook_of(horse)
    return ChoosePage(
        name=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        now=ref_of(plan.programme),
        now_name=plan.programme.name,
        asked=outlook.asked if outlook else None,
        rows=(*page.shipped, *page.own),
    )


def move_page(
    horse: Horse, plan: Plan, version: ProgrammeVersion, on: date
) -> MovePage:
    """Return what a programme would change (27 queries: all facts, the outlook)."""
    facts = yard_facts(horse.yard)
    before = outlook_of(horse)
    old, new = programme_of(plan.programme), programme_of(version)
    mine = next(one for one in facts.horses if one.key == horse.key)
    done = _established(mine, old, on)
    kept = _kept(mine, new, done, on)
    after = _as_moved(facts, mine, new, kept, on)
    names = {stage.key: stage.name for stage in (*old.stages, *new.stages)}
    has = {stage.key for stage in new.stages}
    return MovePage(
        name=horse.name,
        key=horse.key,
        her="her" if horse.she == "she" else "him",
        to=ref_of(version),
        to_name=new.name,
        from_name=old.name,
        same=plan.programme.digest == version.digest,
        as_a_whole=said_of_all(old, new),
        apart=differences(old, new),
        dates=_dates(before, after),
        stays=tuple(names[one.stage] for one in done if one.stage in has),
        kept=kept,
        vanish=tuple(names[one.stage] for one in done if one.stage not in has),
        aim_lost=names.get(plan.aim_stage, "") if plan.aim_stage not in has else "",
        complete=after.complete,
        settle_days=new.settle_days,
    )


def kept_by(horse: Horse, plan: Plan, version: ProgrammeVersion, on: date) -> Kept:
    """Return the established steps that new counts alone would lose (26 queries)."""
    facts = yard_facts(horse.yard)
    mine = next(one for one in facts.horses if one.key == horse.key)
    done = _established(mine, programme_of(plan.programme), on)
    return _kept(mine, programme_of(version), done, on)


def _established(
    horse: HorseFacts, programme: Programme, on: date
) -> tuple[Recorded, ...]:
    """Return the steps that are established by a programme, with their days."""
    asked = of_its_age(programme, horse.foaled, horse.sessions, on)
    found = progress(asked, horse.sessions, horse.records, on).stages
    return tuple(
        Recorded(stage=one.stage, state="established", on=one.established_on)
        for one in found
        if one.established_on is not None
    )


def _kept(
    horse: HorseFacts, new: Programme, done: Sequence[Recorded], on: date
) -> Kept:
    """Return the established steps that the new counts alone would lose."""
    still = {one.stage for one in _established(horse, new, on)}
    has = {stage.key for stage in new.stages}
    return tuple(one for one in done if one.stage in has - still)


def _as_moved(
    facts: YardFacts,
    horse: HorseFacts,
    new: Programme,
    kept: Sequence[Recorded],
    on: date,
) -> Outlook:
    """Return the horse's outlook as it would be, the yard planned as one."""
    moved = replace(horse, programme=new, records=(*horse.records, *kept))
    horses = tuple(moved if one is horse else one for one in facts.horses)
    outlooks = look_at_yard(replace(facts, horses=horses), on)
    return next(one for one in outlooks if one.key == horse.key)


def _dates(before: Outlook | None, after: Outlook) -> tuple[DateMoved, ...]:
    if before is None:
        return ()
    found = [
        one
        for one in moves(marks_of(before), marks_of(after))
        if one.kind == "step" and one.what != "vanishes"
    ]
    many = [what for what in TOGETHER if sum(m.what == what for m in found) > 1]
    each = (
        DateMoved(
            name=one.move.mark.name,
            title=title(one.move),
            text=text(one.move),
            followers=tuple(follower.mark.name for follower in one.followers),
        )
        for one in led([m for m in found if m.what not in many])
    )
    return (*each, *(_together(what, found) for what in many))


def _together(what: What, found: Sequence[Move]) -> DateMoved:
    """Return steps that moved in one way, without days of their own, as one row."""
    rows = [one for one in found if one.what == what]
    names = ", ".join(one.mark.name for one in rows)
    return DateMoved(
        name=f"{len(rows)} steps", title=title(rows[0]), text=f"{names}.", followers=()
    )
