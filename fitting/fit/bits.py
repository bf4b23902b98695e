"""The rule of a bit: its length between the cheeks, and its thickness."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from typing import Final

from fitting.fit.answers import (
    EDGE_MM,
    Answer,
    Chances,
    Finding,
    Judged,
    NoRule,
    Wearer,
    Window,
    middle_of,
    worse,
)
from fitting.fit.clearances import window as window_of
from fitting.fit.edges import Decided, Edges
from fitting.fit.in_short import just_short
from fitting.fit.lasting import Sizes
from fitting.fit.rests import UNSAID, Rests
from fitting.fit.tack import Cheek, Part
from fitting.fit.thickness import (
    Thickness,
    space_is_stale,
    space_stale_days,
    thickness_of,
)
from fitting.growth import Spread
from fitting.units import show_off

MEASURE: Final = "mouth_width"
GROWING: Final = "bit.growing.good_from"
SINGLE_JOINTED: Final = "bit.single_jointed.more"
SOURCES: Final = (
    *("anttila_2022", "clayton_1998", "lpo_70", "tuomola_2021"),
    *("common_practice", "ours"),
)

_CHEEKS: Final = {
    "eggbutt": "an eggbutt",
    "dee": "a dee",
    "full_cheek": "a full cheek",
    "hanging_cheek": "a hanging cheek",
    "loose_ring": "a loose ring",
}

LABEL: Final = (
    "Sizes on labels are not trusted: lay the bit straight and measure between the"
    " cheeks."
)
MOUTH: Final = (
    "Have the mouth looked at by a vet or a qualified dental technician before a bit"
    " goes in, and stop if the mouth is sore."
)
FIRST_BIT: Final = "A first bit is smooth and plain."
FIRST_LOOSE: Final = (
    "A first bit is smooth and plain, and better not a loose ring: rings can pinch."
)


def length_window(cheek: Cheek, mouthpiece: str, wearer: Wearer) -> Window:
    """Return the edges of bit length less mouth width for this horse (mm, in all).

    Source: as beside each number in ``clearances.toml``.
    """
    room = dict(wearer.clearances).get("bit", 0.0) if wearer.clearances else 0.0
    single = mouthpiece == "single_jointed"
    return _window(cheek, room, wearer.edges, single=single, grown=wearer.grown)


@lru_cache(maxsize=256)  # asked anew on each day that a bit is judged
def _window(
    cheek: Cheek, room_mm: float, edges: Edges, *, single: bool, grown: bool
) -> Window:
    table = "bit.loose_ring" if cheek == "loose_ring" else "bit.fixed"
    window = window_of(table, edges)
    least, more = edges.value(GROWING), edges.value(SINGLE_JOINTED)
    if not grown and least > window.good_from:
        low, _, *rest = window.decided
        decided = (low, *edges.decided(GROWING), *rest)
        window = replace(window, good_from=least, decided=decided)
    if single and more:
        window = replace(
            window,
            good_to=window.good_to + more,
            no_above=max(window.no_above, window.good_to + more),
        )
    return window.with_room(room_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class BitRule:
    """A mouthpiece on one horse; ``length_mm`` lies between the cheeks."""

    item: str
    kind: str
    part: Part
    length_mm: float
    cheek: Cheek
    wearer: Wearer
    sizes: Sizes

    @property
    def measure(self) -> str:
        """The measure of the body the part goes by."""
        return MEASURE

    @property
    def measure_name(self) -> str:
        """That measure in the yard's words."""
        return "mouth width"

    @property
    def window(self) -> Window:
        """The edges of length less mouth (mm, in all)."""
        return length_window(self.cheek, self.part.mouthpiece, self.wearer)

    @property
    def half_mm(self) -> float:
        """Half the good window (mm)."""
        return self.window.half

    @property
    def cautions(self) -> tuple[str, ...]:
        """What stands beside every answer."""
        return cautions(self.part, self.wearer)

    @property
    def sources(self) -> tuple[str, ...]:
        """The keys of the sources of its numbers."""
        return SOURCES

    def fitted_mm(self, hole: int | None) -> float | None:
        """Return the mouth (mm) the bit sits best on."""
        return self.length_mm - self.window.middle

    def judge(self, body: Spread, on: date, *, worn: bool) -> Judged:
        """Return the answer for a mouth of that spread on a day."""
        length = self.window.chances(self.length_mm, body)
        return _together(length, self._thickness(on, worn=worn).judged)

    def finding(
        self, body: Spread, on: date, *, worn: bool, rests: Rests = UNSAID
    ) -> Finding:
        """Return the answer with the clearance each side and its reason."""
        window = self.window
        mouth = middle_of(body)
        thickness = self._thickness(on, worn=worn)
        length = window.chances(self.length_mm, body)
        judged = _together(length, thickness.judged)
        said = _say_length(window, self.cheek, self.length_mm - mouth, length.answer)
        return Finding(
            item=self.item,
            kind=self.kind,
            part=self.part.part,
            answer=judged.answer,
            why=f"{said} {thickness.why}".strip(),
            chance_no=judged.chance_no,
            ask=thickness.ask,
            cautions=(*self.cautions, *thickness.cautions),
            sources=self.sources,
            rests_on=rests.on,
            stale=rests.stale or space_is_stale(self.wearer),
            stale_days=rests.or_older(space_stale_days(self.wearer, on)),
            size_mm=self.length_mm,
            needs_from_mm=mouth + window.good_from,
            needs_to_mm=mouth + window.good_to,
            clear_each_side_mm=(self.length_mm - mouth) / 2,
            decided=(*self._went_by(window, mouth), *thickness.decided),
            short=thickness.short
            if judged.answer is not length.answer
            else _short(window, self.length_mm - mouth, length.answer),
        )

    def _went_by(self, window: Window, mouth_mm: float) -> tuple[Decided, ...]:
        """Return the edges its length was held to."""
        found = window.went_by(self.length_mm - mouth_mm)
        edges = self.wearer.edges
        if self.part.mouthpiece != "single_jointed" or found != window.decided[1:3]:
            return found
        return (*found, *edges.decided(SINGLE_JOINTED))

    def _thickness(self, on: date, *, worn: bool) -> Thickness:
        thick = self.part.thickness_mm
        return thickness_of(thick, self.wearer, self.sizes, on, worn=worn)


def rule(
    item: str, kind: str, part: Part, wearer: Wearer, sizes: Sizes
) -> BitRule | NoRule:
    """Return the rule of a mouthpiece, or what has to be written down first."""
    if part.length_mm is None:
        what = "Its length is not written down."
        return _missing(what, "length of the bit, cheek to cheek", part, wearer)
    if part.cheek is None:
        what = "What cheeks it has is not written down."
        return _missing(what, "which cheeks the bit has", part, wearer)
    return BitRule(
        item=item,
        kind=kind,
        part=part,
        length_mm=part.length_mm,
        cheek=part.cheek,
        wearer=wearer,
        sizes=sizes,
    )


def _missing(why: str, ask: str, part: Part, wearer: Wearer) -> NoRule:
    return NoRule(
        measure=MEASURE,
        why=why,
        ask=ask,
        cautions=cautions(part, wearer),
        sources=SOURCES,
    )


def cautions(part: Part, wearer: Wearer) -> tuple[str, ...]:
    """Return what stands beside every answer on a bit."""
    if wearer.grown:
        return (LABEL, MOUTH)
    first = FIRST_LOOSE if part.cheek == "loose_ring" else FIRST_BIT
    return (first, LABEL, MOUTH)


def _together(length: Chances, thickness: Judged) -> Judged:
    return Judged(
        answer=worse((length.answer, thickness.answer)),
        chance_no=1 - (1 - min(length.no, 1.0)) * (1 - thickness.chance_no),
        chance_good=length.good * thickness.chance_good,
    )


def _say_length(window: Window, cheek: Cheek, clear: float, answer: Answer) -> str:
    """Return the clearance each side and what it means, in a sentence."""
    if clear < -EDGE_MM:
        off = show_off(-clear, window.told_in, ".1f")
        said = f"About {off} narrower than the mouth"
    else:
        off = show_off(max(clear, 0.0) / 2, window.told_in, ".1f")
        said = f"About {off} clear each side"
    if answer is Answer.NO or answer is window.answer_at(clear):
        return f"{said}: {_meaning(window, cheek, clear)}."
    return f"{said}, but the mouth is not known closely enough to be sure."


def _short(window: Window, clear: float, answer: Answer) -> str:
    """Return why its length is a no, or only just, in a word or two."""
    small = clear < window.middle
    if answer is Answer.WATCH:
        return just_short(window.answer_at(clear), small=small)
    if answer is Answer.NO:
        return "too narrow" if small else "too wide"
    return ""


def _meaning(window: Window, cheek: Cheek, clear: float) -> str:
    if clear < window.no_below - EDGE_MM:
        return "too narrow, it would pinch the corners of the mouth"
    if clear < window.good_from - EDGE_MM:
        return f"snug for {_CHEEKS[cheek]}"
    if clear <= window.good_to + EDGE_MM:
        return f"right for {_CHEEKS[cheek]}"
    if clear <= window.no_above + EDGE_MM:
        return f"roomy for {_CHEEKS[cheek]}, research prefers less"
    return "too wide, it would slide from side to side"
