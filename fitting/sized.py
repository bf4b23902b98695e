"""The size of one measure in words: now, grown, how fast, and what that rests on."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.looks import Band, MeasureLook
from fitting.readings import Units, show, show_between

_RESTS: Final = {
    "type": "Rests on no reading: on type and age alone",
    "tryons": "Never measured: rests on what was tried on",
}
_SOON: Final = "In the month to come"
# What may shrink as well, with season and feed; a height or a length does not.
_SHRINKS: Final = frozenset({"heart_girth", "girth_path", "weight"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """The readings that count: how many, and the day of the first; the parents known.

    ``parents``: whose heights the size leans on, in words.
    """

    count: int
    first: date | None
    parents: tuple[str, ...] = ()


def height_words(look: MeasureLook, she: str, units: Units) -> str:
    """Return where a growing horse stands, its share, and how high it will be."""
    if look.now is None or look.grown is None:
        return ""
    now, grown = _between(look.now, look, units), _between(look.grown, look, units)
    if look.last is None and look.rests_on == "type":
        return (
            f"By type and age alone {she} stands {now}, nine times in ten, and will"
            f" make {grown} grown. The first measurement narrows this."
        )
    low, middle, high = _done(look)
    within = f" ({low} to {high} %)" if low < high else ""
    return (
        f"Today {she} stands {now}, about {middle} % of the height {she} is likely to"
        f" reach{within}. Grown, {she} will make {grown}. Both nine times in ten."
    )


def size_words(look: MeasureLook, units: Units, *, grown: bool) -> str:
    """Return the size of any measure in words; nothing where nothing is known.

    ``grown``: the horse is, so that its size now is all there is to say.
    """
    if look.now is None:
        return ""
    now = _between(look.now, look, units)
    likely = show(look.now.p50, look.dimension, units)
    said = f"Today most likely {likely}, nine times in ten {now}."
    if look.grown is None or grown or look.dimension == "score":
        return said
    low, middle, high = _done(look)
    within = f" ({low} to {high} %)" if low < high else ""
    full = _between(look.grown, look, units)
    return f"{said} Grown {full}; about {middle} % of that is reached{within}."


def _done(look: MeasureLook) -> tuple[int, int, int]:
    """Return the share of the grown size in per cent; all alike where it has no range.

    Raises:
        ValueError: nothing is known of the size.
    """
    if look.done is not None:
        low, middle, high = look.done.p5, look.done.p50, look.done.p95
        return round(100 * low), round(100 * middle), round(100 * high)
    if look.now is None or look.grown is None:
        raise ValueError(f"no size is known of {look.measure}")
    middle = round(100 * look.now.p50 / look.grown.p50)
    return middle, middle, middle


def speed_words(look: MeasureLook, units: Units) -> str:
    """Return how much it grows in the month to come; nothing where that is not known.

    Lengths are said in mm: in a month a part grows by less than any tape is ruled in.
    What does not shrink is not said to: its doubt below nought is the measuring's.
    """
    a_month = look.a_month
    if a_month is None or look.dimension == "score":
        return ""
    sizes = (a_month.p5, a_month.p50, a_month.p95)
    if look.measure not in _SHRINKS:
        sizes = (max(sizes[0], 0.0), max(sizes[1], 0.0), max(sizes[2], 0.0))
    low, middle, high = (_change(size, look, units) for size in sizes)
    if low == middle == high == _change(0.0, look, units):
        return f"{_SOON}: less than can be measured."
    return f"{_SOON}: most likely {middle}, nine times in ten {low} to {high}."


def _change(size: float, look: MeasureLook, units: Units) -> str:
    """Return a change in words: ``5 mm more``, ``2 kg less``, ``nothing``."""
    if look.dimension == "weight":
        said = show(abs(size), "weight", units)
        whole = said.startswith("0")
    else:
        said, whole = f"{abs(size):.0f} mm", round(abs(size)) == 0
    if whole:
        return "nothing"
    return f"{said} {'more' if size > 0 else 'less'}"


def rests_words(look: MeasureLook | None, read: Read, day: str) -> str:
    """Return what the size rests on.

    Args:
        look: the measure; None: nothing is known of it.
        read: its readings.
        day: the day of the first of them, in words.
    """
    parents = f"the height of the {' and the '.join(read.parents)}"
    more = [parents] if read.parents else []
    rests_on = look.rests_on if look else "type"
    if not read.count:
        start = _RESTS["tryons" if rests_on in {"tryons", "both"} else "type"]
        return f"{start}{''.join(f', and on {said}' for said in more)}."
    if rests_on in {"tryons", "both"}:
        more.insert(0, "what was tried on")
    count = f"{read.count} measurement{'s' if read.count > 1 else ''} since {day}"
    return f"Rests on {_and(count, *more)}."


def _and(*said: str) -> str:
    return " and on ".join((", on ".join(said[:-1]), said[-1]) if said[1:] else said)


def _between(band: Band, look: MeasureLook, units: Units) -> str:
    return show_between(band.p5, band.p95, look.dimension, units)
