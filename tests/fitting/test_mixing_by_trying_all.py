"""The best bridles against those found by making up every one."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.fit import MadeUp, Part, Tack
from fitting.mixing import Room, mix
from fitting.tryons import TryOn
from tests.fitting.making_fit import (
    ON,
    make_bit,
)
from tests.fitting.making_mixed import (
    all_bridles,
    bridle,
    browband,
    cheekpieces,
    headpiece,
    named,
    noseband,
    slots_of,
    throatlash,
)
from tests.fitting.making_rooms import make_horse, worn

lengths = {
    "headpiece": st.sampled_from([None, 560.0, 590.0, 600.0, 655.0]),
    "cheekpieces": st.sampled_from([None, 171.0, 205.0, 230.0, 236.0, 262.0]),
    "browband": st.sampled_from([None, 355.0, 375.0, 390.0, 425.0]),
    "noseband": st.sampled_from([590.0, 660.0, 700.0]),
    "throatlash": st.sampled_from([850.0, 910.0]),
}


@st.composite
def bridles(draw: st.DrawFn, name: str) -> Tack:
    if draw(st.integers(0, 4)) == 0:
        whole = Part(
            part="whole",
            longest_mm=draw(st.sampled_from([1000.0, 1020.0, 1060.0, 1100.0])),
            holes=draw(st.sampled_from([5, 7])),
            spacing_mm=draw(st.sampled_from([16.0, 25.0])),
        )
        return bridle(name, whole)
    parts = []
    if draw(st.booleans()):
        spacing = draw(st.sampled_from([16.0, 25.0]))
        parts.append(headpiece(draw(lengths["headpiece"]), spacing_mm=spacing))
    if draw(st.booleans()):
        parts.append(cheekpieces(draw(lengths["cheekpieces"])))
    if draw(st.booleans()):
        parts.append(browband(draw(lengths["browband"])))
    if draw(st.booleans()):
        parts.append(noseband(draw(lengths["noseband"])))
    if draw(st.integers(0, 3)) == 0:
        parts.append(throatlash(draw(lengths["throatlash"])))
    return bridle(name, *parts)


@st.composite
def bits(draw: st.DrawFn, name: str) -> Tack:
    return make_bit(
        draw(st.sampled_from([None, 120.0, 124.0, 127.0, 133.0])),
        draw(st.sampled_from(["eggbutt", "loose_ring", "hanging_cheek"])),
        ring_mm=draw(st.sampled_from([None, 55.0, 70.0])),
        name=name,
    )


@st.composite
def slots_in(
    draw: st.DrawFn, straps: list[Tack], mouths: list[Tack]
) -> dict[str, Tack]:
    slots: dict[str, Tack] = {}
    for item in straps:
        for part in item.parts:
            if draw(st.booleans()):
                slots[part.part] = item
    if "whole" in slots:
        slots.pop("headpiece", None)
        slots.pop("cheekpieces", None)
    if draw(st.booleans()) and mouths:
        slots["bit"] = draw(st.sampled_from(mouths))
    return slots


@st.composite
def tried_in(draw: st.DrawFn, name: str, slots: dict[str, Tack]) -> list[TryOn]:
    words = ["mouthpiece" if slot == "bit" else slot for slot in slots]
    seen = st.sampled_from(["sits_right", "too_short", "rubs"])
    hole = st.sampled_from([None, 2, 4])
    return [
        worn(name, word, draw(seen), draw(hole))
        for word in words
        if draw(st.integers(0, 2)) == 0
    ]


@st.composite
def rooms(draw: st.DrawFn) -> tuple[Room, tuple[TryOn, ...]]:
    """A small tack room, some of it in sets, worn by others or tried on before."""
    straps = [draw(bridles(name)) for name in "ABCD"[: draw(st.integers(1, 4))]]
    mouths = [draw(bits(name)) for name in "XYZ"[: draw(st.integers(0, 3))]]
    made_up, tryons = [], []
    for name in ("Set 1", "Set 2")[: draw(st.integers(0, 2))]:
        slots = draw(slots_in(straps, mouths))
        made_up.append(MadeUp(name=name, parts=tuple(slots.items())))
        tryons += draw(tried_in(name, slots))
    items = (*straps, *mouths)
    every = [(item.name, part.part) for item in items for part in item.parts]
    taken = frozenset(part for part in every if draw(st.integers(0, 3)) == 0)
    room = Room(items=items, made_up=tuple(made_up), taken=taken)
    return room, tuple(tryons)


@st.composite
def hanging_rooms(draw: st.DrawFn) -> tuple[Room, tuple[TryOn, ...]]:
    """Two bridles and two bits that differ in what hangs, and a set worn before."""
    spacing = st.sampled_from([16.0, 27.0])
    heads, cheeks = (
        st.sampled_from([None, 480, 560, 600]),
        st.sampled_from([205, 236, 262, 330]),
    )
    straps = [
        bridle(
            name,
            headpiece(draw(heads), spacing_mm=draw(spacing)),
            cheekpieces(draw(cheeks)),
            browband(),
        )
        for name in "AB"
    ]
    mouths = [
        make_bit(127.0, draw(st.sampled_from(["eggbutt", "hanging_cheek"])), name=name)
        for name in "XY"
    ]
    slots = (
        ("headpiece", draw(st.sampled_from(straps))),
        ("cheekpieces", draw(st.sampled_from(straps))),
        ("bit", draw(st.sampled_from(mouths))),
    )
    seen = draw(st.sampled_from(["sits_right", "rubs", "too_long"]))
    tryon = worn("Set", "cheekpieces", seen, draw(st.sampled_from([None, 1, 7])))
    room = Room(items=(*straps, *mouths), made_up=(MadeUp(name="Set", parts=slots),))
    return room, (tryon,)


@given(hanging_rooms(), st.sampled_from([0.01, 6.0]))
@settings(max_examples=80, deadline=None)
def test_the_best_ways_to_hang_a_bit_are_those_found_by_trying_each(
    told: tuple[Room, tuple[TryOn, ...]], sd: float
) -> None:
    room, tryons = told
    horse = replace(make_horse(sd=sd), tryons=tryons)
    every = all_bridles(horse, room)
    found = mix(horse, room, ON).best
    assert [slots_of(one) for one in found] == [named(of) for _, of in every[:3]]


@given(
    rooms(),
    st.sampled_from([0.01, 6.0, 15.0]),
    st.sampled_from([(), ("head_length",), ("brow",)]),
    st.booleans(),
    st.sampled_from([date(2023, 4, 19), date(2024, 6, 1)]),
)
@settings(max_examples=60, deadline=None)
def test_the_best_bridles_are_those_found_by_making_up_every_one(
    told: tuple[Room, tuple[TryOn, ...]],
    sd: float,
    unmeasured: tuple[str, ...],
    bit: bool,
    born: date,
) -> None:
    room, tryons = told
    horse = make_horse(sd=sd, unmeasured=unmeasured)
    horse = replace(
        horse,
        tryons=tryons,
        foaled=type(horse.foaled)(first=born, last=born),
    )
    every = all_bridles(horse, room, bit=bit)
    found = mix(horse, room, ON, bit=bit).best
    assert [slots_of(one) for one in found] == [named(of) for _, of in every[:3]]
