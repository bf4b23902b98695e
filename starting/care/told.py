"""What each kind of record says on a day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from fitting.drawings.signs import word_of
from starting.care import notes
from starting.care.again import again_told
from starting.care.mouth import mouth_watch_told
from starting.care.teeth import teeth_told, tooth_change_told, wolf_teeth_told
from starting.care.values import (
    LOOKED_OVER,
    Told,
    Visit,
    Whose,
    last_visit,
    say_date,
)
from starting.gates.gelding import Gelded, gelded
from starting.outlook.to_dos import CARE_NAMES
from starting.schedule.jobs import QUIET_DAYS_AFTER_VACCINATION

WEEK_DAYS: Final = 7
OTHERS: Final = ("saddle_fitter", "worming", "back", "gelding", "other")


def records_told(visits: Sequence[Visit], whose: Whose, on: date) -> Iterator[Told]:
    """Return what each kind of record says on a day, those a step asks for first."""
    done = [visit.done for visit in visits]
    seen, *counts = teeth_told(visits, whose, on)
    yield again_told(seen, "teeth", visits, whose, on)
    yield from counts
    if not whose.grown:
        yield wolf_teeth_told(done, whose, on)
    yield from mouth_watch_told(whose, on)
    yield from tooth_change_told(done, whose, on)
    yield from _vaccination_told(visits, whose, on)
    vet, farrier = _vet_told(visits, whose, on), _farrier_told(visits, on)
    yield again_told(vet, "vet", visits, whose, on)
    yield again_told(farrier, "farrier", visits, whose, on)
    for kind in OTHERS:
        last = last_visit(visits, kind, on)
        if last is not None and kind == "gelding":
            yield _gelding_told(last, visits, whose, on)
        elif last is not None:
            beside = notes.WORMING if kind == "worming" else ()
            yield again_told(_plain(last, "", beside), kind, visits, whose, on)


def _plain(visit: Visit, more: str = "", beside: tuple[str, ...] = ()) -> Told:
    """Return when somebody last came, loud only where something is left open."""
    done = visit.done
    by = f" by {visit.by}" if visit.who else ""
    clear = ", nothing left open" if done.clear and done.kind in LOOKED_OVER else ""
    return Told(
        title=_title(done.kind),
        text=f"Last on {say_date(done.on)}{by}{clear}.{f' {more}' if more else ''}",
        tone="" if done.clear else "caution",
        word="" if done.clear else "something left open",
        notes=beside,
    )


def _title(kind: str) -> str:
    name = CARE_NAMES.get(kind, kind)
    return f"{name[:1].upper()}{name[1:]}"


def quiet_until(vaccinated: date) -> date:
    """Return the last day on which nothing new is begun."""
    return vaccinated + timedelta(days=QUIET_DAYS_AFTER_VACCINATION)


def _vaccination_told(
    visits: Sequence[Visit], whose: Whose, on: date
) -> Iterator[Told]:
    last = last_visit(visits, "vaccination", on)
    if last is None:
        yield _never("vaccination", notes.VACCINATION)
        return
    told = _plain(last, beside=notes.VACCINATION)
    yield again_told(told, "vaccination", visits, whose, on)
    end = quiet_until(last.done.on)
    if on <= end:
        text = f"Nothing new with {whose.name} until {say_date(end)}."
        yield Told(title="Something new", text=text, tone="shut", word=word_of("shut"))


def _never(kind: str, beside: tuple[str, ...]) -> Told:
    text = "No visit is written down."
    return Told(title=_title(kind), text=text, notes=beside)


def _vet_told(visits: Sequence[Visit], whose: Whose, on: date) -> Told:
    last = last_visit(visits, "vet", on)
    if last is None:
        return _never("vet", notes.VET)
    return _plain(last, "" if last.done.clear else open_more(whose), notes.VET)


def open_more(whose: Whose) -> str:
    """Return that a finding left open holds nothing back by itself."""
    return (
        "The plan does not wait for it by itself: if"
        f" {whose.name} is to wait, write {whose.her} off work."
    )


def _farrier_told(visits: Sequence[Visit], on: date) -> Told:
    last = last_visit(visits, "farrier", on)
    if last is None:
        return _never("farrier", notes.FARRIER)
    told = _plain(last, beside=notes.FARRIER)
    weeks = (on - last.done.on).days // WEEK_DAYS
    if weeks < notes.FARRIER_WEEKS[1] or not last.done.clear:
        return told
    return replace(told, tone="caution", word=f"{weeks} weeks ago")


def _gelding_told(last: Visit, visits: Sequence[Visit], whose: Whose, on: date) -> Told:
    """Return how long nothing new follows a gelding, loud until it is over."""
    stands = gelded((visit.done for visit in visits), on)
    said = f"Done on {say_date(last.done.on)}{f' by {last.by}' if last.who else ''}."
    if stands is None or (stands.new_from and stands.new_from <= on):
        return Told(title="Gelding", text=f"{said} Healed and cleared.")
    return Told(
        title="Gelding",
        text=f"{said} {gelding_text(stands, whose)}",
        tone="shut",
        word=word_of("shut"),
        notes=notes.GELDING,
    )


def gelding_text(stands: Gelded, whose: Whose) -> str:
    """Return until when nothing new is begun, and who has to clear."""
    if stands.new_from is not None:
        end = say_date(stands.new_from)
        return f"Nothing new with {whose.name} before {end}; movement every day."
    return (
        f"Nothing new with {whose.name} until {say_date(stands.heals)}, and then only"
        " once your vet has cleared: write that in as a visit with nothing left open."
    )
