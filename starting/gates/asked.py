"""One gate of one step, asked on a day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from starting.gates.facts import GateFacts
from starting.programme import Stage

HER = {"she": "her", "he": "him"}
HERS = {"she": "her", "he": "his"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A gate's key with the step, the facts and the day it is asked for."""

    gate: str
    stage: Stage
    facts: GateFacts
    on: date

    @property
    def what(self) -> str:
        """What is asked for after the colon: ``bit`` of ``fit:bit``."""
        return self.gate.partition(":")[2]

    @property
    def name(self) -> str:
        """The horse's name."""
        return self.facts.name

    @property
    def she(self) -> str:
        """``she`` or ``he``."""
        return self.facts.she

    @property
    def her(self) -> str:
        """``her`` or ``him``."""
        return HER.get(self.facts.she, self.facts.name)

    @property
    def hers(self) -> str:
        """``her`` or ``his``, before a noun."""
        return HERS.get(self.facts.she, f"{self.facts.name}'s")
