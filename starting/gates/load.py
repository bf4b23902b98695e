"""What a rider with all the tack comes to, against what the horse weighs.

The load is the rider dressed to ride, and saddle, girth, stirrups, bridle and whatever
else is carried; a rider new to it counts a tenth more. No source gives a limit for a
horse being backed: the 12 and the 15 per cent are ours, inside what was studied.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from fitting.weight import Weight
from starting.gates.facts import Somebody

# Source: ours, after Dyson et al. (2019/20), a pilot on six horses: riders of 10 to
# 11.7 % finished all tests, of 12.8 to 15 % all but one, of 15.3 % and more none.
AIM: Final = 0.12
YOUNG_LIMIT: Final = 0.15
YOUNG_MONTHS: Final = 60
# Source: British Dressage (2023) and Equestrian Australia, both with all tack.
LIMIT: Final = 0.20
# Source: Association of British Riding Schools: 80 kg counts as 88.
NOVICE: Final = 1.10
HAIR: Final = 1e-9  # so that 12 % of a weight is not over 12 % by a rounding

Level = Literal["light", "unsure", "heavy", "too_heavy"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A load (kg) against a weight: by its middle, and by its lighter edge."""

    kg: float
    weight: Weight
    limit: float

    @property
    def share(self) -> float:
        """The share of the weight's middle, 0.1 for a tenth."""
        return self.kg / self.weight.kg

    @property
    def heaviest(self) -> float:
        """The share if the horse is as light as the weight's error allows."""
        return self.kg / self.weight.low_kg

    @property
    def level(self) -> Level:
        """How heavy: ``unsure`` where the lighter edge alone puts it over the aim."""
        if self.share > self.limit + HAIR:
            return "too_heavy"
        if self.share > AIM + HAIR:
            return "heavy"
        return "unsure" if self.heaviest > AIM + HAIR else "light"


def limit_for(months: int) -> float:
    """Return the share of the weight that is the most, at completed months of age."""
    return YOUNG_LIMIT if months < YOUNG_MONTHS else LIMIT


def counted_kg(rider: Somebody) -> float | None:
    """Return what a rider counts (kg), a tenth more if new to backing; None: no weight.

    Source: Association of British Riding Schools.
    """
    if rider.weight_kg is None:
        return None
    return rider.weight_kg * (1.0 if rider.has_backed_horses else NOVICE)


def load_of(
    rider: Somebody, tack_kg: float | None, weight: Weight | None, months: int
) -> Load | None:
    """Return what a rider with all tack (kg) comes to; None: a weight is missing."""
    counted = counted_kg(rider)
    if counted is None or tack_kg is None or weight is None:
        return None
    return Load(kg=counted + tack_kg, weight=weight, limit=limit_for(months))


def most_kg(rider: Somebody, tack_kg: float, horse_kg: float, share: float) -> float:
    """Return the most (kg) such a rider may weigh dressed, to keep within a share."""
    factor = 1.0 if rider.has_backed_horses else NOVICE
    return max(0.0, (share * horse_kg - tack_kg) / factor)
