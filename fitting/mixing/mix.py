"""The best bridle that can be made up for a horse from what is at hand on a day."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from itertools import islice
from typing import Final

from fitting.fit import Answer, Tack, Wearer
from fitting.fit import Part as FitPart
from fitting.fit.lasting import Sizes
from fitting.mixing.candidates import Candidate, Judge, lends
from fitting.mixing.search import Part, search_of
from fitting.mixing.values import (
    BIT,
    CHEEKPIECES,
    HEADPIECE,
    OPTIONAL,
    STRAPS,
    WHOLE,
    Chosen,
    Lacking,
    Mixed,
    Mixture,
    Room,
    Unknown,
)

MOST: Final = 3
HANGS: Final = (WHOLE, HEADPIECE, CHEEKPIECES)
# Of no item: a headpiece or cheekpieces without the other are judged beside them.
PARTNER: Final = Tack(
    name="",
    kind="bridle",
    parts=(
        FitPart(part=HEADPIECE, length_mm=600.0, holes=7, spacing_mm=16.0),
        FitPart(part=CHEEKPIECES, length_mm=230.0),
    ),
)
PARTNERS: Final = {HEADPIECE: PARTNER, CHEEKPIECES: PARTNER}


def mix(wearer: Wearer, room: Room, on: date, *, bit: bool = True) -> Mixture:
    """Return the best bridles for a horse on a day, at most three.

    No part that is a no goes in. A browband, and a bit if one is wanted, have to be
    there; noseband and throatlash go on only where one is good. What is not known ranks
    below what only just fits. See ``search`` for the order.
    """
    sizes = Sizes(growth=wearer.growth, start=on)
    judge = Judge(wearer=wearer, room=room, on=on, sizes=sizes)
    wanted = (*STRAPS, BIT) if bit else STRAPS
    every = {slot: judge.fill(slot) for slot in wanted}
    filled = {slot: _worth(slot, every[slot]) for slot in wanted}
    slots = tuple(slot for slot in STRAPS if filled[slot])
    search = search_of(judge, filled, slots)
    found = islice(search.best(filled.get(BIT, ())), MOST)
    best = tuple(_mixed(judge, part) for part in found)
    empty = tuple(_lacking(room, slot) for slot in wanted if not filled[slot])
    return Mixture(
        best=best,
        lacking=(
            *(() if best else _nothing_hangs(room)),
            *(one for one in empty if one.slot not in OPTIONAL),
        ),
        left_off=tuple(one for one in empty if one.slot in OPTIONAL),
        unknown=(*_unknown_hangs(judge), *_unknown(every[slot] for slot in wanted)),
    )


def _worth(slot: str, found: tuple[Candidate, ...]) -> tuple[Candidate, ...]:
    """Return what is taken for a slot: for one that can be left off, only the good."""
    if slot not in OPTIONAL:
        return found
    return tuple(one for one in found if one.finding.answer is Answer.GOOD)


def _mixed(judge: Judge, part: Part) -> Mixed:
    """Return a bridle that was found, slot by slot from the poll down."""
    hung = part.found or judge.hang(part.hang.parts)
    chosen = [
        Chosen(
            slot=slot,
            item=item,
            finding=replace(hung, part=slot),
            taken=judge.is_taken(slot, item),
        )
        for slot, item in part.hang.parts
    ]
    loose = (*part.straps, *((part.bit,) if part.bit else ()))
    chosen += [
        Chosen(slot=one.slot, item=one.item, finding=one.finding, taken=one.taken)
        for one in loose
    ]
    return Mixed(chosen=tuple(chosen))


def _lacking(room: Room, slot: str) -> Lacking:
    hangs = any(lends(item, slot) for item in room.items)
    return Lacking(slot=slot, why="none_fits" if hangs else "none_hangs")


def _nothing_hangs(room: Room) -> tuple[Lacking, ...]:
    """Return what keeps a bit from being hung at all."""
    missing = [
        slot
        for slot in (HEADPIECE, CHEEKPIECES)
        if not any(lends(item, slot) for item in room.items)
    ]
    if missing and not any(lends(item, WHOLE) for item in room.items):
        return tuple(Lacking(slot=slot, why="none_hangs") for slot in missing)
    return (Lacking(slot=CHEEKPIECES, why="none_fits"),)


def _unknown(every: Iterable[tuple[Candidate, ...]]) -> Iterator[Unknown]:
    for candidates in every:
        for one in candidates:
            if one.finding.answer is Answer.NOT_KNOWN:
                yield Unknown(item=one.item.name, finding=one.finding)


def _unknown_hangs(judge: Judge) -> Iterator[Unknown]:
    """Yield the bridles whose own parts do not tell how long they are."""
    for item in judge.room.items:
        own = {slot: item for slot in HANGS if lends(item, slot)}
        parts = {WHOLE: item} if WHOLE in own else PARTNERS | own
        found = judge.hang(tuple(parts.items()))
        if own and found.answer is Answer.NOT_KNOWN and found.ask:
            yield Unknown(item=item.name, finding=found)
