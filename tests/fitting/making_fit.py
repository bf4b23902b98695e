"""A horse of exactly known or steadily growing sizes, and tack to hang on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import cast

from fitting.age import Foaled
from fitting.body import HorseType
from fitting.fit import Answer, Cheek, Finding, MadeUp, Part, Tack, Wearer, fits
from fitting.growth import Growth, Observation, Spread, Subject
from fitting.tryons import TryOn

ON = date(2026, 3, 2)
BORN = date(2023, 4, 19)  # 34 months old on ON
HEAD = 1040.0  # mm
YOUNG = Subject(horse_type="light", foaled=Foaled(first=BORN, last=BORN))
GOOD, WATCH, NO, UNKNOWN = Answer.GOOD, Answer.WATCH, Answer.NO, Answer.NOT_KNOWN


def spread(mean: float, sd: float) -> Spread:
    return Spread(weights=(1.0,), means=(mean,), sds=(sd,))


@dataclass(frozen=True, kw_only=True)
class Steady:
    """Stands in for growth: each measure its size on ON and its mm a day from then."""

    sizes: dict[str, float]
    a_day: dict[str, float] = field(default_factory=dict)
    sd: float = 0.01
    unmeasured: tuple[str, ...] = ()  # has a size, but was never taken
    taken: dict[str, tuple[tuple[date, float], ...]] = field(default_factory=dict)

    def known(self, measure: str) -> bool:
        return measure in self.sizes and measure not in self.unmeasured

    def taught_on(self, measure: str) -> tuple[date, ...]:
        return ()

    def measured_on(self, measure: str) -> tuple[date, ...]:
        return tuple(on for on, _ in self.taken.get(measure, ()))

    def readings(self, measure: str) -> tuple[Observation, ...]:
        seen = self.taken.get(measure, ())
        return tuple(Observation(on=on, value=mm, error=1.0) for on, mm in seen)

    def by_readings(self) -> Steady:
        return self

    def at(self, measure: str, on: date) -> Spread | None:
        if measure not in self.sizes:
            return None
        grown = self.a_day.get(measure, 0.0) * (on - ON).days
        return spread(self.sizes[measure] + grown, self.sd)

    def at_days(self, measure: str, days: Sequence[date]) -> tuple[Spread, ...]:
        sizes = (self.at(measure, day) for day in days)
        return tuple(size for size in sizes if size is not None)


def steady(
    *,
    a_day: dict[str, float] | None = None,
    sd: float = 0.01,
    unmeasured: tuple[str, ...] = (),
    taken: dict[str, tuple[tuple[date, float], ...]] | None = None,
    **sizes: float,
) -> Growth:
    double = Steady(
        sizes=sizes,
        a_day=a_day or {},
        sd=sd,
        unmeasured=unmeasured,
        taken=taken or {},
    )
    return cast("Growth", double)


def make_wearer(
    growth: Growth,
    *,
    grown: bool = True,
    horse_type: HorseType = "light",
    born: date = BORN,
    stale: tuple[str, ...] = (),
    tryons: tuple[TryOn, ...] = (),
) -> Wearer:
    keys = ("mouth_width", "head_length", "jaw_gap", "tongue_thickness")
    return Wearer(
        name="Teasel",
        horse_type=horse_type,
        foaled=Foaled(first=born, last=born),
        grown=grown,
        growth=growth,
        standing=tuple((key, "stale" if key in stale else "stands") for key in keys),
        tryons=tryons,
    )


def make_bit(
    length_mm: float | None = 127.0,
    cheek: Cheek | None = "eggbutt",
    *,
    thickness_mm: float | None = 15.0,
    mouthpiece: str = "double_jointed",
    ring_mm: float | None = 70.0,
    name: str = "Steel snaffle",
) -> Tack:
    part = Part(
        part="mouthpiece",
        length_mm=length_mm,
        cheek=cheek,
        thickness_mm=thickness_mm,
        mouthpiece=mouthpiece,
        ring_mm=ring_mm,
    )
    return Tack(name=name, kind="bit", parts=(part,))


def make_bridle(
    *,
    cheek_mm: float | None = 230.0,
    head_mm: float | None = 600.0,
    holes: int = 7,
    spacing_mm: float | None = 15.875,
    more: tuple[Part, ...] = (),
    name: str = "Hazel bridle",
) -> Tack:
    headpiece = Part(
        part="headpiece", length_mm=head_mm, holes=holes, spacing_mm=spacing_mm
    )
    cheekpieces = Part(part="cheekpieces", length_mm=cheek_mm)
    return Tack(name=name, kind="bridle", parts=(headpiece, cheekpieces, *more))


def make_set(bridle: Tack, bit: Tack, name: str = "First bridle") -> MadeUp:
    slots = (("headpiece", bridle), ("cheekpieces", bridle), ("bit", bit))
    return MadeUp(name=name, parts=slots)


def bit_on(wearer: Wearer, bit: Tack, on: date = ON) -> Finding:
    (found,) = fits(wearer, (bit,), (), on)
    return found


def hole_on(
    wearer: Wearer, bridle: Tack, bit: Tack | None = None, on: date = ON
) -> Finding:
    """Return the finding of the bridle's hole, made up with a bit of 70 mm rings."""
    made = make_set(bridle, bit or make_bit())
    found = fits(wearer, (), (made,), on)
    return next(one for one in found if one.part in {"cheekpieces", "whole"})
