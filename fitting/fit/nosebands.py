"""The rule of a noseband: its length done up, and the gap at the front of the nose."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.fit.answers import Answer, Finding, Gap, NoRule, Wearer
from fitting.fit.clearances import GAPS, gap, window
from fitting.fit.lasting import Sizes
from fitting.fit.lengths import lengths_of
from fitting.fit.rests import UNSAID, Rests
from fitting.fit.straps import StrapRule
from fitting.fit.tack import Part
from fitting.growth import Spread
from fitting.units import show_off, show_wanted

MEASURE: Final = "nose_round"
GAP_MEASURE: Final = "nose_gap"
NAME: Final = "round the nose"
GAP: Final = GAPS["noseband"]
SOURCES: Final = (
    *("fei_noseband_2025", "ises_noseband", "mcgreevy_2012", "sms_bridle"),
    "ours",
)
NOSEBAND: Final = (
    "Check at the front of the nose, not the side: it lies on bone, never on the soft"
    " nose. A noseband must not hold the mouth shut; if it seems to need to be tight,"
    " have a vet look for pain first."
)
CAUTIONS: Final = (NOSEBAND,)


@dataclass(frozen=True, slots=True, kw_only=True)
class NosebandRule(StrapRule):
    """A noseband on one horse, round the inside.

    ``measured_gap_mm``: the room last measured at the front under a noseband, if that
    still stands. It may have been another's, so it is never more than a warning.
    """

    measure: str = MEASURE
    measure_name: str = NAME
    tight: str = "too tight to chew"
    loose: str = "so loose that it slides"
    measured_gap_mm: float | None = None
    wanted_gap: Gap = GAP

    @property
    def takes_loosest(self) -> bool:
        """Whether the loosest of several good holes is the one."""
        return True

    @property
    def gap(self) -> Gap | None:
        """The room at the front of the nose that it is judged by when it is worn."""
        return self.wanted_gap

    @property
    def cautions(self) -> tuple[str, ...]:
        """What stands beside every answer."""
        return CAUTIONS

    @property
    def sources(self) -> tuple[str, ...]:
        """The keys of the sources of its numbers."""
        return SOURCES

    def holds_back(self, on: date) -> str:
        """Return that the gap last measured was too small, or nothing."""
        seen, wanted = self.measured_gap_mm, self.wanted_gap
        if seen is None or wanted.answer(seen) is Answer.GOOD:
            return ""
        return (
            "The gap last measured at the front was"
            f" {show_off(seen, wanted.told_in)}:"
            f" {show_wanted(wanted.good_from, wanted.told_in)} are wanted."
        )

    def finding(
        self, body: Spread, on: date, *, worn: bool, rests: Rests = UNSAID
    ) -> Finding:
        """Return the answer; held back by a gap measured, it went by that too."""
        found = StrapRule.finding(self, body, on, worn=worn, rests=rests)
        if not self.holds_back(on):
            return found
        return replace(found, decided=(*found.decided, *self.wanted_gap.decided))


def rule(
    item: str, kind: str, part: Part, wearer: Wearer, sizes: Sizes
) -> NosebandRule | NoRule:
    """Return the rule of a noseband, or what has to be written down first."""
    lengths = lengths_of(part, MEASURE)
    wanted = gap("gap.noseband", wearer.edges)
    if isinstance(lengths, NoRule):
        return replace(lengths, cautions=CAUTIONS, sources=SOURCES, gap=wanted)
    return NosebandRule(
        item=item,
        kind=kind,
        part=part.part,
        lengths=lengths,
        window=window("strap.noseband", wearer.edges),
        wanted_gap=wanted,
        measured_gap_mm=_measured_gap(wearer, sizes),
    )


def _measured_gap(wearer: Wearer, sizes: Sizes) -> float | None:
    """Return the gap last measured (mm), if that measurement still stands."""
    if dict(wearer.standing).get(GAP_MEASURE) != "stands":
        return None
    if not wearer.growth.known(GAP_MEASURE):
        return None
    return sizes.median(GAP_MEASURE, sizes.start)
