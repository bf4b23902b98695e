"""The tack a step asks for: what fits of it, on which hole, until when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.fit import Finding
from fitting.told import hole_words
from starting.gates import Gate, GateAnswer, gate_name

WITHOUT_BIT: Final = " without its bit"
BIT: Final = "mouthpiece"
HANGS_A_BIT: Final = "bridle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Kit:
    """One kind of tack that a step asks for, and the best there is of it."""

    kind: str  # bridle, bit, roller ...
    name: str  # a bridle that fits
    answer: GateAnswer
    record: str  # set:Her bridle, item:Small eggbutt; empty: nothing hangs here
    item: str  # what is best; empty: nothing hangs here
    hole: str  # " on hole 4", or the holes of its parts
    until: date | None  # the first day on which it is no longer good
    why: str
    without_bit: bool = False  # a set that has a bit, on a step that asks for none

    @property
    def fits(self) -> bool:
        """Whether it fits, with no doubt about it."""
        return self.answer is GateAnswer.MET and bool(self.item)

    @property
    def words(self) -> str:
        """The item with its hole, and without its bit where none is asked for."""
        return f"{self.item}{WITHOUT_BIT if self.without_bit else ''}{self.hole}"


def kit_of(gates: Sequence[Gate], findings: Sequence[Finding]) -> tuple[Kit, ...]:
    """Return the tack that a step asks for, in the order of its gates."""
    return tuple(_kit(gates, findings))


def _kit(gates: Sequence[Gate], findings: Sequence[Finding]) -> Iterator[Kit]:
    bitted = any(gate.gate == "fit:bit" for gate in gates)
    for gate in gates:
        what, _, kind = gate.gate.partition(":")
        if what != "fit":
            continue
        item = gate.record.partition(":")[2]
        every = [one for one in findings if one.item == item]
        bare = kind == HANGS_A_BIT and not bitted
        parts = [one for one in every if not bare or one.part != BIT]
        ends = [one.good_until for one in parts if one.good_until]
        yield Kit(
            kind=kind,
            name=gate_name(gate.gate),
            answer=gate.answer,
            record=gate.record,
            item=item,
            hole=hole_words(parts) if item else "",
            until=min(ends, default=None),
            why=gate.why,
            without_bit=len(parts) < len(every),
        )
