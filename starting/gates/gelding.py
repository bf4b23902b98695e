"""After gelding: how long nothing new is begun, and whether the vet has cleared."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from starting.gates.facts import CareDone

# Source: movement for two weeks or until healed, Michigan State University; that
# nothing new is begun for so long is ours. The vet's own day goes before it.
GELDING_DAYS: Final = 14


@dataclass(frozen=True, slots=True, kw_only=True)
class Gelded:
    """The last gelding; ``heals``: its last day of healing; cleared on, if it was."""

    on: date
    heals: date
    cleared_on: date | None

    @property
    def new_from(self) -> date | None:
        """The first day for something new; None: not before somebody clears."""
        if self.cleared_on is None:
            return None
        return max(self.heals + timedelta(days=1), self.cleared_on)


def gelded(care: Iterable[CareDone], on: date) -> Gelded | None:
    """Return how the last gelding up to a day stands; None: there is none.

    It is cleared where its own record says that nothing is left open, or by the first
    visit of the vet after it that leaves nothing open.
    """
    visits = [visit for visit in care if visit.on <= on]
    done = [visit for visit in visits if visit.kind == "gelding"]
    if not done:
        return None
    last = max(done, key=lambda visit: (visit.on, not visit.clear))
    cleared = [last.on] if last.clear else []
    cleared += [v.on for v in visits if v.kind == "vet" and v.clear and v.on > last.on]
    return Gelded(
        on=last.on,
        heals=last.healing_until or last.on + timedelta(days=GELDING_DAYS),
        cleared_on=min(cleared, default=None),
    )
