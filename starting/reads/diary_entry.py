"""One entry of the diary: reason, what to bring, what it rests on, what it became."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final
from uuid import UUID

from django.db.models import Q
from django.urls import reverse

from fitting.models import Horse, Tack, Yard
from fitting.reads.horses import horse_words
from starting.dated import (
    Act,
    DiaryRow,
    Doing,
    Gone,
    Records,
    Told,
    became,
    doing_of,
    told_of,
)
from starting.dated.bring import PRACTICE, TO_A_SHOP, for_a_visit, measuring_tools
from starting.dated.doing import WATCHED
from starting.diary import Entry, task_of
from starting.kit import Kit, kit_of
from starting.models import DiaryEntry, PastEntry
from starting.outlook import Outlook
from starting.reads.diary_past import gone_of, records_of
from starting.reads.diary_rests import Fact, Ground, rests_on, waits_for
from starting.reads.diary_rows import (
    SOON_DAYS,
    act_of,
    entry_of,
    live_row,
    past_row,
    visit_act,
)
from starting.reads.gate_links import places
from starting.reads.outlook import outlook_of

TRIED_AT_ONCE: Final = 8  # items offered by name; more are chosen on the next page
IN_SETS: Final = frozenset({"bridle", "bit"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Bring:
    """What to bring: plain words, tack with its hole, and where the words are from."""

    things: tuple[str, ...] = ()
    kit: tuple[Kit, ...] = ()
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryPage:
    """One entry, live or past. ``tick``: the row of its tick, to be taken back."""

    row: DiaryRow
    live: bool
    uid: str
    kind: str  # of horse, in words
    doing: Doing
    told: Told
    bring: Bring
    acts: tuple[Act, ...]
    rests: tuple[Fact, ...]
    waits: tuple[Fact, ...]
    after: tuple[DiaryRow, ...]
    before: tuple[DiaryRow, ...]
    soon: bool  # else nothing is urged yet
    can_tick: bool
    tick: int
    gone_on: date | None

    @property
    def printed(self) -> str:
        """What can be printed for it: a sheet to measure by, a card; empty: nothing."""
        names = {"measure": "sheet", "session": "card", "got": "shop"}
        return names.get(self.doing.record, "") if self.live else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """An entry of an address: its horse, published or gone, and how often it went."""

    horse: Horse
    entry: Entry
    uid: str
    row: DiaryEntry | None
    past: tuple[PastEntry, ...]  # newest last


def find(yard: Yard, number: UUID) -> Found | None:
    """Return the entry of an address; None: there is no such one (2 queries)."""
    of = Q(uid__startswith=f"{number}@")
    row = yard.diary.filter(of).select_related("horse__yard").first()
    past = tuple(yard.past_entries.filter(of).select_related("horse__yard"))
    last = past[-1] if past else None
    horse = row.horse if row else last.horse if last else None
    if horse is None:
        return None
    entry = entry_of(row) if row else gone_of(past[-1]).entry
    uid = row.uid if row else past[-1].uid
    return Found(horse=horse, entry=entry, uid=uid, row=row, past=past)


def entry_page(found: Found, role: str, today: date) -> EntryPage:
    """Return an entry's page (14 queries, of which 9 ask what became of it)."""
    horse, entry = found.horse, found.entry
    doing, outlook = doing_of(entry), outlook_of(horse)
    ground = _ground(horse, outlook, role)
    records = records_of(horse.yard, {horse.pk})[horse.pk]
    before = _before(found, records)
    live, slug = found.row is not None, horse.yard.slug
    row = live_row(found.row, slug, today) if found.row else before[-1]
    last = became(gone_of(found.past[-1]), records) if found.past else None
    soon = entry.on <= today + timedelta(days=SOON_DAYS)
    return EntryPage(
        row=row,
        live=live,
        uid=found.uid,
        kind=horse_words(horse, today),
        doing=doing,
        told=told_of(entry),
        bring=_bring(doing, outlook) if live else Bring(),
        acts=_acts(found, doing, outlook, soon=soon) if live else (),
        rests=rests_on(doing, ground),
        waits=waits_for(doing, ground) if live else (),
        after=_after(horse.yard, entry, today) if live else (),
        before=before if live else before[:-1],
        soon=soon,
        can_tick=doing.record == "tick" and soon and (live or not (last and last.tick)),
        tick=last.tick if last and not live else 0,
        gone_on=None if live else found.past[-1].gone_on,
    )


def _ground(horse: Horse, outlook: Outlook | None, role: str) -> Ground:
    names = {look.stage: look.name for look in outlook.stages} if outlook else {}
    return Ground(
        horse=horse,
        outlook=outlook,
        at=places(horse, role, names),
        visits=tuple(horse.care.all()),
    )


def _before(found: Found, records: Records) -> tuple[DiaryRow, ...]:
    """Return how often it has gone so far, and what became of it each time."""
    slug, rows = found.horse.yard.slug, []
    for row in found.past:
        gone: Gone = gone_of(row)
        told = became(gone, records)
        if told.is_told or found.row is None:
            rows.append(past_row(gone.entry, told, row.uid, slug))
    return tuple(rows)


def _after(yard: Yard, entry: Entry, today: date) -> tuple[DiaryRow, ...]:
    """Return the entries that come first (1 query)."""
    rows = yard.diary.filter(key__in=["", *entry.after])
    return tuple(live_row(row, yard.slug, today) for row in rows)


def _bring(doing: Doing, outlook: Outlook | None) -> Bring:
    if doing.record == "measure":
        return Bring(things=measuring_tools(doing.measures))
    if doing.record == "visit":
        things = for_a_visit(doing.what)
        return Bring(things=things, source=PRACTICE if things else "")
    if doing.record == "got":
        return Bring(things=TO_A_SHOP)
    look = outlook.stage(doing.what) if outlook else None
    if doing.record == "session" and look and outlook:
        return Bring(kit=_once(kit_of(look.gates, outlook.fits)))
    return Bring()


def _once(kit: Iterable[Kit]) -> tuple[Kit, ...]:
    """Return the tack with a set, which answers for bridle and bit, but once."""
    return tuple({(one.words if one.fits else one.name): one for one in kit}.values())


def _acts(
    found: Found, doing: Doing, outlook: Outlook | None, *, soon: bool
) -> tuple[Act, ...]:
    """Return the forms that make an entry true; a tick has its own button."""
    horse, slug = found.horse, found.horse.yard.slug
    if doing.record == "try_on":
        return _tryons(horse, doing.what)
    if doing.record == "session":
        return (_step(horse, doing.what, outlook, soon=soon),)
    if task_of(found.entry.key).startswith(WATCHED):
        seen = visit_act("tooth_change", slug, horse.key)
        return (Act(href=seen.href, text="Write a tooth change in", keepers=True),)
    act = act_of(found.entry, slug)
    return (act,) if act else ()


def _step(horse: Horse, stage: str, outlook: Outlook | None, *, soon: bool) -> Act:
    """Return the form of a step's record; before it may start, the step alone.

    Nothing is urged that something still holds, or that lies far ahead.
    """
    look = outlook.stage(stage) if outlook else None
    at = [horse.yard.slug, horse.key]
    if look is None or not look.may_start or not soon:
        there = reverse("starting:step", args=[*at, stage])
        return Act(href=there, text="See the step")
    if look.kind == "sessions":
        there = reverse("starting:log-session", args=at)
        return Act(href=f"{there}?step={stage}", text="Write up a session")
    there = reverse("starting:record-step", args=[*at, stage])
    return Act(href=there, text="Write down what came of it", keepers=True)


def _tryons(horse: Horse, kind: str) -> tuple[Act, ...]:
    """Return the form of each thing of a kind, if they are few (2 queries)."""
    there = reverse("fitting:try-on", args=[horse.yard.slug, horse.key])
    items = Tack.objects.filter(yard=horse.yard, kind=kind, gone__isnull=True)
    named = [(name, f"item={key}") for name, key in items.values_list("name", "key")]
    sets = horse.yard.sets.filter(gone__isnull=True).values_list("name", "key")
    made_up = [(name, f"set={key}") for name, key in sets if kind in IN_SETS]
    things = [*made_up, *named]
    if not 0 < len(things) <= TRIED_AT_ONCE:
        return (Act(href=there, text="Choose what to try on"),)
    return tuple(
        Act(href=f"{there}?{query}", text=f"Try on {name}") for name, query in things
    )
