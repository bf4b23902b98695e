"""What to bring to a measuring day or a visit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from fitting.body import measure_by_key

# Not carried: a weighbridge is driven to, and eye and hand are there.
_NOT_CARRIED: Final = frozenset({"weighbridge", "eye", "formula"})
LEVEL_GROUND: Final = "hard, level ground to stand on"
# Common practice, no published source.
_TO_HOLD: Final = ("headcollar and rope", "a light, dry place to stand")
VISITS: Final[Mapping[str, tuple[str, ...]]] = {
    "vet": (*_TO_HOLD, "the passport", "what you saw, and since which day"),
    "teeth": (*_TO_HOLD, "what was found the last time"),
    "farrier": (*_TO_HOLD, "hard, level ground"),
    "saddle_fitter": (*_TO_HOLD, "every saddle and girth to be looked at"),
    "vaccination": (*_TO_HOLD, "the passport, for it to be written in"),
    "worming": (*_TO_HOLD, "the weight, measured lately"),
    "back": (*_TO_HOLD, "the saddle and girth that are in use"),
    "gelding": (*_TO_HOLD, "the passport", "a clean place to stand afterwards"),
}
TO_A_SHOP: Final = ("the card with its sizes", "a tape to measure it by")
PRACTICE: Final = "Common practice, no published source."


def measuring_tools(measures: Sequence[str]) -> tuple[str, ...]:
    """Return what measures are usually taken with, each once, in order.

    Raises:
        UnknownMeasureError: nobody takes such a measure.
    """
    found: dict[str, None] = {}
    for key in measures:
        methods = measure_by_key(key).methods
        carried = (m.name for m in methods if m.key not in _NOT_CARRIED)
        found |= dict.fromkeys([next(carried, "")])
    tools = tuple(name for name in found if name)
    return (*tools, LEVEL_GROUND) if tools else ()


def for_a_visit(kind: str) -> tuple[str, ...]:
    """Return what to have ready for a visit; empty: nothing is known."""
    return VISITS.get(kind, _TO_HOLD if kind == "other" else ())
