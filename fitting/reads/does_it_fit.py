"""What the page of one horse and one item shows: does it fit, until when, who lends."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.by_name import by_name
from fitting.fit import Finding, MadeUp, Wearer, fits
from fitting.fit.answers import GOOD_NO_UNDER, Answer
from fitting.fit.covers import Cover, covers
from fitting.fit.tack import Tack as TackFact
from fitting.growth import quantiles
from fitting.models import Horse, Tack, TackSet, Yard
from fitting.reads.growth import tried_on
from fitting.reads.horses import HorseHead, horse_head
from fitting.reads.reach import OneSize, ReachView, findings_of, reaches
from fitting.reads.rung import Rung, rung_for
from fitting.reads.units import day_words, units_of
from fitting.reads.wearers import wearer_of
from fitting.told import (
    Notes,
    Verdict,
    notes_of,
    spare_words,
    told_parts,
    verdict,
    verdicts,
)
from fitting.until_when import in_hundred, stretch_of

BAND_SHARES: Final = (0.05, 0.5, 0.95)  # nine times in ten, and the middle
AHEAD_MONTHS: Final = (0, 3, 6, 12, 24)
A_MONTH: Final = 30.4375


@dataclass(frozen=True, slots=True, kw_only=True)
class Lender:
    """Another item that is good on that day: whose it is, its hole, until when."""

    name: str
    key: str
    whose: str
    lent: str
    hole: int | None
    until: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FitRow:
    """The answer, as the lists of answers tell it too."""

    told: Verdict
    hole: int | None
    spare: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DoesItFitPage:
    """One horse and one item, or one made-up set, on a day.

    ``lasts``: until when it is good, and the chance of a no by then.
    """

    head: HorseHead
    item: str
    key: str
    is_set: bool
    query: str
    day: date
    is_today: bool
    fit: FitRow | None
    lasts: str
    reaches: tuple[ReachView, ...]
    lenders: tuple[Lender, ...]
    notes: Notes
    ring_vet: tuple[Rung, ...]


def does_it_fit_page(
    horse: Horse, thing: Tack | TackSet, day: date, today: date
) -> DoesItFitPage:
    """Return one horse and one item or set (14 queries: all that is known, loans)."""
    tried = tried_on(horse)
    tack, sets = tried.tack, tried.made_up
    wearer = wearer_of(horse, tried, day)
    every = fits(wearer, tack, sets, day)
    of_it = findings_of(thing.name, every)
    told = verdict(of_it) if of_it else None
    is_set = isinstance(thing, TackSet)
    hung = _hung(thing.name, tack, sets)
    return DoesItFitPage(
        head=horse_head(horse, today),
        item=thing.name,
        key=thing.key,
        is_set=is_set,
        query=f"{'set' if is_set else 'item'}={thing.key}",
        day=day,
        is_today=day == today,
        fit=_fit_row(told) if told else None,
        lasts=_lasts(told, of_it, wearer, hung) if told else "",
        reaches=_reaches(hung, wearer, day, horse),
        lenders=_lenders(horse.yard, thing, every),
        notes=notes_of([told] if told else []),
        ring_vet=rung_for(horse, today),
    )


def _fit_row(told: Verdict) -> FitRow:
    hangs = told.answer in {Answer.GOOD, Answer.WATCH}
    return FitRow(
        told=told,
        hole=told.hole if hangs else None,
        spare=spare_words(told) if hangs else "",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Hung:
    """The item with the sets that use it, or the set alone; ``name`` is asked of."""

    name: str
    tack: tuple[TackFact, ...]
    sets: tuple[MadeUp, ...]

    def on(self, wearer: Wearer, day: date) -> tuple[Finding, ...]:
        """Return how it sits on a day."""
        return findings_of(self.name, fits(wearer, self.tack, self.sets, day))

    def covers(self, wearer: Wearer, day: date) -> tuple[Cover, ...]:
        """Return what it covers, once for each measure."""
        every = covers(wearer, self.tack, self.sets, day)
        return tuple(one for one in every if one.item == self.name and one.good)


def _hung(name: str, tack: tuple[TackFact, ...], sets: tuple[MadeUp, ...]) -> _Hung:
    """Return only what the answer needs: a set's try-ons speak of its items."""
    items = tuple(item for item in tack if item.name == name)
    using = tuple(
        made
        for made in sets
        if made.name == name or any(item.name == name for _, item in made.parts)
    )
    return _Hung(name=name, tack=items, sets=using)


def _lasts(told: Verdict, found: Sequence[Finding], wearer: Wearer, hung: _Hung) -> str:
    """Return until when it is good, with the chance of a no on that day and then."""
    if told.answer is Answer.NOT_KNOWN:
        return ""
    now = _chance(found)
    chance = "" if now is None else f"The chance of a no: {in_hundred(now)}."
    if told.looked_until:
        return f"Good past {day_words(told.looked_until)}. {chance}".strip()
    if told.until is None:
        return f"{chance} {_coming(told, found, wearer, hung)}".strip()
    then = _chance(hung.on(wearer, told.until))
    until = f"Good until {day_words(told.until)}"
    if then is None:
        return f"{until}."
    sooner = f"before, {in_hundred(now)}" if now is not None else ""
    if then < GOOD_NO_UNDER:
        until = f"{until}, from then on likely only just"
    said = f"{until}. The chance of a no on that day: {in_hundred(then)}"
    return f"{said}; {sooner}." if sooner else f"{said}."


def _chance(found: Iterable[Finding]) -> float | None:
    """Return the largest chance of a no of its parts; None: none is reckoned."""
    return max((f.chance_no for f in found if f.chance_no is not None), default=None)


def _coming(
    told: Verdict, found: Sequence[Finding], wearer: Wearer, hung: _Hung
) -> str:
    """Return from when it will be good, with the chance of a no on that day."""
    stretch = stretch_of(told_parts(found))
    if stretch is None or stretch.start is None:
        return ""
    then = _chance(hung.on(wearer, stretch.start))
    chance = (
        f" The chance of a no on the first day: {in_hundred(then)}." if then else ""
    )
    return f"{told.coming}{chance}"


def _reaches(
    hung: _Hung, wearer: Wearer, day: date, horse: Horse
) -> tuple[ReachView, ...]:
    """Return the horse's size on that day and later, on what the item covers."""
    months = (0,) if horse.grown else AHEAD_MONTHS
    sizes = [_size_on(hung, wearer, day, ahead) for ahead in months]
    return reaches(hung.name, sizes, units_of(horse.yard))


def _size_on(hung: _Hung, wearer: Wearer, day: date, ahead: int) -> OneSize:
    on = day + timedelta(days=round(ahead * A_MONTH))
    found = hung.covers(wearer, on)
    spreads = {
        cover.measure: wearer.growth.at(cover.measure, on)
        for cover in found
        if wearer.growth.known(cover.measure) or wearer.growth.taught(cover.measure)
    }
    known = {key: spread for key, spread in spreads.items() if spread is not None}
    bands = zip(known, quantiles(list(known.values()), BAND_SHARES), strict=True)
    return OneSize(
        said=f"{on.day} {on:%b %Y}",
        bands={key: (band[0], band[1], band[2]) for key, band in bands},
        covers=found,
        findings=hung.on(wearer, on),
    )


def _lenders(
    yard: Yard, thing: Tack | TackSet, every: Iterable[Finding]
) -> tuple[Lender, ...]:
    """Return the others of its kind that are good, the longest first (2 queries)."""
    told = {
        name: one
        for name, one in verdicts(every).items()
        if one.answer is Answer.GOOD and name != thing.name
    }
    if isinstance(thing, TackSet):
        found = [
            _lender(row, told[row.name])
            for row in yard.sets.filter(gone__isnull=True).exclude(pk=thing.pk)
            if row.name in told
        ]
    else:
        found = [
            _lender(row, told[row.name], whose=_whose(row), lent=_lent(row))
            for row in _others(yard, thing)
            if row.name in told
        ]
    found.sort(key=lambda one: by_name(one.name))
    found.sort(key=lambda one: told[one.name].until or date.max, reverse=True)
    return tuple(found)


def _others(yard: Yard, thing: Tack) -> Iterable[Tack]:
    rows = yard.tack.filter(gone__isnull=True, kind=thing.kind).exclude(pk=thing.pk)
    return rows.prefetch_related("loans__to")


def _whose(row: Tack) -> str:
    return f"Belongs to {row.belongs_to}." if row.belongs_to else ""


def _lent(row: Tack) -> str:
    out = next((loan for loan in row.loans.all() if loan.returned is None), None)
    if out is None:
        return ""
    back = f", back by {day_words(out.back_by)}" if out.back_by else ""
    return f"Lent to {out.to.name}{back}."


def _lender(
    row: Tack | TackSet, told: Verdict, *, whose: str = "", lent: str = ""
) -> Lender:
    until = f"until {day_words(told.until)}" if told.until else ""
    if told.looked_until:
        until = f"past {day_words(told.looked_until)}"
    return Lender(
        name=row.name,
        key="" if isinstance(row, TackSet) else row.key,
        whose=whose,
        lent=lent,
        hole=told.hole,
        until=until,
    )
