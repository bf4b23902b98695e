"""A roller, a girth and a rug, on a body of one size."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from fitting.fit import Finding, Part, Tack, fits
from fitting.growth import Growth
from fitting.tryons import TryOn
from tests.fitting.making_fit import ON, make_wearer, steady

INCH = 25.4
STRAP = Part(part="strap", shortest_mm=1500, longest_mm=1700, holes=5)


def roller(strap: Part = STRAP) -> Tack:
    return Tack(name="Web roller", kind="roller", parts=(strap,))


def long_roller(longest_mm: float) -> Tack:
    return roller(replace(STRAP, shortest_mm=1200, longest_mm=longest_mm))


def girth(length_mm: float | None) -> Tack:
    part = Part(part="strap", length_mm=length_mm)
    return Tack(name="Cord girth", kind="girth", parts=(part,))


def rug(length_mm: float | None) -> Tack:
    part = Part(part="back_seam", length_mm=length_mm)
    return Tack(name="Rain rug", kind="rug", parts=(part,))


def on_growth(item: Tack, growth: Growth, *tryons: TryOn, on: date = ON) -> Finding:
    wearer = make_wearer(growth, grown=False, tryons=tryons)
    wearer = replace(
        wearer,
        standing=tuple(
            (key, "stands") for key in ("heart_girth", "girth_path", "rug_length")
        ),
    )
    (found,) = fits(wearer, (item,), (), on)
    return found


def on_body(item: Tack, body_mm: float, sd: float = 0.01) -> Finding:
    return on_growth(item, body_of(body_mm, sd))


def body_of(size_mm: float, sd: float = 0.01) -> Growth:
    return steady(sd=sd, heart_girth=size_mm, girth_path=size_mm, rug_length=size_mm)
