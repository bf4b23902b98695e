"""The rule that straps about the head share: done up, less the path under them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final

from fitting.fit.answers import (
    EDGE_MM,
    Answer,
    Chances,
    Finding,
    Gap,
    Judged,
    Window,
    middle_of,
)
from fitting.fit.in_short import just_short, too_short
from fitting.fit.lengths import Lengths
from fitting.fit.rests import UNSAID, Rests
from fitting.growth import Spread
from fitting.units import show_off

Spans = tuple[tuple[float, float], ...]
KINDEST_FIRST: Final = (Answer.GOOD, Answer.WATCH, Answer.NO)


@dataclass(frozen=True, slots=True, kw_only=True)
class StrapRule:
    """A strap on one horse; a kind says what it is done up round, and in which words.

    ``share``: how much of the measure the strap's path is, which ``path`` names.
    ``tight`` and ``loose``: what it means to be too short or too long. ``worn_hole``:
    the hole it was last seen to sit right on, kept as long as it is good.
    """

    item: str
    kind: str
    part: str
    measure: str
    measure_name: str
    lengths: Lengths
    window: Window
    share: float = 1.0
    path: str = ""
    tight: str = "too tight"
    loose: str = "too loose"
    worn_hole: int | None = None

    @property
    def takes_loosest(self) -> bool:
        """Whether the loosest of several good holes is the one; else the middlemost."""
        return False

    @property
    def gap(self) -> Gap | None:
        """The room at the front of the nose that it is judged by when it is worn."""
        return None

    @property
    def cautions(self) -> tuple[str, ...]:
        """What stands beside every answer."""
        return ()

    @property
    def sources(self) -> tuple[str, ...]:
        """The keys of the sources of its numbers."""
        return ("ours",)

    @property
    def half_mm(self) -> float:
        """Half the good window (mm of the body)."""
        return self.window.half / self.share

    @property
    def good_bodies(self) -> Spans:
        """The bodies some length of it is good for (mm), ascending."""
        window = self.window
        return _bodies(self.lengths.spans, window.good_from, window.good_to, self.share)

    @property
    def bodies(self) -> Spans:
        """The bodies it sits on at all (mm), ascending."""
        window = self.window
        return _bodies(self.lengths.spans, window.no_below, window.no_above, self.share)

    def holds_back(self, on: date) -> str:
        """Return why it is at best only just on a day, in a sentence, or nothing."""
        return ""

    def fitted_mm(self, hole: int | None) -> float | None:
        """Return the body (mm) that hole sits best on; None: no such hole known."""
        length = self.lengths.on(hole)
        return None if length is None else (length - self.window.middle) / self.share

    def done_up(self, body_mm: float) -> tuple[float, int | None]:
        """Return the length to start on (mm) and its hole, if it has holes."""
        path = body_mm * self.share
        if not self.lengths.on_holes:
            shortest, longest = self.lengths.shortest_mm, self.lengths.longest_mm
            return min(max(path + self.window.middle, shortest), longest), None
        worn = self.lengths.on(self.worn_hole)
        if worn is not None and self.window.answer_at(worn - path) is Answer.GOOD:
            return worn, self.worn_hole
        holes = enumerate(self.lengths.on_holes, start=1)
        hole, length = min(holes, key=lambda one: self._preference(one[1] - path))
        return length, hole

    def _preference(self, clear: float) -> tuple[int, bool, float, float]:
        """Return what orders the holes: the best answer, then what the kind prefers."""
        window = self.window
        short, over = window.good_from - clear, clear - window.good_to
        rather_loose = self.takes_loosest and short > EDGE_MM
        off = max(short, over, 0.0)
        among_good = -clear if self.takes_loosest else abs(clear - window.middle)
        return (
            KINDEST_FIRST.index(window.answer_at(clear)),
            rather_loose,
            off if off > EDGE_MM else 0.0,
            among_good,
        )

    def chances(self, body: Spread) -> Chances:
        """Return the chances over all its lengths."""
        sits, good = self.bodies, self.good_bodies
        small = 1.0 - body.below(sits[-1][1] + EDGE_MM)
        no = small + body.below(sits[0][0] - EDGE_MM)
        if len(sits) > 1:
            no = max(1.0 - _inside(body, sits), 0.0)
        return Chances(good=_inside(body, good), no=no, small=small)

    def judge(self, body: Spread, on: date, *, worn: bool) -> Judged:
        """Return the answer for a body of that spread on a day."""
        return self._judged(self.chances(body), on)

    def _judged(self, chances: Chances, on: date) -> Judged:
        answer = chances.answer
        if answer is Answer.GOOD and self.holds_back(on):
            answer = Answer.WATCH
        return chances.judged(answer)

    def finding(
        self, body: Spread, on: date, *, worn: bool, rests: Rests = UNSAID
    ) -> Finding:
        """Return the answer with its hole, the spare ones and its reason."""
        chances, good = self.chances(body), self.good_bodies
        judged = self._judged(chances, on)
        middle = middle_of(body)
        length, hole = self.done_up(middle)
        hangs = hole if judged.answer is not Answer.NO else None
        path = middle * self.share
        return Finding(
            item=self.item,
            kind=self.kind,
            part=self.part,
            answer=judged.answer,
            why=self._say(length - path, hole, chances, on),
            chance_no=judged.chance_no,
            hole=hangs,
            spare_longer=None if hangs is None else hangs - 1,
            spare_shorter=None if hangs is None else len(self.lengths.on_holes) - hangs,
            cautions=self.cautions,
            rests_on=rests.on,
            stale=rests.stale,
            stale_days=rests.or_older(None),
            sources=self.sources,
            size_mm=length,
            needs_from_mm=path + self.window.good_from,
            needs_to_mm=path + self.window.good_to,
            reach_from_mm=good[0][0],
            reach_to_mm=good[-1][1],
            decided=self.window.went_by(length - path),
            short=self._short(length - path, judged.answer, chances),
        )

    def _short(self, clear: float, answer: Answer, chances: Chances) -> str:
        small = clear < self.window.middle
        if answer is Answer.NO:
            return too_short(self.tight if small else self.loose)
        if chances.answer is Answer.GOOD:  # held back, if at all, by more than its room
            return ""
        return just_short(self.window.answer_at(clear), small=small)

    def _say(self, clear: float, hole: int | None, chances: Chances, on: date) -> str:
        than = "less" if clear < -EDGE_MM else "more"
        path = self.path or self.measure_name
        off = show_off(abs(clear), self.window.told_in)
        said = f"{self._done_up(hole, clear)}{off} {than} than {path}"
        at_middle = self.window.answer_at(clear)
        if chances.answer not in {at_middle, Answer.NO}:
            name = self.measure_name
            return f"{said}, but {name} is not known closely enough to be sure."
        spare = self._spare(hole) if at_middle is not Answer.NO else ""
        held = f" {self.holds_back(on)}" if self.holds_back(on) else ""
        return f"{said}: {self._meaning(clear)}.{spare}{held}"

    def _done_up(self, hole: int | None, clear: float) -> str:
        never = self.window.answer_at(clear) is Answer.NO
        if hole is not None:
            even = "Even on hole" if never else "Hole"
            return f"{even} {hole} of {len(self.lengths.on_holes)}, "
        if self.lengths.on(None) is not None:
            return ""
        if never:
            return "Let right out, " if clear < self.window.middle else "Taken up, "
        return "Done up to fit, "

    def _spare(self, hole: int | None) -> str:
        if hole is None:
            return ""
        shorter = len(self.lengths.on_holes) - hole
        return f" {hole - 1} to let down, {shorter} to take up."

    def _meaning(self, clear: float) -> str:
        window = self.window
        if clear < window.no_below - EDGE_MM:
            return self.tight
        if clear < window.good_from - EDGE_MM:
            return "snug"
        if clear <= window.good_to + EDGE_MM:
            return "right"
        return "roomy" if clear <= window.no_above + EDGE_MM else self.loose


@lru_cache(maxsize=1024)  # one strap is judged on many days
def _bodies(spans: Spans, least: float, most: float, share: float) -> Spans:
    """Return the bodies whose room lies from ``least`` to ``most``, joined up (mm)."""
    found: list[tuple[float, float]] = []
    for short, long in sorted(spans):
        low, high = (short - most) / share, (long - least) / share
        if found and low <= found[-1][1] + 2 * EDGE_MM:
            found[-1] = (found[-1][0], high)
        else:
            found.append((low, high))
    return tuple(found)


def _inside(body: Spread, spans: Spans) -> float:
    return sum(
        body.below(high + EDGE_MM) - body.below(low - EDGE_MM) for low, high in spans
    )
