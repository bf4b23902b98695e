"""The rule of a throatlash: its length done up, with room for a fist at the cheek."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from fitting.fit.answers import NoRule
from fitting.fit.clearances import window
from fitting.fit.edges import OURS, Edges
from fitting.fit.lengths import lengths_of
from fitting.fit.straps import StrapRule
from fitting.fit.tack import Part

MEASURE: Final = "throat_round"
NAME: Final = "round the throat"
SOURCES: Final = ("common_practice", "ours")
FIST: Final = (
    "A throatlash hangs loose: a hand's width to a fist between strap and cheek, with"
    " the head where the horse carries it."
)
CAUTIONS: Final = (FIST,)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThroatlashRule(StrapRule):
    """A throatlash on one horse."""

    measure: str = MEASURE
    measure_name: str = NAME
    tight: str = "too tight, it would press on the throat"
    loose: str = "so loose that the bridle could come off"

    @property
    def cautions(self) -> tuple[str, ...]:
        """What stands beside every answer."""
        return CAUTIONS

    @property
    def sources(self) -> tuple[str, ...]:
        """The keys of the sources of its numbers."""
        return SOURCES


def rule(
    item: str, kind: str, part: Part, edges: Edges = OURS
) -> ThroatlashRule | NoRule:
    """Return the rule of a throatlash, or what has to be written down first.

    Its length is that on its middle hole, where no hole is named.
    """
    lengths = lengths_of(part, MEASURE, on_middle=True)
    if isinstance(lengths, NoRule):
        return replace(lengths, cautions=CAUTIONS, sources=SOURCES)
    return ThroatlashRule(
        item=item,
        kind=kind,
        part=part.part,
        lengths=lengths,
        window=window("strap.throatlash", edges),
    )
