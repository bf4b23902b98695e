"""The rule of a lungeing cavesson: nose firm on bone, crown, jowl strap firm."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from fitting.fit.answers import Gap, NoRule
from fitting.fit.clearances import GAPS, gap, path_share, window
from fitting.fit.edges import OURS, Edges
from fitting.fit.headcollars import NAMES, NOSE, PATHS
from fitting.fit.lengths import lengths_of
from fitting.fit.straps import StrapRule
from fitting.fit.tack import Part
from fitting.tryons import BODY_OF_PART

GAP: Final = GAPS["cavesson"]
SOURCES: Final = ("common_practice", "ours")
CAVESSON: Final = (
    "A cavesson's nose lies on bone, just below the cheekbone and well above the"
    " nostrils: firm, with a finger under it, never pinching nor holding the mouth"
    " shut. Its jowl strap is firm enough to keep the cheek strap off the eye."
)
NOT_A_HEADCOLLAR: Final = (
    "An ordinary headcollar is too loose to lunge from: use a lungeing cavesson."
)
CAUTIONS: Final = (CAVESSON, NOT_A_HEADCOLLAR)


@dataclass(frozen=True, slots=True, kw_only=True)
class CavessonRule(StrapRule):
    """One strap of a lungeing cavesson on one horse."""

    tight: str = "too tight, it would pinch"
    loose: str = "too loose, it would turn on the head"
    wanted_gap: Gap = GAP

    @property
    def gap(self) -> Gap | None:
        """The room at the front of the nose that it is judged by when it is worn."""
        return self.wanted_gap if self.part == NOSE else None

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
) -> CavessonRule | NoRule:
    """Return the rule of a cavesson's strap, or what has to be written down first."""
    word = part.part
    lengths = lengths_of(part, BODY_OF_PART[word])
    wanted = gap("gap.cavesson", edges)
    if isinstance(lengths, NoRule):
        under = wanted if word == NOSE else None
        return replace(lengths, cautions=CAUTIONS, sources=SOURCES, gap=under)
    return CavessonRule(
        item=item,
        kind=kind,
        part=word,
        measure=BODY_OF_PART[word],
        measure_name=NAMES[word],
        path=PATHS[word],
        lengths=lengths,
        window=window(f"strap.cavesson_{word}", edges),
        share=path_share(word, edges),
        wanted_gap=wanted,
    )
