"""The rule of a rug: its length from chest to tail, and the size to look for."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from math import ceil
from typing import Final

from fitting.fit.answers import Finding, NoRule, middle_of
from fitting.fit.clearances import window
from fitting.fit.edges import OURS, Edges
from fitting.fit.lengths import lengths_of
from fitting.fit.rests import UNSAID, Rests
from fitting.fit.straps import StrapRule
from fitting.fit.tack import Part
from fitting.growth import Spread

MEASURE: Final = "rug_length"
NAME: Final = "rug length"
INCH_MM: Final = 25.4
FOOT_IN: Final = 12
STEP: Final = "rug.step"
SOURCES: Final = ("common_practice", "ours")
RUG: Final = (
    "Look under a rug every day: shoulders, withers and chest for rubs, leg and belly"
    " straps for a foot that could catch. One that grew too short pulls on the"
    " withers. Common practice, no published source."
)
CAUTIONS: Final = (RUG,)


@dataclass(frozen=True, slots=True, kw_only=True)
class RugRule(StrapRule):
    """A rug on one horse."""

    measure: str = MEASURE
    measure_name: str = NAME
    tight: str = "too short, a size up is wanted"
    loose: str = "too long, it would slip and turn"
    edges: Edges = OURS

    @property
    def cautions(self) -> tuple[str, ...]:
        """What stands beside every answer."""
        return CAUTIONS

    @property
    def sources(self) -> tuple[str, ...]:
        """The keys of the sources of its numbers."""
        return SOURCES

    def finding(
        self, body: Spread, on: date, *, worn: bool, rests: Rests = UNSAID
    ) -> Finding:
        """Return the answer, with the size to look for."""
        found = StrapRule.finding(self, body, on, worn=worn, rests=rests)
        size = size_words(rug_size_in(middle_of(body), edges=self.edges))
        return replace(found, why=f"{found.why} The size for now is {size}.")


def rug_size_in(
    length_mm: float, step_mm: float | None = None, edges: Edges = OURS
) -> int:
    """Return the rug's size (inches) for a horse's rug length: between two, the larger.

    ``step_mm``: from one size to the next, three inches, or two where rugs are sold by
    the even inch. What a good rug may be too short by is let go. Source: common
    practice, no published source.
    """
    short_by = edges.value("strap.rug.good_from")
    step_mm = edges.value(STEP) if step_mm is None else step_mm
    return round(step_mm * ceil((length_mm + short_by) / step_mm) / INCH_MM)


def size_words(inches: int) -> str:
    """Return a rug's size as it is sold: ``5 ft 9 in``, ``6 ft``."""
    feet, rest = divmod(inches, FOOT_IN)
    return f"{feet} ft {rest} in" if rest else f"{feet} ft"


def rule(item: str, kind: str, part: Part, edges: Edges = OURS) -> RugRule | NoRule:
    """Return the rule of a rug, or what has to be written down first."""
    lengths = lengths_of(part, MEASURE)
    if isinstance(lengths, NoRule):
        why, ask = lengths.why, "length of the rug, chest to tail"
        return replace(lengths, why=why, ask=ask, cautions=CAUTIONS, sources=SOURCES)
    return RugRule(
        item=item,
        kind=kind,
        part=part.part,
        lengths=lengths,
        window=window("strap.rug", edges),
        edges=edges,
    )
