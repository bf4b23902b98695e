"""What records of care say to the plan: days kept, and days for nothing new."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from starting.gates import CareDone
from starting.gates.gelding import gelded

NO_VISIT: Final = frozenset({"tooth_change"})  # seen in passing: keeps no day


def care_days(care: Sequence[CareDone]) -> tuple[date, ...]:
    """Return the days of visits, and the next ones as last named."""
    return _days(one for one in _standing(care) if one.kind not in NO_VISIT)


def vaccinated(care: Sequence[CareDone]) -> tuple[date, ...]:
    """Return the days of vaccinations, and the next one as last named."""
    return _days(one for one in _standing(care) if one.kind == "vaccination")


def gelded_days(
    care: Sequence[CareDone], on: date
) -> tuple[tuple[date, date | None], ...]:
    """Return the days after a gelding on which nothing new is begun, both inside.

    An end of None: the vet has not cleared, and nobody can say when.
    """
    stands = gelded(care, on)
    if stands is None:
        return ()
    new_from = stands.new_from
    return ((stands.on, new_from - timedelta(days=1) if new_from else None),)


def _standing(care: Sequence[CareDone]) -> Iterable[CareDone]:
    """Yield the visits; the day a visit named next counts until the next one came."""
    last: dict[str, date] = {}
    for one in care:
        last[one.kind] = max(one.on, last.get(one.kind, one.on))
    for one in care:
        yield one if one.on == last[one.kind] else replace(one, next_due=None)


def _days(care: Iterable[CareDone]) -> tuple[date, ...]:
    days = {day for one in care for day in (one.on, one.next_due) if day is not None}
    return tuple(sorted(days))
