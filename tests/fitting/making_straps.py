"""Straps about the head, on a horse of exactly known sizes."""

from __future__ import annotations

from datetime import date
from typing import cast

from fitting.fit import Finding, Part, Tack, Wearer, fits
from fitting.fit.findings import rules
from fitting.fit.straps import StrapRule
from fitting.growth import Growth
from tests.fitting.making_fit import GOOD, NO, ON, WATCH, Steady, make_wearer

KIND_OF = {
    "noseband": "bridle",
    "browband": "bridle",
    "throatlash": "bridle",
    "nose": "headcollar",
    "crown": "headcollar",
    "jowl": "headcollar",
}
# What each strap is done up round, as a share of its measure.
MEASURE_OF = {
    "noseband": ("nose_round", 1.0),
    "browband": ("brow", 1.0),
    "throatlash": ("throat_round", 1.0),
    "nose": ("nose_round", 1.0),
    "crown": ("head_length", 0.88),
    "jowl": ("throat_round", 0.80),
}
ORDER = [GOOD, WATCH, NO]
NOSEBAND = Part(
    part="noseband", shortest_mm=560.0, longest_mm=680.0, holes=7, spacing_mm=20.0
)


def sized(
    part: str, body_mm: float, *, sd: float = 0.01, measured: bool = True
) -> Growth:
    """Return the growth of the one size that a strap goes by."""
    measure, _ = MEASURE_OF[part]
    unmeasured = () if measured else (measure,)
    return cast(
        "Growth", Steady(sizes={measure: body_mm}, sd=sd, unmeasured=unmeasured)
    )


def strap(
    part: str,
    longest_mm: float,
    *,
    holes: int = 1,
    spacing_mm: float | None = None,
    kind: str = "",
) -> Tack:
    """Return an item of one strap, hole 1 its longest."""
    made = Part(part=part, longest_mm=longest_mm, holes=holes, spacing_mm=spacing_mm)
    return Tack(name="On the peg", kind=kind or KIND_OF[part], parts=(made,))


def of_parts(kind: str, *parts: Part) -> Tack:
    return Tack(name="On the peg", kind=kind, parts=parts)


def strap_on(wearer: Wearer, item: Tack, on: date = ON) -> Finding:
    """Return the finding of an item's last part."""
    return fits(wearer, (item,), (), on)[-1]


def strap_over(
    part: str, longest_mm: float, body_mm: float, *, kind: str = "", grown: bool = True
) -> Finding:
    """Return the finding of a strap of one length on a body of exactly that size."""
    wearer = make_wearer(sized(part, body_mm), grown=grown)
    return strap_on(wearer, strap(part, longest_mm, kind=kind))


def rule_of_strap(wearer: Wearer, item: Tack) -> StrapRule:
    rule = rules(wearer, (item,), (), ON)[-1]
    assert isinstance(rule, StrapRule)
    return rule
