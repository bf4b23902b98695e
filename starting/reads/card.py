"""What the card of one step shows: all of it on one sheet, to take along."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.models import Horse
from fitting.reads.horses import horse_words
from fitting.sources import SOURCES as CITED
from starting.gates import Gate, GateAnswer, gate_name
from starting.gates.on_the_day import WITH_SAFETY
from starting.gates.words import CAUTION_SAFETY
from starting.kit import Kit, kit_of
from starting.outlook import StageLook
from starting.reads.step import Tick, stage_of, ticks_of
from starting.reads.step_facts import StopRow, how, stop_rows
from starting.reads.steps import of_horse
from starting.stop_words import EVERY_STEP, SOURCES

BLANK_DAYS: Final = range(4)  # columns to write the ticks of a day into
ONE_DAY: Final = range(1)
TOLD: Final = 5  # what stands before the step and is told in full; more goes by name
LOUDEST: Final = (GateAnswer.SHUT, GateAnswer.NOT_KNOWN, GateAnswer.CAUTION)


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """Something that stands before the step: what it is, its answer, and why."""

    name: str
    answer: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPage:
    """The card of one step of one horse."""

    horse: str
    key: str
    kind: str
    stage: str
    name: str
    phase: str
    aim: str
    sessions: bool
    planned: bool
    before: tuple[Before, ...]  # what is shut first
    more: tuple[Before, ...]
    asks: tuple[str, ...]
    ticks: tuple[Tick, ...]
    blanks: range
    stops: tuple[StopRow, ...]
    every_step: tuple[str, ...]
    every_source: str
    cautions: tuple[str, ...]
    tack: tuple[str, ...]
    kit: tuple[Kit, ...]
    facts: tuple[tuple[str, str], ...]
    evidence: str

    @property
    def unfit(self) -> bool:
        """Whether some tack that the step asks for does not fit, or nobody knows."""
        return any(not one.fits for one in self.kit)


def card_page(horse: Horse, stage_key: str, on: date) -> CardPage | None:
    """Return a step's card; None: no such step (2 queries: programme, outlook)."""
    programme, outlook = of_horse(horse)
    stage = stage_of(programme, stage_key)
    if stage is None:
        return None
    look = outlook.stage(stage_key) if outlook else None
    asked, before = _asked(look), _before(look)
    return CardPage(
        horse=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        stage=stage.key,
        name=stage.name,
        phase=stage.phase,
        aim=stage.aim,
        sessions=stage.kind == "sessions",
        planned=look is not None,
        before=before[:TOLD],
        more=before[TOLD:],
        asks=tuple(gate.why for gate in asked),
        ticks=ticks_of(stage, look),
        blanks=BLANK_DAYS if stage.kind == "sessions" else ONE_DAY,
        stops=stop_rows(stage),
        every_step=EVERY_STEP,
        every_source=" ".join(f"{CITED[key].text}." for key in SOURCES[:1]),
        cautions=_cautions(stage.cautions, asked),
        tack=stage.tack_first_met,
        kit=kit_of(look.gates, outlook.fits) if look and outlook else (),
        facts=how(stage, look),
        evidence=stage.evidence,
    )


def _asked(look: StageLook | None) -> tuple[Gate, ...]:
    return tuple(
        gate
        for gate in (look.gates if look else ())
        if gate.kind == "on_the_day" and gate.answer is not GateAnswer.MET
    )


def _before(look: StageLook | None) -> tuple[Before, ...]:
    """Return what is not a plain yes; of the tack the card says more further down."""
    gates = [
        gate
        for gate in (look.gates if look else ())
        if gate.kind != "on_the_day"
        and gate.answer in LOUDEST
        and not gate.gate.startswith("fit:")
    ]
    gates.sort(key=lambda gate: LOUDEST.index(gate.answer))
    return tuple(
        Before(name=gate_name(gate.gate), answer=str(gate.answer), why=gate.why)
        for gate in gates
    )


def _cautions(own: tuple[str, ...], asked: tuple[Gate, ...]) -> tuple[str, ...]:
    safety = WITH_SAFETY & {gate.gate for gate in asked}
    return (*own, CAUTION_SAFETY) if safety else own
