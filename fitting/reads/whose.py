"""Whose figures tack is judged by, and how the yard has them shown."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from fitting.fit.edge_words import say_value
from fitting.fit.edges import Change, Edge, Edges
from fitting.fit.sound import laid_over
from fitting.models import Horse, Yard
from fitting.models.horse import OWN_EDGES
from fitting.models.yard import YARD_EDGES
from fitting.readings import show
from fitting.reads.facts import horse_changes, yard_changes
from fitting.reads.units import units_of
from fitting.units import show_off


@dataclass(frozen=True, slots=True, kw_only=True)
class Whose:
    """Whose figures are changed: the whole yard's, or one horse's; both are read."""

    yard: Yard
    horse: Horse | None = None

    @property
    def changes(self) -> tuple[Change, ...]:
        """What was ever changed here, in order."""
        return horse_changes(self.horse) if self.horse else yard_changes(self.yard)

    @property
    def count(self) -> int:
        """How many changes are kept here, those of figures no longer there too."""
        if self.horse:
            return len(self.horse.clearances.get(OWN_EDGES, ()))
        return len(self.yard.settings.get(YARD_EDGES, ()))

    def with_changes(self, changes: Sequence[Change]) -> Edges:
        """Return the figures as they would stand, sound or not."""
        if self.horse is None:
            return laid_over(changes)
        return laid_over(yard_changes(self.yard), changes)


def shown_by(yard: Yard) -> Callable[[Edge, float], str]:
    """Return what shows a figure in the yard's units, and in mm beside inches."""
    units = units_of(yard)

    def length(mm: float) -> str:
        if units.length == "in":
            return show_off(mm, "in", ".4g")
        return show(mm, "length", units)

    return partial(say_value, show=length)
