"""The tack a step asks for: what fits of it, on which hole, until when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from fitting.fit import Finding
from fitting.told import hole_words
from starting.gates import Gate, GateAnswer, gate_name


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

    @property
    def fits(self) -> bool:
        """Whether it fits, with no doubt about it."""
        return self.answer is GateAnswer.MET and bool(self.item)

    @property
    def words(self) -> str:
        """The item with its hole."""
        return f"{self.item}{self.hole}"


def kit_of(gates: Sequence[Gate], findings: Sequence[Finding]) -> tuple[Kit, ...]:
    """Return the tack that a step asks for, in the order of its gates."""
    return tuple(_kit(gates, findings))


def _kit(gates: Sequence[Gate], findings: Sequence[Finding]) -> Iterator[Kit]:
    for gate in gates:
        what, _, kind = gate.gate.partition(":")
        if what != "fit":
            continue
        item = gate.record.partition(":")[2]
        parts = [one for one in findings if one.item == item]
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
        )
