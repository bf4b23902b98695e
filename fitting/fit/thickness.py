"""How thick a mouthpiece may be: by the measured mouth, else by a band for the type."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from math import hypot
from typing import Final

from fitting.body import HorseType
from fitting.fit.answers import EDGE_MM, Answer, Chances, Judged, Wearer
from fitting.fit.clearances import thickness_window
from fitting.fit.edges import Decided, Edges
from fitting.fit.lasting import Sizes
from fitting.fit.staleness import days_since
from fitting.growth import Spread

SPACE_MEASURES: Final = ("jaw_gap", "tongue_thickness")
ASK_JAW: Final = "jaw gap and tongue thickness, at the next dental visit"
ASK_THICKNESS: Final = "thickness of the bit, beside the ring or cheek"
THIN: Final = "A thin mouthpiece presses harder; ask your dental technician about it."
_BAND: Final = {"small_pony": "a small pony", "pony": "a pony"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Thickness:
    """How a mouthpiece's thickness sits, and why if it is not simply good."""

    judged: Judged
    why: str = ""
    ask: str = ""
    cautions: tuple[str, ...] = ()
    decided: tuple[Decided, ...] = ()
    short: str = ""


def thickness_of(
    thick_mm: float | None, wearer: Wearer, sizes: Sizes, on: date, *, worn: bool
) -> Thickness:
    """Return how a mouthpiece's thickness sits on a day.

    A bit that was put on and sat right is held back only by a thickness that is a
    no: nobody sees on the horse what happens inside the mouth.
    """
    found = _reckoned(thick_mm, wearer, sizes, on)
    if not worn or found.judged.answer is Answer.NO:
        return found
    good = Judged(answer=Answer.GOOD, chance_no=0.0)
    return replace(found, judged=good, why="", short="")


def space_is_stale(wearer: Wearer) -> bool:
    """Return whether a measured mouth decides, but was measured too long ago."""
    return bool(_stale_of_space(wearer))


def space_stale_days(wearer: Wearer, on: date) -> int | None:
    """Return how long ago the oldest of it was measured, if that is too old."""
    found = (days_since(wearer, key, on) for key in _stale_of_space(wearer))
    return max((days for days in found if days is not None), default=None)


def _stale_of_space(wearer: Wearer) -> list[str]:
    standing = dict(wearer.standing)
    if not _space_is_known(wearer):
        return []
    return [key for key in SPACE_MEASURES if standing.get(key) != "stands"]


def _space_is_known(wearer: Wearer) -> bool:
    return all(wearer.growth.known(key) for key in SPACE_MEASURES)


def _reckoned(
    thick_mm: float | None, wearer: Wearer, sizes: Sizes, on: date
) -> Thickness:
    if thick_mm is None:
        return Thickness(
            judged=Judged(answer=Answer.NOT_KNOWN, chance_no=0.0),
            why="Its thickness is not written down.",
            ask=ASK_THICKNESS,
        )
    space = _space(wearer, sizes, on)
    if space is None:
        return _by_band(thick_mm, wearer.horse_type, wearer.edges)
    return _by_space(thick_mm, space, wearer)


def _space(wearer: Wearer, sizes: Sizes, on: date) -> Spread | None:
    """Return the room between the jaws over the tongue (mm), if both are known."""
    if not _space_is_known(wearer):
        return None
    jaw, tongue = (sizes.at(key, on) for key in SPACE_MEASURES)
    if jaw is None or tongue is None:
        return None
    return Spread(
        weights=(1.0,),
        means=(jaw.mean - tongue.mean,),
        sds=(hypot(jaw.sd, tongue.sd),),
    )


@lru_cache(maxsize=1024)  # the same on each day that a bit is judged
def _by_band(thick: float, horse_type: HorseType, edges: Edges) -> Thickness:
    window = thickness_window(horse_type, edges)
    answer = window.answer_at(thick)
    whose = _BAND.get(horse_type, "a horse")
    side = "thin" if thick < window.middle else "thick"
    why = (
        f"{thick:g} mm is {side} for {whose}: {window.good_from:g} to"
        f" {window.good_to:g} is usual."
    )
    return Thickness(
        judged=Judged(answer=answer, chance_no=float(answer is Answer.NO)),
        why="" if answer is Answer.GOOD else why,
        ask=ASK_JAW,
        cautions=() if answer is Answer.GOOD or side == "thick" else (THIN,),
        decided=window.went_by(thick),
        short=_short(answer, side),
    )


def _by_space(thick: float, space: Spread, wearer: Wearer) -> Thickness:
    """Source: Anttila 2022: a bit fits no thicker than jaw gap less tongue."""
    no = space.below(thick - EDGE_MM)
    chances = Chances(good=1 - no, no=no)
    said = {
        Answer.GOOD: "",
        Answer.WATCH: f"{thick:g} mm thick only just has room over the tongue.",
        Answer.NO: f"{thick:g} mm is thicker than the {space.mean:.0f} mm of room over"
        " the tongue.",
    }
    least = thickness_window(wearer.horse_type, wearer.edges).good_from
    thin = thick < least - EDGE_MM
    return Thickness(
        judged=Judged(answer=chances.answer, chance_no=no, chance_good=1 - no),
        why=said[chances.answer],
        cautions=(THIN,) if thin else (),
        short=_short(chances.answer, "thick"),
    )


def _short(answer: Answer, side: str) -> str:
    """Return ``too thick`` of a no, ``thick`` of what is only just."""
    if answer is Answer.GOOD:
        return ""
    return f"too {side}" if answer is Answer.NO else side
