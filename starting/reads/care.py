"""What the care page of a horse shows, and what its records mean."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.models import Horse
from fitting.reads.horses import horse_words
from starting.care import (
    LOOKED_OVER,
    Told,
    Visit,
    Whose,
    incident_said,
    off_said,
    off_words,
    records_told,
    rest_said,
    rest_words,
    say_date,
    visit_said,
)
from starting.gates import back_on
from starting.models import CareVisit, Incident, OffWork, Rest
from starting.models.care import CareRow
from starting.outlook import Outlook
from starting.outlook.to_dos import MOUTH_WATCH
from starting.progress.after_incident import GRAVE
from starting.reads.facts import care_fact, off_fact, rest_fact
from starting.reads.outlook import outlook_of
from starting.schedule.jobs import QUIET_DAYS_AFTER_VACCINATION

SHOWN_AT_ONCE: Final = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One record as a row; ``page`` and ``pk`` lead to where it is corrected."""

    on: date
    title: str
    page: str
    pk: int
    text: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """A day to come; ``kind``: the visit to write in once it was."""

    on: date
    title: str
    text: str
    kind: str = ""
    page: str = ""
    pk: int = 0
    overdue: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CarePage:
    """Off work and resting, the days ahead, what the records say, all of them."""

    name: str
    key: str
    kind: str
    now: tuple[Row, ...]
    ahead: tuple[Ahead, ...]
    told: tuple[Told, ...]
    lately: tuple[Row, ...]
    before: tuple[Row, ...]

    @property
    def older(self) -> int:
        """How many records are folded away."""
        return len(self.before)


def care_page(horse: Horse, on: date) -> CarePage:
    """Return the care page of a horse (5 queries: four kinds of rows, outlook)."""
    visits, offs = list(horse.care.all()), list(horse.off_work.all())
    rests, incidents = list(horse.rests.all()), list(horse.incidents.all())
    spans = [*map(_off_row, offs), *map(_rest_row, rests)]
    rows = [
        *map(_visit_row, visits),
        *map(_incident_row, incidents),
        *(row for row in spans if row.on <= on),
    ]
    rows.sort(key=lambda row: row.on, reverse=True)
    told = [Visit(done=care_fact(row), who=row.who) for row in visits]
    later = [row for row in spans if row.on > on]
    return CarePage(
        name=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        now=tuple(_now(offs, rests, on)),
        ahead=tuple(_ahead(outlook_of(horse), later, on)),
        told=tuple(records_told(told, whose(horse), on)),
        lately=tuple(rows[:SHOWN_AT_ONCE]),
        before=tuple(rows[SHOWN_AT_ONCE:]),
    )


def whose(horse: Horse) -> Whose:
    """Return whose records they are."""
    return Whose(
        name=horse.name,
        she=horse.she,
        grown=horse.grown,
        foaled=horse.foaled_days,
    )


def _now(offs: Sequence[OffWork], rests: Sequence[Rest], on: date) -> Iterator[Row]:
    """Return what keeps the horse from work today: off work first."""
    for off in offs:
        back = back_on(off_fact(off))
        if off.start <= on and (back is None or on < back):
            yield _off_row(off)
    for rest in rests:
        if rest.start <= on and (rest.end is None or on <= rest.end):
            yield _rest_row(rest)


def _ahead(outlook: Outlook | None, later: Sequence[Row], on: date) -> list[Ahead]:
    """Return visits to come, as the diary has them, and time off not yet begun."""
    found = [
        Ahead(on=row.on, title=row.title, text=row.text, page=row.page, pk=row.pk)
        for row in later
    ]
    for entry in outlook.entries if outlook else ():
        kind = entry.key.rpartition("/")[2].partition("-")[0]
        if entry.kind != "care" or kind not in CareVisit.Kind.values:
            continue
        found.append(
            Ahead(
                on=entry.on,
                title=_ahead_title(CareVisit.Kind(kind)),
                text=entry.text.split("\n", maxsplit=1)[0],
                kind=kind,
                overdue=entry.on < on,
            )
        )
    return sorted(found, key=lambda ahead: ahead.on)


def _ahead_title(kind: CareVisit.Kind) -> str:
    """Return what is ahead: a tooth change is watched for, the others are visits."""
    if kind is CareVisit.Kind.TOOTH_CHANGE:
        return _capital(MOUTH_WATCH)
    return _capital(kind.label)


def _visit_row(row: CareVisit) -> Row:
    title = _capital(row.get_kind_display())
    if not row.clear:
        gelding = row.kind == CareVisit.Kind.GELDING
        title = f"{title}: {'not yet cleared' if gelding else 'something left open'}"
    elif row.kind in LOOKED_OVER:
        title = f"{title}: nothing left open"
    return Row(
        on=row.on,
        title=title,
        text=" ".join(_visit_parts(row)),
        note=row.note,
        page="starting:edit-care",
        pk=row.pk,
    )


def _visit_parts(row: CareVisit) -> Iterator[str]:
    if row.who:
        yield f"{row.who}."
    if row.wolf_teeth:
        yield f"Wolf teeth: {row.get_wolf_teeth_display()}."
    if row.healing_until:
        what = "Mouth healing" if row.kind == CareVisit.Kind.TEETH else "Healing"
        yield f"{what} until {say_date(row.healing_until)}."
    if row.next_due:
        yield f"Next on {say_date(row.next_due)}."


def _incident_row(row: Incident) -> Row:
    return Row(
        on=row.on,
        title=f"Incident: {row.get_what_display()}",
        note=row.note,
        page="starting:edit-incident",
        pk=row.pk,
    )


def _off_row(row: OffWork) -> Row:
    return Row(
        on=row.start,
        title=f"Off work {off_words(off_fact(row))}",
        text=_sentence(row.why),
        page="starting:edit-off-work",
        pk=row.pk,
    )


def _rest_row(row: Rest) -> Row:
    return Row(
        on=row.start,
        title=f"Resting {rest_words(rest_fact(row))}",
        text=_sentence(row.why),
        page="starting:edit-rest",
        pk=row.pk,
    )


def row_of(row: CareRow) -> Row:
    """Return any record as a row."""
    if isinstance(row, CareVisit):
        return _visit_row(row)
    if isinstance(row, Incident):
        return _incident_row(row)
    return _off_row(row) if isinstance(row, OffWork) else _rest_row(row)


def said_of(row: CareRow, on: date) -> str:
    """Return what a record just written in means (1 query for a visit)."""
    horse = row.horse
    if isinstance(row, CareVisit):
        visits = [care_fact(visit) for visit in horse.care.all()]
        return visit_said(care_fact(row), visits, whose(horse), on)
    if isinstance(row, Incident):
        return incident_said(
            row.get_what_display(), whose(horse), grave=row.what in GRAVE
        )
    if isinstance(row, OffWork):
        return off_said(off_fact(row), whose(horse), on)
    return rest_said(rest_fact(row))


def _goes_with_incident(row: Incident) -> str:
    waits = row.what in GRAVE and not row.horse.grown
    then = "Steps with a rider or on lines then no longer wait because of it."
    moved = then if waits else "It moves no date."
    return f"{moved} How it came about is then no longer here to read."


def goes_with(row: CareRow, on: date) -> str:
    """Return what else changes if a record is deleted."""
    name = row.horse.name
    if isinstance(row, OffWork):
        return (
            f"{name} then counts as if never off work for this. If it is over, write"
            " in the day of it instead: then it stays in the history."
        )
    if isinstance(row, Rest):
        return f"{name} then counts as if never turned away on these days."
    if isinstance(row, Incident):
        return _goes_with_incident(row)
    if row.kind == CareVisit.Kind.TEETH:
        return (
            "Steps with a bit then rest on the look before this one, or on none; what"
            " it says of wolf teeth and healing goes with it."
        )
    if row.kind == CareVisit.Kind.VACCINATION and _quiet(row, on):
        return f"Nothing then keeps new things from {name} in the days after it."
    return "The day it names as the next one goes with it."


def _quiet(row: CareVisit, on: date) -> bool:
    return on <= row.on + timedelta(days=QUIET_DAYS_AFTER_VACCINATION)


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def _sentence(text: str) -> str:
    said = text.strip().rstrip(".")
    return f"{_capital(said)}." if said else ""
