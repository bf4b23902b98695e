"""Which shipped programme to ask about for a horse, by its type and age."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.age import Foaled, completed_months
from fitting.body import HorseType

LATE_MONTHS: Final = 48  # ours
BIG_MM: Final = 1676.4  # 16.2 hands, as the programme for big horses says


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """A shipped programme, and why it may suit."""

    programme: str
    why: str


def proposal(
    name: str,
    horse_type: HorseType,
    foaled: Foaled,
    on: date,
    *,
    begun: bool = False,
    grown_mm: float | None = None,
) -> Proposal | None:
    """Return a programme to ask about; None: the usual one suits.

    Args:
        name: the horse's.
        horse_type: its type.
        foaled: when it was foaled.
        on: the day asked for.
        begun: something of its way up is written down already.
        grown_mm: its likely grown height, if anybody can say.

    Source: ours; types as the programmes name them.
    """
    months = completed_months(foaled, on)
    if not begun and months >= LATE_MONTHS:
        why = f"{name} is {months // 12} years old, and nothing is written down yet."
        return Proposal(programme="late_starter", why=why)
    if horse_type == "small_pony":
        why = f"{name} is a small pony: few riders are light enough for one."
        return Proposal(programme="small_pony", why=why)
    if horse_type in {"heavy", "warmblood"}:
        kind = "heavy horse" if horse_type == "heavy" else "warmblood"
        why = f"{name} is a {kind}, and likely to end up big or to grow up late."
        return Proposal(programme="late_big_heavy", why=why)
    if grown_mm is not None and grown_mm > BIG_MM:
        why = f"{name} is likely to end up over 16.2 hands."
        return Proposal(programme="late_big_heavy", why=why)
    return None
