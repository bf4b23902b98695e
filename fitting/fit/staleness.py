"""How long ago that was measured, or looked at, which an answer goes by."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Final

from fitting.fit.answers import Finding, Wearer

_BY_SIGHT: Final = ("put on", "saddle fitter")  # what an answer by sight rests on


def days_since(wearer: Wearer, measure: str, on: date) -> int | None:
    """Return how many days ago a measure was last taken; None: never by that day."""
    days = reversed(wearer.growth.measured_on(measure))
    last = next((day for day in days if day <= on), None)
    return None if last is None else (on - last).days


def stale_words(findings: Iterable[Finding]) -> str:
    """Return how old the oldest is that is too old, and what to do; or nothing."""
    old = [finding for finding in findings if finding.stale]
    if not old:
        return ""
    oldest = max(old, key=lambda one: one.stale_days or 0)
    by_sight = oldest.rests_on.startswith(_BY_SIGHT)
    did, again = ("looked at", "look") if by_sight else ("measured", "measure")
    if oldest.stale_days is None:
        return f"{did} too long ago, {again} again"
    since = f"{oldest.stale_days} day{'' if oldest.stale_days == 1 else 's'} ago"
    return f"{did} {since}, {again} again"
