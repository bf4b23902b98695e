"""Words as a list is said."""

from __future__ import annotations

from collections.abc import Iterable


def listed(words: Iterable[str], last: str = "and") -> str:
    """Return words as a list is said: one, two and three."""
    *most, end = tuple(words) or ("",)
    return f"{', '.join(most)} {last} {end}" if most else end
