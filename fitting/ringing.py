"""How long a stop sign of a try-on that rang the vet holds."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from typing import Final

Span = tuple[date, date | None]  # the first day off work, and the first day back
LATELY: Final = timedelta(days=1)  # ours: so long a sign holds that put nobody off work


def still_holds(seen: date, spans: Iterable[Span], on: date) -> bool:
    """Whether the sign of a day still holds on a later one.

    It holds while the horse is off work since that day, or since before. Where nothing
    of that is written down any more, it is said for a day.
    """
    off = [
        back for start, back in spans if start <= seen and (back is None or seen < back)
    ]
    if not off:
        return seen >= on - LATELY
    return any(back is None or on < back for back in off)
