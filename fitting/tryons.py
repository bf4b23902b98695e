"""What was seen when tack was held against a horse, or put on."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

Seen = Literal["sits_right", "too_short", "too_long", "wrong_place", "rubs"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What was seen of one part, on which hole."""

    part: str
    seen: Seen
    hole: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TryOn:
    """One try-on of an item or a made-up set; only ``worn`` outranks arithmetic."""

    on: date
    item: str
    how: Literal["held", "worn"]
    answer: Literal["good", "watch", "no"] | None = None
    parts: tuple[Tried, ...] = ()
