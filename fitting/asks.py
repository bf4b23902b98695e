"""What would tell more of an item: to measure, to write down, or to try on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from fitting.body import MEASURES
from fitting.fit.answers import Finding
from fitting.fit.thickness import ASK_JAW
from fitting.listed import listed

MEASURE_NAMES: Final = frozenset(measure.name for measure in MEASURES)
TRY_IT_ON: Final = "try it on"
NOT_OF_THE_ITEM: Final = MEASURE_NAMES | {TRY_IT_ON, ASK_JAW}


def asks_of(parts: Iterable[Finding]) -> tuple[str, ...]:
    """Return what the parts of an item ask for, each once."""
    return tuple(dict.fromkeys(part.ask for part in parts if part.ask))


def to_measure(asks: Iterable[str]) -> tuple[str, ...]:
    """Return what has to be measured on the horse."""
    return tuple(ask for ask in asks if ask in MEASURE_NAMES)


def to_write_down(asks: Iterable[str]) -> tuple[str, ...]:
    """Return what has to be written down of the item."""
    return tuple(ask for ask in asks if ask not in NOT_OF_THE_ITEM)


def ask_words(asks: Sequence[str]) -> str:
    """Return what comes first of them, in a few words; or nothing."""
    measure, write_down = to_measure(asks), to_write_down(asks)
    if measure:
        return f"measure {listed(measure)}"
    if write_down:
        return f"write down {listed(write_down)}"
    return TRY_IT_ON if TRY_IT_ON in asks else ""
