"""How much room tack needs, read from ``clearances.toml`` with its sources."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from typing import TYPE_CHECKING, Any, Final

from fitting.fit.answers import Gap, Window

if TYPE_CHECKING:
    from fitting.body import HorseType

NUMBERS: Final[dict[str, Any]] = tomllib.loads(
    files("fitting.fit").joinpath("clearances.toml").read_text(encoding="utf-8")
)


def _mm(table: dict[str, Any], key: str) -> float:
    return float(table[key]["mm"])


def _window(table: dict[str, Any]) -> Window:
    return Window(
        no_below=_mm(table, "no_below"),
        good_from=_mm(table, "good_from"),
        good_to=_mm(table, "good_to"),
        no_above=_mm(table, "no_above"),
    )


def _thickness(table: dict[str, Any]) -> Window:
    either_side = _mm(NUMBERS["thickness"]["watch"], "either_side")
    good_from, good_to = _mm(table, "good_from"), _mm(table, "good_to")
    return Window(
        no_below=good_from - either_side,
        good_from=good_from,
        good_to=good_to,
        no_above=good_to + either_side,
    )


# Sources: as beside each number in ``clearances.toml``.
BIT_FIXED: Final = _window(NUMBERS["bit"]["fixed"])
BIT_LOOSE_RING: Final = _window(NUMBERS["bit"]["loose_ring"])
GROWING_FROM_MM: Final = _mm(NUMBERS["bit"]["growing"], "good_from")
SINGLE_JOINTED_MORE_MM: Final = _mm(NUMBERS["bit"]["single_jointed"], "more")

RING_USUAL_MM: Final = _mm(NUMBERS["bridle"], "ring_usual")
FIRST_WRINKLE_MM: Final = _mm(NUMBERS["bridle"], "first_wrinkle")
GOOD_WITHIN_MM: Final = _mm(NUMBERS["bridle"], "good_within")
SPARE_EACH_WAY: Final[int] = NUMBERS["bridle"]["spare_each_way"]["holes"]
SPARE_UNDER_MONTHS: Final[int] = NUMBERS["bridle"]["spare_under"]["months"]

STRAPS: Final = {part: _window(edges) for part, edges in NUMBERS["strap"].items()}
PATH_SHARES: Final[dict[str, float]] = {
    part: path["share"] for part, path in NUMBERS["path"].items()
}
GAPS: Final = {
    part: Gap(no_below=_mm(edges, "no_below"), good_from=_mm(edges, "good_from"))
    for part, edges in NUMBERS["gap"].items()
}
ROLLER_SPARE_MM: Final = _mm(NUMBERS["roller"], "spare")
ROLLER_WITHIN_MM: Final = _mm(NUMBERS["roller"], "within")
RUG_STEP_MM: Final = _mm(NUMBERS["rug"], "step")
SADDLE_WIDTH_CHANGE_MM: Final = _mm(NUMBERS["saddle"], "width_change")
SADDLE_GIRTH_CHANGE_MM: Final = _mm(NUMBERS["saddle"], "girth_change")
SADDLE_WITHIN_MM: Final = _mm(NUMBERS["saddle"], "within")
SADDLE_NEAR_DAYS: Final[int] = NUMBERS["saddle"]["near"]["days"]
SADDLE_RECHECK_DAYS: Final[tuple[int, ...]] = tuple(
    recheck["days"] for recheck in NUMBERS["saddle"]["recheck"].values()
)
DAILY_UNDER_MONTHS: Final[int] = NUMBERS["headcollar"]["daily_under"]["months"]

_THICKNESS: Final = {
    kind: _thickness(NUMBERS["thickness"][kind])
    for kind in ("small_pony", "pony", "horse")
}


def thickness_window(horse_type: HorseType) -> Window:
    """Return the edges of a mouthpiece's thickness for an unmeasured mouth (mm)."""
    return _THICKNESS.get(horse_type, _THICKNESS["horse"])
