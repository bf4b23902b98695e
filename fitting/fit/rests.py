"""What an answer by arithmetic rests on, and whether that is too old."""

from __future__ import annotations

from typing import Final, NamedTuple


class Rests(NamedTuple):
    """What was measured, in words; ``stale_days``: how long ago, if too long."""

    on: str = ""
    stale: bool = False
    stale_days: int | None = None

    def or_older(self, days: int | None) -> int | None:
        """Return the longer of two times ago, where there is one."""
        return max(filter(None, (self.stale_days, days)), default=None)


UNSAID: Final = Rests()
