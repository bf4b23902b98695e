"""What is wanted, row by row, in the yard's units."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode

from django.urls import reverse

from fitting.models import Yard
from fitting.reads.units import day_words, units_of
from fitting.wanted import First, Step, Thing, Wanted
from fitting.wanted.clashes import Wish, clash_words, wishes_of
from fitting.wanted.telling import (
    Line,
    back_words,
    keep_words,
    offer_words,
    size_lines,
    step_words,
    unsaid_lines,
    until_words,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Whose:
    """The horse that something is for."""

    name: str
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedRow:
    """One usual size, how long it is good, and whether none is good for longer."""

    size: str
    until: str
    longest: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ThingRow:
    """One thing to get for one horse; ``stage`` is empty where something wears out."""

    whose: Whose
    kind: str
    part: str
    title: str
    by: date
    why: str
    stage: str
    lines: tuple[Line, ...]
    sizes: tuple[SizedRow, ...]
    keep: str
    offers: tuple[str, ...]
    clashes: tuple[str, ...]
    stale: str
    put_up: str
    cautions: tuple[str, ...]
    sources: tuple[str, ...]

    @property
    def once(self) -> tuple[str, ...]:
        """Its cautions, each once."""
        return tuple(dict.fromkeys(self.cautions))


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstRow:
    """What to find out before anything can be wanted; ``measure``: by measuring."""

    whose: Whose
    asks: tuple[str, ...]
    why: str
    measure: bool


def thing_row(
    yard: Yard,
    whose: Whose,
    thing: Thing,
    wishes: Sequence[Wish] = (),
    firsts: Sequence[First] = (),
) -> ThingRow:
    """Return one thing to get as a row.

    Args:
        yard: whose units it is told in.
        whose: the horse it is for.
        thing: what is to be got.
        wishes: what every horse could be lent.
        firsts: what is to be found out first for that horse.
    """
    units, first = units_of(yard), thing.first
    sized = tuple(line for one in thing.wanted for line in size_lines(one, units))
    article = thing.with_article
    return ThingRow(
        whose=whose,
        kind=thing.kind,
        part=thing.part,
        title=f"{article[:1].upper()}{article[1:]}",
        by=thing.by,
        why=" ".join(filter(None, (_why(first), back_words(thing.wanted)))),
        stage=first.stage,
        lines=(*sized, *unsaid_lines(thing.kind, thing.wanted, firsts)),
        sizes=tuple(_sized(step, first) for step in first.steps),
        keep=_keep(thing),
        offers=tuple(
            dict.fromkeys(offer_words(o) for one in thing.wanted for o in one.borrow)
        ),
        clashes=clash_words(wishes_of(whose.name, thing.wanted), wishes),
        stale=_stale(thing),
        put_up=_put_up(yard, thing),
        cautions=tuple(c for one in thing.wanted for c in one.cautions),
        sources=tuple(s for one in thing.wanted for s in one.sources),
    )


def first_row(whose: Whose, firsts: tuple[First, ...]) -> FirstRow:
    """Return what to find out for one kind of tack as a row."""
    soonest = min(firsts, key=lambda first: first.needed_on)
    day = day_words(soonest.needed_on)
    return FirstRow(
        whose=whose,
        asks=tuple(dict.fromkeys(first.ask for first in firsts)),
        why=f"{soonest.stage_name} is planned for {day}." if soonest.stage_name else "",
        measure=any(first.measure for first in firsts),
    )


def _why(wanted: Wanted) -> str:
    day = day_words(wanted.needed_on)
    if wanted.stage_name:
        return f"{wanted.stage_name} is planned for {day}."
    if wanted.is_due:
        return f"{wanted.item}, in use now, is no longer good."
    return f"{wanted.item}, in use now, is good until about {day}."


def _sized(step: Step, wanted: Wanted) -> SizedRow:
    return SizedRow(
        size=step_words(step, wanted),
        until=until_words(step.until),
        longest=step == wanted.outlasting,
    )


def _keep(thing: Thing) -> str:
    """Return whether it is worth buying new: as its shortest-lived part is."""
    return keep_words(min(thing.wanted, key=lambda one: one.keep))


def _stale(thing: Thing) -> str:
    old = dict.fromkeys(one.measure_name for one in thing.wanted if one.stale)
    if not old:
        return ""
    return f"Measure {' and '.join(old)} again before you buy: it was some time ago."


def _put_up(yard: Yard, thing: Thing) -> str:
    """Return where it is put up, with the size to look for filled in."""
    asked = {"kind": thing.kind}
    longest = thing.first.longest
    if longest is not None:
        asked[f"{thing.first.part}-length"] = f"{longest.mm:.0f} mm"
    return f"{reverse('fitting:add-tack', args=[yard.slug])}?{urlencode(asked)}"
