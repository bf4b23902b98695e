"""The rule of a girth: its length against the path from middle hole to middle hole."""

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

MEASURE: Final = "girth_path"
NAME: Final = "girth path"
INCH_MM: Final = 25.4
STEP_IN: Final = 2  # girths are sold in even inches
TOLERANCE_IN: Final = 0.05  # of a tape's reading: the next size is for more than that
LONG_LESS_SHORT_IN: Final = 20  # a short girth ends that much lower, both sides
SOURCES: Final = ("common_practice", "ours")
GIRTH: Final = (
    "Do a girth up a hole at a time, the same both sides, buckles clear of the elbow,"
    " with two holes to spare each way; a saddle fitter says whether it suits the"
    " saddle. Common practice, no published source."
)
CAUTIONS: Final = (GIRTH,)


@dataclass(frozen=True, slots=True, kw_only=True)
class GirthRule(StrapRule):
    """A girth on one horse, buckled to the straps of its saddle."""

    measure: str = MEASURE
    measure_name: str = NAME
    path: str = "the way under the belly, middle hole to middle hole"
    tight: str = "too short, its buckles would not reach the last holes"
    loose: str = "too long, it could not be done up tight enough"

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
        """Return the answer, with the girth to look for."""
        found = StrapRule.finding(self, body, on, worn=worn, rests=rests)
        size = girth_size_in(middle_of(body))
        return replace(found, why=f"{found.why} By its path, a girth of {size} in.")


def girth_size_in(path_mm: float) -> int:
    """Return the size of girth (inches, even) for a path: the next one up.

    Source: rounding up to an even inch: common practice, no published source.
    """
    return STEP_IN * ceil((path_mm / INCH_MM - TOLERANCE_IN) / STEP_IN)


def short_girth_in(long_in: int) -> int:
    """Return the short girth (inches), for long girth straps, in place of a long one.

    Source: common practice, no published source.
    """
    return long_in - LONG_LESS_SHORT_IN


def rule(item: str, kind: str, part: Part, edges: Edges = OURS) -> GirthRule | NoRule:
    """Return the rule of a girth, or what has to be written down first."""
    lengths = lengths_of(part, MEASURE)
    if isinstance(lengths, NoRule):
        return replace(lengths, cautions=CAUTIONS, sources=SOURCES)
    return GirthRule(
        item=item,
        kind=kind,
        part=part.part,
        lengths=lengths,
        window=window("strap.girth", edges),
    )
