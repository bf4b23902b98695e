"""One part asked of one horse on one day, and the answer with the days to come."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from fitting.fit.answers import Answer, Finding, Rule, Wearer
from fitting.fit.lasting import SizeOn, Sizes, coming, lasting
from fitting.tryons import SpokenOf


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One part asked of one horse on one day; ``names``: whose try-ons speak of it."""

    item: str
    kind: str
    part: str
    names: tuple[str, ...]
    wearer: Wearer
    sizes: Sizes
    on: date

    @property
    def tried(self) -> bool:
        """Whether any try-on may speak of it."""
        return any(tryon.item in self.names for tryon in self.wearer.tryons)

    @property
    def spoken_of(self) -> SpokenOf:
        """What a try-on has to be of."""
        return SpokenOf(
            names=self.names,
            part=self.part,
            foaled=self.wearer.foaled,
            tooth_change=self.wearer.tooth_change,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """The answer on a part on the day, and what it goes by on other days.

    ``rule``: as it is worn; ``size``: the body it is judged on; None: no days are told.
    """

    asked: Asked
    found: Finding
    rule: Rule | None = None
    size: SizeOn | None = None
    worn: bool = False

    def dated(self) -> Finding:
        """Return the finding with the days from and to which it is good."""
        rule, size, found = self.rule, self.size, self.found
        if rule is None or size is None:
            return found
        if found.answer is Answer.GOOD:
            return lasting(rule, found, size, self.asked.on, worn=self.worn)
        if self.worn or self.asked.wearer.grown:
            return found
        return coming(rule, found, size, self.asked.on)
