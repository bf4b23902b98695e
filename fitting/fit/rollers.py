"""The rule of a roller: it goes round the girth, and lets out for growth."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.fit.answers import (
    EDGE_MM,
    Answer,
    Chances,
    Finding,
    Judged,
    NoRule,
    middle_of,
)
from fitting.fit.edges import OURS, Edges
from fitting.fit.in_short import NOT_SURE
from fitting.fit.lengths import Lengths
from fitting.fit.rests import UNSAID, Rests
from fitting.fit.tack import Part
from fitting.growth import Spread
from fitting.tryons import Verdict
from fitting.units import show_off, show_wanted

MEASURE: Final = "heart_girth"
SPARE: Final = "roller.spare"
WITHIN: Final = "roller.within"
NAME: Final = "heart girth"
SIDES: Final = 2  # taken up on the same hole both sides
SOURCES: Final = ("common_practice", "ours")
ROLLER: Final = (
    "A wide pad, two fingers clear over the spine, and the same hole both sides, a"
    " hand behind the elbow: common practice, no published source. Do it up a hole at"
    " a time, and look under it for rubs after each use."
)
CAUTIONS: Final = (ROLLER,)


@dataclass(frozen=True, slots=True, kw_only=True)
class RollerRule:
    """A roller on one horse, with its pad."""

    item: str
    kind: str
    part: str
    lengths: Lengths
    measure: str = MEASURE
    measure_name: str = NAME
    edges: Edges = OURS
    cautions: tuple[str, ...] = CAUTIONS
    sources: tuple[str, ...] = SOURCES

    @property
    def half_mm(self) -> float:
        """How closely a hole tells the girth (mm)."""
        return self.edges.value(WITHIN)

    @property
    def spare_mm(self) -> float:
        """How much it has to let out (mm)."""
        return self.edges.value(SPARE)

    @property
    def bodies(self) -> tuple[float, float]:
        """The girths it goes round at all (mm)."""
        return self.lengths.shortest_mm, self.lengths.longest_mm

    @property
    def good_bodies(self) -> tuple[float, float] | None:
        """The girths it goes round with enough to let out (mm); None: it never has."""
        least, most = self.lengths.shortest_mm, self.lengths.longest_mm
        most -= self.spare_mm
        return (least, most) if least <= most else None

    def fitted_mm(self, hole: int | None) -> float | None:
        """Return the girth (mm) that hole goes round; None: no such hole known."""
        return self.lengths.on(hole)

    def told_mm(self, seen: Verdict, hole: int | None) -> float | None:
        """Return the girth (mm) a try-on speaks of; on no hole, by its ends.

        Too short is said of a roller let right out, too long of one taken right up.
        """
        if hole is None and seen == "too_short":
            return self.lengths.longest_mm
        if hole is None and seen == "too_long":
            return self.lengths.shortest_mm
        return self.lengths.on(hole)

    def chances(self, body: Spread) -> Chances:
        """Return the chances: short of the girth, not tight enough, with spare."""
        least, most = self.bodies
        small = 1.0 - body.below(most + EDGE_MM)
        loose = body.below(least - EDGE_MM)
        good = 0.0
        if self.good_bodies is not None:
            good = body.below(self.good_bodies[1] + EDGE_MM) - loose
        return Chances(good=good, no=small + loose, small=small)

    def judge(self, body: Spread, on: date, *, worn: bool) -> Judged:
        """Return the answer for a girth of that spread on a day."""
        chances = self.chances(body)
        return chances.judged(chances.answer)

    def finding(
        self, body: Spread, on: date, *, worn: bool, rests: Rests = UNSAID
    ) -> Finding:
        """Return the answer with its hole, the spare ones and its reason."""
        judged = self.judge(body, on, worn=worn)
        girth = middle_of(body)
        hole = None if judged.answer is Answer.NO else self._hole(girth)
        good = self.good_bodies
        return Finding(
            item=self.item,
            kind=self.kind,
            part=self.part,
            answer=judged.answer,
            why=self._say(girth, hole, judged.answer),
            chance_no=judged.chance_no,
            hole=hole,
            spare_longer=None if hole is None else hole - 1,
            spare_shorter=None if hole is None else len(self.lengths.on_holes) - hole,
            cautions=self.cautions,
            rests_on=rests.on,
            stale=rests.stale,
            stale_days=rests.or_older(None),
            sources=self.sources,
            size_mm=self.lengths.longest_mm,
            needs_from_mm=girth + self.spare_mm,
            reach_from_mm=good[0] if good else None,
            reach_to_mm=good[1] if good else None,
            decided=self.edges.decided(SPARE),
            short=self._short(girth, judged.answer),
        )

    def _short(self, girth_mm: float, answer: Answer) -> str:
        if answer is Answer.NO:
            return "too short" if 2 * girth_mm > sum(self.bodies) else "too long"
        if answer is Answer.GOOD:
            return ""
        at_middle = self._at(girth_mm)
        return "little to let out" if at_middle is Answer.WATCH else NOT_SURE

    def _hole(self, girth_mm: float) -> int | None:
        """Return the hole that comes nearest to a girth, if it has holes."""
        on_holes = list(enumerate(self.lengths.on_holes, start=1))
        if not on_holes:
            return None
        return min(on_holes, key=lambda one: abs(one[1] - girth_mm))[0]

    def _at(self, girth_mm: float) -> Answer:
        """Return the answer for one exact girth."""
        exact = Spread(weights=(1.0,), means=(girth_mm,), sds=(EDGE_MM / 100,))
        return self.chances(exact).answer

    def _say(self, girth: float, hole: int | None, answer: Answer) -> str:
        (least, most), told_in = self.bodies, self.edges.told_in
        if girth < least - EDGE_MM:
            return (
                f"Even taken right up, {show_off(least - girth, told_in)} more than"
                f" {NAME}:"
                f" {self._sure(girth, answer, 'too long')}."
            )
        than = "less" if girth > most + EDGE_MM else "more"
        off = show_off(abs(most - girth), told_in)
        said = f"let right out, {off} {than} than {NAME}"
        if than == "less":
            return f"Even {said}: {self._sure(girth, answer, 'too short')}."
        enough = most - girth >= self.spare_mm - EDGE_MM
        wanted = show_wanted(self.spare_mm, told_in)
        meaning = "right" if enough else f"{wanted} are wanted for growth"
        sides = "" if hole is None else " The same hole both sides."
        return f"L{said[1:]}: {self._sure(girth, answer, meaning)}.{sides}"

    def _sure(self, girth: float, answer: Answer, meaning: str) -> str:
        if answer is self._at(girth):
            return meaning
        return f"{meaning}, but the {NAME} is not known closely enough to be sure"


def rule(item: str, kind: str, part: Part, edges: Edges = OURS) -> RollerRule | NoRule:
    """Return the rule of a roller, or what has to be written down first."""
    lengths = lengths_of(part)
    if isinstance(lengths, NoRule):
        return replace(lengths, cautions=CAUTIONS, sources=SOURCES)
    return RollerRule(
        item=item, kind=kind, part=part.part, lengths=lengths, edges=edges
    )


def lengths_of(part: Part) -> Lengths | NoRule:
    """Return a roller's lengths, each hole taken up on both sides, or what is missing.

    From its shortest and longest; a strap with holes needs only one of them, and how
    far its holes are apart.
    """
    longest, shortest, holes = part.longest_mm, part.shortest_mm, part.holes or 0
    span = (holes - 1) * SIDES * _spacing(part)
    if longest is None and shortest is not None and span:
        longest = shortest + span
    if longest is None:
        return _missing("How long it can be done up", "longest")
    if shortest is None and span:
        shortest = longest - span
    if shortest is None:
        return _missing("How short it can be done up", "shortest")
    if not 0 < shortest <= longest:
        return NoRule(
            measure=MEASURE,
            why="Its holes do not go with its length.",
            ask="hole spacing of the strap",
        )
    return Lengths(
        shortest_mm=shortest,
        longest_mm=longest,
        on_holes=_on_holes(shortest, longest, holes),
    )


def _on_holes(shortest: float, longest: float, holes: int) -> tuple[float, ...]:
    """Return the length on each hole, from the loosest to the tightest (mm)."""
    if holes < SIDES:
        return (longest,) * holes
    step = (longest - shortest) / (holes - 1)
    return tuple(longest - step * hole for hole in range(holes))


def _spacing(part: Part) -> float:
    """Return how far its holes are apart (mm): as measured, or as wide as the strap.

    Source: holes as far apart as the strap is wide: common practice, no published
    source.
    """
    return part.spacing_mm or part.strap_width_mm or 0.0


def _missing(what: str, ask: str) -> NoRule:
    why = f"{what} is not written down."
    return NoRule(measure=MEASURE, why=why, ask=f"the {ask} of the strap")
