"""The rule of a bridle: which hole hangs the bit right, and how many are spare."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.age import reaches_months
from fitting.fit.answers import (
    EDGE_MM,
    Answer,
    Chances,
    Finding,
    Judged,
    NoRule,
    Wearer,
    middle_of,
)
from fitting.fit.edges import Decided, Edges
from fitting.fit.holes import MEASURE, SOURCES, Straps, missing, nearest_hole, straps_of
from fitting.fit.in_short import NOT_SURE, holes_short
from fitting.fit.rests import UNSAID, Rests
from fitting.fit.tack import Part
from fitting.growth import Spread
from fitting.units import show_off

GOOD_WITHIN: Final = "bridle.good_within"
FIRST_WRINKLE: Final = "bridle.first_wrinkle"
RING_USUAL: Final = "bridle.ring_usual"
SPARE_EACH_WAY: Final = "bridle.spare_each_way"
SPARE_UNDER: Final = "bridle.spare_under"
PLENTY: Final = 2  # holes each way while growing, to want no other cheekpieces; ours
HALF_MM: Final = 0.5  # less is no error to speak of
STRETCHES: Final = "Leather stretches: look at the hole again after the first weeks."


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleRule:
    """A bridle on one horse, with the bit that hangs in it."""

    item: str
    kind: str
    straps: Straps
    ring_mm: float
    ring_said: str
    wearer: Wearer

    @property
    def measure(self) -> str:
        """The measure of the body the part goes by."""
        return MEASURE

    @property
    def measure_name(self) -> str:
        """That measure in the yard's words."""
        return "head length"

    @property
    def half_mm(self) -> float:
        """Half the good window on one hole (mm of the head)."""
        return 2 * self._good_within_mm

    @property
    def cautions(self) -> tuple[str, ...]:
        """What stands beside every answer."""
        return (STRETCHES,)

    @property
    def sources(self) -> tuple[str, ...]:
        """The keys of the sources of its numbers."""
        return SOURCES

    @property
    def hangs_mm(self) -> float:
        """What ring and first wrinkle take up of the head length, both sides (mm)."""
        return self.ring_mm + 2 * self.wearer.edges.value(FIRST_WRINKLE)

    @property
    def _good_within_mm(self) -> float:
        return self.wearer.edges.value(GOOD_WITHIN)

    @property
    def _spare_under_months(self) -> int:
        return round(self.wearer.edges.value(SPARE_UNDER))

    def fitted_mm(self, hole: int | None) -> float | None:
        """Return the head (mm) that hole sits best on; None: no such hole known."""
        if hole is None or not 1 <= hole <= self.straps.holes:
            return None
        return self.straps.on_hole(hole) + self.hangs_mm

    def hole_on(self, head_mm: float) -> int:
        """Return the hole for a head; a horse still growing counts as first bitted."""
        target = head_mm - self.hangs_mm
        return nearest_hole(self.straps, target, ties_shorter=not self.wearer.grown)

    def chances(self, head: Spread) -> Chances:
        """Return the chances over all holes, each from half way to the next."""
        straps, space = self.straps, self.straps.spacing_mm
        first = straps.first_mm + self.hangs_mm
        last = straps.on_hole(straps.holes) + self.hangs_mm
        short = 1.0 - head.below(first + space + EDGE_MM)
        long = head.below(last - space - EDGE_MM)
        reached = 1.0 - short - long
        apart = space > self.half_mm  # forgiven edges can overlap by a little
        good = min(self._good_by_hole(head), reached) if apart else reached
        return Chances(good=good, no=short + long, small=short)

    def _good_by_hole(self, head: Spread) -> float:
        reach = self.half_mm + EDGE_MM
        best = (
            self.straps.on_hole(hole) + self.hangs_mm
            for hole in range(1, self.straps.holes + 1)
        )
        return sum(head.below(at + reach) - head.below(at - reach) for at in best)

    def judge(self, body: Spread, on: date, *, worn: bool) -> Judged:
        """Return the answer for a head of that spread on a day."""
        chances = self.chances(body)
        answer = chances.answer
        if answer is Answer.GOOD and self._too_few_spare(body, on):
            answer = Answer.WATCH
        return chances.judged(answer)

    def finding(
        self, body: Spread, on: date, *, worn: bool, rests: Rests = UNSAID
    ) -> Finding:
        """Return the answer with its hole, the spare ones and its reason."""
        judged = self.judge(body, on, worn=worn)
        head = middle_of(body)
        hole = self.hole_on(head)
        hangs = judged.answer is not Answer.NO
        target = head - self.hangs_mm
        return Finding(
            item=self.item,
            kind=self.kind,
            part=self.straps.part,
            answer=judged.answer,
            why=f"{self._say(body, on, judged.answer)}{self.ring_said}",
            chance_no=judged.chance_no,
            hole=hole if hangs else None,
            spare_longer=hole - 1 if hangs else None,
            spare_shorter=self.straps.holes - hole if hangs else None,
            cautions=self.cautions,
            rests_on=rests.on,
            stale=rests.stale,
            stale_days=rests.or_older(None),
            sources=self.sources,
            size_mm=self.straps.on_hole(hole),
            needs_from_mm=target - self.half_mm,
            needs_to_mm=target + self.half_mm,
            reach_from_mm=self.fitted_mm(self.straps.holes),
            reach_to_mm=self.fitted_mm(1),
            decided=self._went_by(body, on),
            short=self._short(body, on, judged.answer),
        )

    def _short(self, head: Spread, on: date, answer: Answer) -> str:
        if answer is Answer.GOOD:
            return ""
        off = self._off(middle_of(head))
        if answer is Answer.NO:
            return holes_short(abs(off) / self.straps.spacing_mm, small=off < 0)
        if abs(off) > self._good_within_mm:
            return "between holes"
        return "few holes spare" if self._too_few_spare(head, on) else NOT_SURE

    def _off(self, head_mm: float) -> float:
        """Return how much too long the nearest hole is on a head (mm a side)."""
        length = self.straps.on_hole(self.hole_on(head_mm))
        return (length - (head_mm - self.hangs_mm)) / 2

    def _went_by(self, head: Spread, on: date) -> tuple[Decided, ...]:
        """Return the edges that the hole and its answer go by."""
        paths = [GOOD_WITHIN, FIRST_WRINKLE]
        if self.ring_said:
            paths.append(RING_USUAL)
        if self._too_few_spare(head, on):
            paths += [SPARE_EACH_WAY, SPARE_UNDER]
        return self.wearer.edges.decided(*paths)

    def _too_few_spare(self, head: Spread, on: date) -> bool:
        if on >= reaches_months(self.wearer.foaled, self._spare_under_months):
            return False
        hole = self.hole_on(middle_of(head))
        spare = min(hole - 1, self.straps.holes - hole)
        return spare < self.wearer.edges.value(SPARE_EACH_WAY)

    def _say(self, head: Spread, on: date, answer: Answer) -> str:
        middle = middle_of(head)
        hole = self.hole_on(middle)
        off = self._off(middle)
        side, by = "short" if off < 0 else "long", self._by(off)
        if answer is Answer.NO:
            end = "first" if off < 0 else "last"
            said = f"Even on its {end} hole {by} a side too {side}."
            return f"{said}{self._other_cheeks(middle)}"
        named = f"Hole {hole} of {self.straps.holes}"
        if answer is Answer.WATCH and abs(off) > self._good_within_mm:
            return f"{named} is {by} a side {side}{self._half(off)}."
        if answer is Answer.WATCH and self._too_few_spare(head, on):
            spare = min(hole - 1, self.straps.holes - hole)
            holes = f"{spare} hole{'s' if spare > 1 else ''}" if spare else "no hole"
            return f"{named}, with {holes} to spare one way: {self._young}."
        if answer is Answer.WATCH:
            return f"Likely {_lower(named)}, but the head is not known closely enough."
        error = f", {by} a side {side}" if abs(off) >= HALF_MM else ""
        return f"{named}{error}: {self._spare(hole, middle)}"

    def _spare(self, hole: int, head_mm: float) -> str:
        longer, shorter = hole - 1, self.straps.holes - hole
        near_end = not self.wearer.grown and min(longer, shorter) < PLENTY
        other = self._other_cheeks(head_mm) if near_end else ""
        return f"{longer} to let down, {shorter} to take up.{other}"

    def _other_cheeks(self, head_mm: float) -> str:
        """Return how much other cheekpieces would bring the middle hole into use."""
        middle = (self.straps.holes + 1) // 2
        if self.straps.part != "cheekpieces" or not self._has_middle:
            return ""
        more = (head_mm - self.hangs_mm - self.straps.on_hole(middle)) / 2
        other = "longer" if more > 0 else "shorter"
        cheeks = f"Cheekpieces {self._by(more)} {other} each side"
        return f" {cheeks} would bring it to hole {middle}, the middle one."

    def _by(self, off_mm: float) -> str:
        return show_off(abs(off_mm), self.wearer.edges.told_in)

    @property
    def _has_middle(self) -> bool:
        return self.straps.holes > 2 * PLENTY and self.straps.holes % 2 == 1

    @property
    def _young(self) -> str:
        wanted = self.wearer.edges.value(SPARE_EACH_WAY)
        many = "one" if wanted == 1 else f"{wanted:g}"
        return f"under {self._spare_under_months} months {many} each way is wanted"

    def _half(self, off: float) -> str:
        reached = abs(off) <= self.straps.spacing_mm / 2 + EDGE_MM
        return ": half a hole would do it" if reached else ", and there is no other"


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def rule(
    item: str, kind: str, parts: tuple[Part, ...], bit: Part | None, wearer: Wearer
) -> HoleRule | NoRule:
    """Return the rule of a bridle's parts with its bit, or what is missing."""
    if bit is not None and bit.cheek == "hanging_cheek":
        return missing(
            "A hanging cheek carries the strap higher than a ring does: try"
            " it on to find the hole."
        )
    straps = straps_of(parts)
    if isinstance(straps, NoRule):
        return straps
    ring, said = _ring(bit, wearer.edges)
    return HoleRule(
        item=item,
        kind=kind,
        straps=straps,
        ring_mm=ring,
        ring_said=said,
        wearer=wearer,
    )


def _ring(bit: Part | None, edges: Edges) -> tuple[float, str]:
    usual = edges.value(RING_USUAL)
    written = show_off(usual, edges.told_in, "g")
    if bit is None:
        return usual, f" No bit is named: a usual ring of {written}."
    if bit.ring_mm is None:
        said = f"a usual {written} is taken"
        return usual, f" The bit's ring is not written down: {said}."
    return bit.ring_mm, ""
