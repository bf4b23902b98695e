"""The rule of a browband: its length from loop to loop over the brow."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from fitting.fit.answers import NoRule
from fitting.fit.clearances import window
from fitting.fit.edges import OURS, Edges
from fitting.fit.lengths import lengths_of
from fitting.fit.straps import StrapRule
from fitting.fit.tack import Part

MEASURE: Final = "brow"
SOURCES: Final = ("common_practice", "ours")
EARS: Final = (
    "A browband leaves both ears free, and does not pull the headpiece onto them."
)
CAUTIONS: Final = (EARS,)


@dataclass(frozen=True, slots=True, kw_only=True)
class BrowbandRule(StrapRule):
    """A browband on one horse."""

    measure: str = MEASURE
    measure_name: str = MEASURE
    path: str = "the brow"
    tight: str = "too short, it would pull the headpiece onto the ears"
    loose: str = "too long, it would gape"

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
) -> BrowbandRule | NoRule:
    """Return the rule of a browband, or what has to be written down first."""
    lengths = lengths_of(part, MEASURE)
    if isinstance(lengths, NoRule):
        return replace(lengths, cautions=CAUTIONS, sources=SOURCES)
    return BrowbandRule(
        item=item,
        kind=kind,
        part=part.part,
        lengths=lengths,
        window=window("strap.browband", edges),
    )
