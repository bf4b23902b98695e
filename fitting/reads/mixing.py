"""What the page of making up a bridle shows: the best, with whom each part is from."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode

from django.db.models import Q

from fitting.asks import MEASURE_NAMES, TRY_IT_ON
from fitting.fit import Answer
from fitting.fit.staleness import stale_words
from fitting.listed import listed
from fitting.mixing import Chosen, Mixed, Mixture, Room, Unknown, mix
from fitting.mixing.telling import Away, away_in, lacks_words, leaves_off_words
from fitting.models import Horse, SetPart, Yard
from fitting.pieces import part_word
from fitting.reads.facts import pegs
from fitting.reads.growth import tried_on
from fitting.reads.in_sets import Uses, use_words, uses_in
from fitting.reads.rung import Rung, rung_for
from fitting.reads.sizes import fine_words
from fitting.reads.units import units_of
from fitting.reads.wearers import wearer_of
from fitting.told import (
    Notes,
    Verdict,
    notes_of,
    spare_words,
    verdict,
)
from fitting.units import LengthUnit
from fitting.wanted import Peg
from fitting.worn_now import taken_from

_Set = tuple[bool, str, str]  # whether it hangs, its name, its key


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """One part of a bridle: where it is from, its hole, how it sits."""

    part: str
    item: str
    key: str
    answer: Answer
    hole: int | None
    until: date | None
    past: date | None
    whom: str
    taken: bool
    stale: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionPage:
    """One bridle that can be made up.

    ``fills``: slot and the item's pk, for the form of a set; ``query`` the same for
    its address. ``is_set``: name and key of the set that is made up so already.
    """

    title: str
    told: Verdict
    spare: str
    parts: tuple[PartRow, ...]
    notes: tuple[str, ...]
    fills: tuple[tuple[str, int], ...]
    query: str
    is_set: tuple[str, str] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """Something that would tell more, with the items it is about."""

    what: str
    items: tuple[tuple[str, str], ...]
    is_measure: bool

    @property
    def to_write(self) -> bool:
        """Whether it is a size of the items that is not written down."""
        return not self.is_measure and self.what != TRY_IT_ON


@dataclass(frozen=True, slots=True, kw_only=True)
class MixPage:
    """The best bridles for a horse on a day."""

    horse: str
    key: str
    on: date
    is_today: bool
    options: tuple[OptionPage, ...]
    lacking: tuple[str, ...]
    left_off: tuple[str, ...]
    asks: tuple[Ask, ...]
    notes: Notes
    name: str
    no_tack: bool
    ring_vet: tuple[Rung, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Yard:
    """What the words of a page are made from; ``borne``: the names of all sets."""

    away: Away
    pegs: Mapping[str, Peg]
    uses: Uses
    keys: Mapping[str, tuple[int, str]]
    sets: Mapping[frozenset[tuple[str, str]], tuple[str, str]]
    borne: frozenset[str]
    horse: str
    on: date


def mixing_page(horse: Horse, on: date, today: date, *, bit: bool) -> MixPage:
    """Return the best bridles for a horse on a day (21 queries).

    Its growth with what was tried on it, the tack, who wears and who borrowed it.
    """
    tried = tried_on(horse)
    yard = horse.yard
    tack, made_up = tuple(tried.tack), tuple(tried.made_up)
    uses = uses_in(yard, tack, made_up, today)
    by_name = {peg.item: peg for peg in pegs(yard)}
    room = Room(
        items=tuple(
            item
            for item in tack
            if _is_at_hand(by_name[item.name], horse.name, on, today)
        ),
        made_up=made_up,
        taken=taken_from(uses, horse.name),
    )
    found = mix(wearer_of(horse, tried, on), room, on, bit=bit)
    sets = _sets_of(yard).items()
    here = {item.name for item in room.items}
    told = _Yard(
        away=away_in(
            (item, by_name[item.name].lent_to) for item in tack if item.name not in here
        ),
        pegs=by_name,
        uses=uses,
        keys={
            n: (pk, key) for pk, n, key in yard.tack.values_list("pk", "name", "key")
        },
        sets={slots: (name, key) for (hangs, name, key), slots in sets if hangs},
        borne=frozenset(name for (_, name, _), _ in sets),
        horse=horse.name,
        on=on,
    )
    return _page(horse, found, told, today)


def _is_at_hand(peg: Peg, horse: str, on: date, today: date) -> bool:
    """Whether an item hangs here that day: what is overdue is still away."""
    if not peg.lent_to or peg.lent_to == horse:
        return True
    return peg.back_by is not None and today <= peg.back_by < on


def _sets_of(yard: Yard) -> dict[_Set, frozenset[tuple[str, str]]]:
    """Return what is in each set, slot and item; first whether it hangs (1 query)."""
    found: dict[_Set, set[tuple[str, str]]] = defaultdict(set)
    rows = SetPart.objects.filter(made_up__yard=yard)
    for hangs, name, key, slot, item in rows.annotate(
        hangs=Q(made_up__gone__isnull=True)
    ).values_list("hangs", "made_up__name", "made_up__key", "slot", "tack__name"):
        found[hangs, name, key].add((slot, item))
    return {of: frozenset(slots) for of, slots in found.items()}


def _page(horse: Horse, found: Mixture, told: _Yard, today: date) -> MixPage:
    titles = ("The best", "Next best", "And next")
    pairs = zip(titles, found.best, strict=False)
    options = tuple(_option(title, one, told, horse.yard) for title, one in pairs)
    return MixPage(
        horse=horse.name,
        key=horse.key,
        on=told.on,
        is_today=told.on == today,
        options=options,
        lacking=tuple(lacks_words(one, told.away) for one in found.lacking),
        left_off=tuple(leaves_off_words(one, told.away) for one in found.left_off),
        asks=_asks(found.unknown, told),
        notes=notes_of(one.told for one in options),
        name=_free_name(horse, told),
        no_tack=not told.keys,
        ring_vet=rung_for(horse, today),
    )


def _free_name(horse: Horse, told: _Yard) -> str:
    """Return a name for the set that nothing bears yet."""
    borne = {*told.keys, *told.borne}
    name = f"Bridle for {horse.name}"[:70]
    numbers = (f"{name} {number}" for number in range(2, len(borne) + 3))
    return name if name not in borne else next(n for n in numbers if n not in borne)


def _option(title: str, mixed: Mixed, told: _Yard, yard: Yard) -> OptionPage:
    of_it = verdict([one.finding for one in mixed.chosen])
    fills = tuple((one.slot, told.keys[one.item.name][0]) for one in mixed.chosen)
    keys = [(one.slot, told.keys[one.item.name][1]) for one in mixed.chosen]
    return OptionPage(
        title=title,
        told=of_it,
        spare=spare_words(of_it),
        parts=tuple(_part(one, told) for one in mixed.chosen),
        notes=_notes(mixed, told, units_of(yard).length),
        fills=fills,
        query=urlencode(keys),
        is_set=told.sets.get(frozenset(mixed.made_up)),
    )


def _part(one: Chosen, told: _Yard) -> PartRow:
    name = one.item.name
    peg = told.pegs[name]
    whose = f"{peg.owner}'s." if peg.owner and peg.owner != told.horse else ""
    lent = f"Lent to {told.horse}." if peg.lent_to == told.horse else ""
    uses = told.uses.get((name, one.part.part), ())
    words = use_words(uses, told.horse)
    return PartRow(
        part=part_word(one.slot).capitalize(),
        item=name,
        key=told.keys[name][1],
        answer=one.finding.answer,
        hole=one.finding.hole,
        until=one.finding.good_until,
        past=one.finding.looked_until,
        whom=" ".join(filter(None, (whose, lent, words))),
        taken=one.taken,
        stale=stale_words([one.finding]),
    )


def _notes(mixed: Mixed, told: _Yard, unit: LengthUnit) -> tuple[str, ...]:
    """Return what is to be known before it is made up, a sentence each."""
    said = []
    if mixed.is_not_for_long(told.on):
        parts = listed(part_word(slot) for slot in mixed.first_outgrown)
        said.append(f"Fits now, but not for long: the {parts} will not last 8 weeks.")
    if mixed.strap_widths:
        head, cheek = (fine_words(mm, unit) for mm in mixed.strap_widths)
        said.append(
            f"The headpiece is {head} wide, the cheekpieces {cheek}: see that the"
            " straps go through the buckles."
        )
    moved = [
        part_word(one.slot)
        for one in mixed.chosen
        if any(u.made_up for u in told.uses.get((one.item.name, one.part.part), ()))
    ]
    if moved and frozenset(mixed.made_up) not in told.sets:
        said.append(f"In a set already, so to be moved across: {listed(moved)}.")
    return tuple(said)


def _asks(unknown: Iterable[Unknown], told: _Yard) -> tuple[Ask, ...]:
    """Return what would tell more, each wish once, with the items it is about."""
    found: dict[str, dict[str, str]] = {}
    for one in unknown:
        ask = one.finding.ask or TRY_IT_ON
        found.setdefault(ask, {})[one.item] = told.keys[one.item][1]
    return tuple(
        Ask(what=what, items=tuple(items.items()), is_measure=what in MEASURE_NAMES)
        for what, items in found.items()
    )
