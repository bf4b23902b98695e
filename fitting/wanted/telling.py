"""What is wanted, told in the yard's units: sizes to look for, and what to look at."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from math import ceil, floor
from typing import Final

from fitting.fit.answers import EDGE_MM
from fitting.fit.bridles import RING_USUAL
from fitting.fit.edges import EDGES
from fitting.fit.girths import INCH_MM
from fitting.fit.rugs import size_words
from fitting.listed import listed
from fitting.pieces import part_word
from fitting.readings import Units, show, show_between
from fitting.units import show_off
from fitting.units.showing import THIN_SPACE
from fitting.wanted.hanging import WHOLE
from fitting.wanted.values import First, Offer, Range, Step, Wanted

Line = tuple[str, str]
# What to look at on used tack. Common practice, no published source.
_LEATHER: Final = (
    "Leather: bend it where it folds at buckles. Cracked or dry: leave it.",
    "Stitching: pull at every seam and keeper. Holes: not torn into each other.",
)
_METAL: Final = "Metal: no sharp edge, no crack, nothing worn thin at rings or joints."
CHECKS: Final = {
    "bit": (
        _METAL,
        "Rubber or nylon: no tooth marks through to the core.",
        "Rings of another size move the bridle's hole: write their size down.",
        "Wash and disinfect it before it goes into another mouth.",
    ),
    "bridle": (*_LEATHER, _METAL),
    "headcollar": (*_LEATHER, _METAL),
    "cavesson": (*_LEATHER, "Nose plate: padded, not sprung; its rings turn freely."),
    "roller": (*_LEATHER, "Girth straps: stitched fast; pads even, nothing hard."),
    "girth": (
        *_LEATHER,
        "Elastic: even on both sides, springs back, no broken threads.",
    ),
    "saddle": (
        "Tree: nothing gives or creaks when head and cantle are pressed together.",
        "Girth straps: stitching and holes, and the web they hang on.",
        "Panel: even, no lumps. Leather: not cracked.",
        "Take it on trial only, and have a saddle fitter see it on this horse.",
    ),
    "rug": (
        "Straps, stitching and lining whole; nothing that could rub or catch.",
        "Wash it before it goes on another horse.",
    ),
}
MEASURE_IT: Final = "Measure it in the shop: sizes on labels are not trusted."
_DONE_UP: Final = {
    "noseband": "done up, round the inside",
    "throatlash": "done up",
    "nose": "done up, round the inside",
    "crown": "ring to ring over the top",
    "jowl": "ring to ring under the jaw",
    "browband": "loop to loop",
    "back_seam": "chest to tail",
    "panel": "front edge to back edge",
}


def size_lines(wanted: Wanted, units: Units) -> tuple[Line, ...]:
    """Return the sizes to look for, each with what it is a size of."""
    if wanted.part == "mouthpiece":
        return _bit(wanted, units)
    if wanted.kind == "roller":
        return _roller(wanted, units)
    name = _named(wanted.kind, wanted.part)
    if wanted.part == "panel":
        return ((name, f"up to {_one(wanted.good.to_mm, units)}"),)
    return ((name, range_words(wanted.good, units)), *_later(wanted, units))


def unsaid_lines(
    kind: str, wanted: Iterable[Wanted], firsts: Iterable[First]
) -> tuple[Line, ...]:
    """Return the parts no size can be said of yet, each with what is to be measured."""
    said = {one.part for one in wanted}
    asks = {
        first.part: first.ask
        for first in firsts
        if first.kind == kind and first.measure and first.part not in said
    }
    return tuple(
        (_named(kind, part), f"no size yet: {ask[:1].lower()}{ask[1:].rstrip('.')}")
        for part, ask in asks.items()
    )


def _named(kind: str, part: str) -> str:
    if part == WHOLE:
        return "Bit seat over the poll to bit seat, on a middle hole"
    if kind == "girth":
        return "End to end"
    word = part_word(part)
    how = _DONE_UP.get(part, "")
    return f"{word[:1].upper()}{word[1:]}, {how}" if how else word


def _bit(wanted: Wanted, units: Units) -> tuple[Line, ...]:
    lines: list[Line] = [
        ("Length between the cheeks", range_words(wanted.good, units)),
    ]
    if wanted.loose is not None:
        lines.append(("The same with loose rings", range_words(wanted.loose, units)))
    if wanted.thick is not None:
        lines.append(("Thickness beside the ring", _mm_words(wanted.thick)))
    if wanted.ring_mm is not None:
        lines.append(("Ring, inside", _ring(wanted.ring_mm, units)))
    return tuple(lines)


def _ring(ring_mm: float, units: Units) -> str:
    said = f"about {show_off(ring_mm, units.length)}"
    if ring_mm != EDGES[RING_USUAL].value:
        return said
    return f"{said}, ours" if units.length == "in" else f"{said} (ours)"


def _roller(wanted: Wanted, units: Units) -> tuple[Line, ...]:
    body = _one(wanted.body_mm, units)
    lines: list[Line] = [
        ("Let right out, with its pad", f"{_one(wanted.good.from_mm, units)} or more"),
        ("Taken right up", f"no more than {body}"),
    ]
    if wanted.grown is not None:
        grown = _one(wanted.grown.from_mm, units)
        lines.append(("To last until grown, let right out", f"{grown} or more"))
    return tuple(lines)


def _later(wanted: Wanted, units: Units) -> tuple[Line, ...]:
    """Return what a strap that does up must reach when the horse is grown."""
    if wanted.grown is None or wanted.steps:
        return ()
    return (("The same when grown", range_words(wanted.grown, units)),)


def range_words(sizes: Range, units: Units) -> str:
    """Return a range in the yard's unit; inches are coarse, so mm stand beside them."""
    if sizes.from_mm is None or sizes.to_mm is None:
        return _one(sizes.from_mm or sizes.to_mm, units)
    if units.length == "mm":
        return _mm_words(sizes)
    said = show_between(sizes.from_mm, sizes.to_mm, "length", units)
    return said if units.length != "in" else f"{said} ({_mm_words(sizes)})"


def _mm_words(sizes: Range) -> str:
    if sizes.from_mm is None or sizes.to_mm is None:  # pragma: no cover - has both
        return ""
    low, high = ceil(sizes.from_mm - EDGE_MM), floor(sizes.to_mm + EDGE_MM)
    return f"{low} to {max(low, high)}{THIN_SPACE}mm"  # inwards: what is read is good


def _one(size_mm: float | None, units: Units) -> str:
    return "" if size_mm is None else show(size_mm, "length", units)


def step_words(step: Step, wanted: Wanted) -> str:
    """Return a usual size as it is sold: ``5 in (127 mm)``, ``125 mm``."""
    if step.unit == "mm":
        return f"{step.mm:.0f} mm"
    if wanted.part == "back_seam":
        return size_words(round(step.mm / INCH_MM))
    return f"{show(step.mm, 'length', Units(length='in'))} ({step.mm:.0f} mm)"


def until_words(until: date | None) -> str:
    """Return how long a size is good."""
    if until is None:
        return "good for two years and longer"
    return f"good until about {say_day(until)}"


def keep_words(wanted: Wanted) -> str:
    """Return whether it is worth buying new, and why."""
    if wanted.keep:
        left = "one size" if wanted.steps else "two holes"
        return f"Buy to keep: less than {left} of growth is still to come."
    if wanted.steps or wanted.grown is None:
        return "Borrow it, or buy it used: it will be outgrown."
    return "Borrow it, or buy it used, unless it is good at its size when grown too."


def back_words(wanted: Iterable[Wanted]) -> str:
    """Return what would do, but goes back before, in a sentence; or nothing."""
    found = dict.fromkeys(one for each in wanted for one in each.goes_back)
    return " ".join(
        f"{one.item} is good then, but goes back by {say_day(one.by)}:"
        f" ask whether it may stay.{_besides(one.besides)}"
        for one in found
    )


def offer_words(offer: Offer) -> str:
    """Return who lends an item, on which hole, and until when it is good."""
    owner = f" from {offer.owner}" if offer.owner else ", lent till then"
    hole = f", on hole {offer.hole}" if offer.hole else ""
    until = until_words(offer.until)
    return f"{offer.item}{owner}{hole}: {until}.{_besides(offer.besides)}"


def _besides(parts: tuple[str, ...]) -> str:
    """Return which parts of an item its being good does not speak of."""
    if not parts:
        return ""
    named = listed(part_word(part) for part in parts)
    return f" Without its {named}: not good by then, or not known."


def say_day(day: date) -> str:
    """Return a day as it is said: 26 Nov 2026."""
    return f"{day.day} {day:%b %Y}"
