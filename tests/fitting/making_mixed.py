"""Tack rooms to make bridles up from, and every bridle there is in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from itertools import product

from fitting.fit import Answer, Finding, MadeUp, Part, Tack, Wearer, fits
from fitting.mixing import Mixed, Room
from tests.fitting.making_fit import ON

RANK = {Answer.GOOD: 0, Answer.WATCH: 1, Answer.NOT_KNOWN: 2}
OPTIONAL = ("noseband", "throatlash")
NEW = "Not made up yet"
Slots = tuple[tuple[str, Tack], ...]


def bridle(name: str, *parts: Part) -> Tack:
    return Tack(name=name, kind="bridle", parts=parts)


def headpiece(length_mm: float | None = 600.0, **more: float) -> Part:
    return Part(
        part="headpiece",
        length_mm=length_mm,
        holes=7,
        spacing_mm=more.get("spacing_mm", 16.0),
        strap_width_mm=more.get("strap_width_mm"),
    )


def cheekpieces(length_mm: float | None = 230.0, width_mm: float | None = None) -> Part:
    return Part(part="cheekpieces", length_mm=length_mm, strap_width_mm=width_mm)


def browband(length_mm: float | None = 390.0) -> Part:
    return Part(part="browband", length_mm=length_mm)


def noseband(longest_mm: float | None = 660.0) -> Part:
    return Part(part="noseband", longest_mm=longest_mm, holes=4, spacing_mm=20.0)


def throatlash(longest_mm: float | None = 910.0) -> Part:
    return Part(part="throatlash", longest_mm=longest_mm, holes=4, spacing_mm=20.0)


def every_part(cheek_mm: float = 230.0) -> tuple[Part, ...]:
    return (
        *(headpiece(), cheekpieces(cheek_mm), browband(), noseband()),
        throatlash(),
    )


def word_of(slot: str) -> str:
    return "mouthpiece" if slot == "bit" else slot


def lenders(room: Room, slot: str) -> list[Tack]:
    kind = "bit" if slot == "bit" else "bridle"
    return [i for i in room.items if i.kind == kind and i.part(word_of(slot))]


def hung(room: Room) -> Iterator[Slots]:
    for item in lenders(room, "whole"):
        yield (("whole", item),)
    for head, cheek in product(
        lenders(room, "headpiece"), lenders(room, "cheekpieces")
    ):
        yield (("headpiece", head), ("cheekpieces", cheek))


def findings_of(
    wearer: Wearer, room: Room, slots: Slots, on: date = ON
) -> tuple[Finding, ...]:
    """What is said of a bridle once it is a set among the others."""
    made = MadeUp(name=NEW, parts=slots)
    found = fits(wearer, (), (*room.made_up, made), on)
    return tuple(one for one in found if one.item == NEW)


def alone(wearer: Wearer, room: Room, slot: str, item: Tack, on: date) -> Answer:
    return findings_of(wearer, room, ((slot, item),), on)[0].answer


def key_of(found: Iterable[Finding], room: Room, slots: Slots) -> tuple[object, ...]:
    """The order that is promised, written out once more."""
    answers = [RANK[one.answer] for one in found]
    ends = [(one.good_until or date.max).toordinal() for one in found]
    names = {slot: item.name for slot, item in slots}
    hangs = (
        (names["whole"], "")
        if "whole" in names
        else (names["headpiece"], names["cheekpieces"])
    )
    taken = sum((item.name, word_of(slot)) in room.taken for slot, item in slots)
    return (
        max(answers),
        -min(ends) if max(answers) == 0 else 0,
        len({item.name for _, item in slots}),
        taken,
        (
            *hangs,
            names.get("bit", ""),
            *(names[s] for s in ("browband", *OPTIONAL) if s in names),
        ),
    )


def all_bridles(
    wearer: Wearer, room: Room, on: date = ON, *, bit: bool = True
) -> list[tuple[tuple[object, ...], Slots]]:
    """Every bridle without a no, made up and judged one by one, the best first."""
    choices: list[list[Slots]] = []
    for slot in ("bit", "browband", *OPTIONAL):
        if slot == "bit" and not bit:
            continue
        takes = {Answer.GOOD} if slot in OPTIONAL else set(RANK)
        fill: list[Slots] = [
            ((slot, item),)
            for item in lenders(room, slot)
            if alone(wearer, room, slot, item, on) in takes
        ]
        choices.append(fill or [()])
    found = []
    for first in hung(room):
        for more in product(*choices):
            slots = (*first, *(one for of in more for one in of))
            told = findings_of(wearer, room, slots, on)
            if all(one.answer is not Answer.NO for one in told):
                found.append((key_of(told, room, slots), slots))
    return sorted(found, key=lambda one: one[0])


def slots_of(mixed: Mixed) -> set[tuple[str, str]]:
    return set(mixed.made_up)


def named(slots: Slots) -> set[tuple[str, str]]:
    return {(slot, item.name) for slot, item in slots}
