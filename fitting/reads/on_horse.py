"""One item, or one made-up set, on one horse: drawn, and told part by part."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import cast

from django.db.models import prefetch_related_objects

from fitting import fit
from fitting.fit.answers import Answer, Finding
from fitting.fit.hung import BIT_PART, HANGING, UNHUNG
from fitting.looks import Seen
from fitting.models import Horse, Tack, TackSet, Yard
from fitting.pictured import (
    BRIDLE,
    DRAWN,
    FOAL_UNDER_MONTHS,
    FOALS_WEAR,
    ON_BODY,
    TOO_YOUNG,
    Numbered,
    Worn,
)
from fitting.pictured import numbered as numbered_parts
from fitting.pictured import worn as worn_of
from fitting.readings import show_between
from fitting.reads.facts import made_up_fact, tack_fact, tack_facts
from fitting.reads.item import BitPage, bit_page
from fitting.reads.outlook import seen
from fitting.reads.units import day_words, units_of
from fitting.told import BEST_FIRST, Notes, Verdict, notes_of, verdict, verdicts
from fitting.units import LengthUnit, show_length


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureRow:
    """One part in figures: its size, and which sizes are good on this horse."""

    part: str
    answer: Answer
    hole: str
    size: str
    good: str
    until: str
    stale: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """Another horse, and what the same thing is on it."""

    name: str
    key: str
    answer: Answer


@dataclass(frozen=True, slots=True, kw_only=True)
class OnHorsePage:
    """One item or set on one horse; ``told`` is None before it is reckoned.

    ``bit``: of a bit by itself, which is drawn laid flat.
    """

    name: str
    key: str
    is_set: bool
    about: str
    horse: str
    horse_key: str
    told: Verdict | None
    worn: Worn | None
    no_picture: str
    bit: BitPage | None
    rows: tuple[Numbered, ...]
    figures: tuple[FigureRow, ...]
    others: tuple[Other, ...]
    notes: Notes


def item_on_horse(horse: Horse, item: Tack) -> OnHorsePage:
    """Return an item on a horse (2 queries: outlooks, parts)."""
    prefetch_related_objects([item], "parts")
    parts = tack_fact(item).parts
    about = f"{item.get_kind_display().capitalize()} on {horse.name}."
    thing = _Thing(
        name=item.name, key=item.key, kind=item.kind, parts=parts, about=about
    )
    return replace(_page(horse, thing, is_set=False), bit=_bit_of(item))


def _bit_of(item: Tack) -> BitPage | None:
    """Return what a bit looks like; its parts are read already."""
    unit = cast("LengthUnit", item.yard.length_unit)
    pages = (bit_page(one, unit) for one in item.parts.all() if one.part == BIT_PART)
    return next(pages, None)


def set_on_horse(horse: Horse, made_up: TackSet) -> OnHorsePage:
    """Return a made-up set on a horse (4 queries: outlooks, the set with its parts)."""
    parts = fit.lent_parts(made_up_fact(made_up))
    unhung = "" if any(part.part in HANGING for part in parts) else f" {UNHUNG}"
    thing = _Thing(
        name=made_up.name,
        key=made_up.key,
        kind=BRIDLE,
        parts=parts,
        about=f"Made-up set on {horse.name}.{unhung}",
    )
    return _page(horse, thing, is_set=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Thing:
    """An item or a set, as it is written down."""

    name: str
    key: str
    kind: str
    parts: tuple[fit.Part, ...]
    about: str


def _page(horse: Horse, thing: _Thing, *, is_set: bool) -> OnHorsePage:
    looks = seen(horse.yard)
    look = looks.get(horse.key)
    findings = _of(look, thing.name)
    worn = None
    if look is not None:
        worn = worn_of(thing.name, thing.kind, findings, thing.parts, look)
    told = verdict(findings) if findings else None
    too_young = findings and worn is None and thing.kind in ON_BODY
    rows = numbered_parts(findings)
    return OnHorsePage(
        name=thing.name,
        key=thing.key,
        is_set=is_set,
        about=thing.about,
        horse=horse.name,
        horse_key=horse.key,
        told=told,
        worn=worn,
        no_picture=TOO_YOUNG if too_young else "",
        bit=None,
        rows=rows,
        figures=tuple(_figure(row, horse.yard) for row in rows),
        others=_others(looks, thing.name, horse.key),
        notes=notes_of([told] if told else []),
    )


def _of(look: Seen | None, name: str) -> tuple[Finding, ...]:
    return tuple(f for f in look.fits if f.item == name) if look else ()


def _figure(row: Numbered, yard: Yard) -> FigureRow:
    found = row.finding
    unit: LengthUnit = yard.length_unit  # type: ignore[assignment]
    low, high = found.needs_from_mm, found.needs_to_mm
    good = ""
    if low is not None and high is not None:
        good = show_between(low, high, "length", units_of(yard))
    return FigureRow(
        part=row.name,
        answer=found.answer,
        hole=row.hole_words,
        size=show_length(found.size_mm, unit) if found.size_mm else "",
        good=good,
        until=_until(found),
        stale=row.stale,
    )


def _until(found: Finding) -> str:
    """Return the first day on which a part is no longer good, or past which it is."""
    if found.answer is not Answer.GOOD:
        return ""
    if found.good_until:
        return day_words(found.good_until)
    return f"past {day_words(found.looked_until)}" if found.looked_until else ""


def _others(looks: dict[str, Seen], name: str, key: str) -> tuple[Other, ...]:
    """Return the other horses, the best answer first."""
    found = []
    for other, look in looks.items():
        told = verdicts(_of(look, name)).get(name)
        if told is not None and other != key:
            found.append(Other(name=look.horse, key=other, answer=told.answer))
    return tuple(sorted(found, key=lambda one: BEST_FIRST.index(one.answer)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What a horse's tack page draws: a set or an item, and why that one."""

    name: str
    key: str
    is_set: bool
    why: str
    worn: Worn
    rows: tuple[Numbered, ...]


def shown_on(
    horse: Horse,
    look: Seen | None,
    put_on: Iterable[tuple[date, str]],
    keys: dict[str, str],
) -> Shown | None:
    """Return what is drawn on a horse's tack page (4 queries: tack and sets).

    What was worn last, if it can be drawn; else the best of the made-up sets; else
    the best of what else can be drawn. Something that was never worn is drawn only if
    a part of it is answered, and on a foal only if it is a headcollar.

    Args:
        horse: whose page it is.
        look: what is seen of it.
        put_on: the days on which it wore something, and what.
        keys: the key of each item and set that has a row, by its name.
    """
    tack, sets = tack_facts(horse.yard)
    things = {item.name: (item.kind, item.parts, False) for item in tack}
    things |= {made.name: (BRIDLE, fit.lent_parts(made), True) for made in sets}
    if look is None:
        return None
    days = sorted(put_on, key=lambda each: each[0], reverse=True)
    worn_last = list(dict.fromkeys(name for _, name in days))
    for name in _first_shown(worn_last, things, look):
        kind, parts, is_set = things[name]
        findings = _of(look, name)
        worn = worn_of(name, kind, findings, parts, look)
        if worn is not None and name in keys:
            why = "Worn last." if name in worn_last else "Not worn yet."
            rows = numbered_parts(findings)
            return Shown(
                name=name, key=keys[name], is_set=is_set, why=why, worn=worn, rows=rows
            )
    return None


def _first_shown(
    worn_last: Sequence[str],
    things: dict[str, tuple[str, tuple[fit.Part, ...], bool]],
    look: Seen,
) -> Iterable[str]:
    """Return the names to draw one of, the first that can be."""
    told = verdicts(look.fits)
    known = {f.item for f in look.fits if f.answer is not Answer.NOT_KNOWN}
    kinds = FOALS_WEAR if look.age_months < FOAL_UNDER_MONTHS else DRAWN
    rest = [name for name in things if name in known and things[name][0] in kinds]
    rest.sort(key=lambda n: (not things[n][2], BEST_FIRST.index(told[n].answer)))
    return (*(name for name in worn_last if name in things), *rest)
