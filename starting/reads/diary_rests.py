"""What an entry of the diary rests on, and what it waits for, with links."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.body import measure_by_key
from fitting.looks import MeasureLook
from fitting.models import Horse
from fitting.readings import Units, show
from fitting.reads.units import units_of
from fitting.wanted import things_of
from fitting.wanted.telling import size_lines
from starting.dated import Doing
from starting.gates import Gate, GateAnswer, gate_name
from starting.models import CareVisit
from starting.outlook import Outlook
from starting.outlook.to_dos import VISIT_GATES
from starting.reads.gate_links import Link, Places, link_of

SHOWN_VISITS: Final = 2
NOWHERE: Final = Link()
DONE_STATES: Final = frozenset({"established", "left_out"})
STANDINGS: Final = {
    "stands": "Still stands",
    "stale": "Too old",
    "never": "Never measured",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """Something an entry rests on, or waits for; ``answer`` of a gate, if it is one."""

    name: str
    said: str
    more: str = ""  # what would make it a yes
    answer: str = ""
    link: Link = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What an entry stands on: its horse, what was computed, where records lie."""

    horse: Horse
    outlook: Outlook | None
    at: Places
    visits: tuple[CareVisit, ...]  # newest first


def rests_on(doing: Doing, ground: Ground) -> tuple[Fact, ...]:
    """Return what an entry rests on."""
    return tuple(_RESTS[doing.record](doing, ground)) if doing.record in _RESTS else ()


def waits_for(doing: Doing, ground: Ground) -> tuple[Fact, ...]:
    """Return what a step waits for: every gate that is not yet a yes, with its link.

    What is asked on the day stands with the entry itself.
    """
    if doing.record not in {"session", "tick"}:
        return ()
    gates = (gate for gate in _gates(doing.what, ground) if _waits(gate))
    return tuple(_of_gate(gate, ground.at) for gate in gates)


def _waits(gate: Gate) -> bool:
    return gate.kind != "on_the_day" and gate.answer is not GateAnswer.MET


def _gates(stage: str, ground: Ground) -> tuple[Gate, ...]:
    look = ground.outlook.stage(stage) if ground.outlook else None
    return look.gates if look else ()


def _of_gate(gate: Gate, at: Places, of: str = "") -> Fact:
    name = gate_name(gate.gate)
    said = f"{of}: {gate.why}" if of else gate.why
    return Fact(
        name=name[:1].upper() + name[1:],
        said=said,
        more="" if gate.answer is GateAnswer.MET else gate.would_meet,
        answer=str(gate.answer),
        link=link_of(gate, at),
    )


def _measured(doing: Doing, ground: Ground) -> Iterator[Fact]:
    units = units_of(ground.horse.yard)
    link = ground.at.of_horse("fitting:measured", "See what was measured")
    for key in doing.measures:
        look = ground.outlook.measure(key) if ground.outlook else None
        name = measure_by_key(key).name
        said = _last(look, units)
        yield Fact(name=name[:1].upper() + name[1:], said=said, link=link)


def _last(look: MeasureLook | None, units: Units) -> str:
    if look is None or look.last is None:
        return "Never measured."
    size = show(look.last.value, look.dimension, units)
    by = f" Measure by {_day(look.measure_by)}." if look.measure_by else ""
    standing = STANDINGS[look.standing]
    return f"{size} on {_day(look.last.on)}. {standing}.{by}"


def _tried(doing: Doing, ground: Ground) -> Iterator[Fact]:
    """Yield the gates that ask for such tack: each reason once, with its first step."""
    yield from _of_steps({f"fit:{doing.what}"}, ground)


def _visited(doing: Doing, ground: Ground) -> Iterator[Fact]:
    link = ground.at.of_horse("starting:care", "See care")
    visits = [one for one in ground.visits if one.kind == doing.what]
    for visit in visits[:SHOWN_VISITS]:
        left = "Nothing left open." if visit.clear else "Something was left open."
        kind = visit.get_kind_display()
        name = f"{kind[:1].upper()}{kind[1:]} on {_day(visit.on)}"
        yield Fact(name=name, said=f"{left} {visit.note}".strip(), link=link)
    if not visits:
        yield Fact(name="Before", said="No such visit is written down.", link=link)
    gates = {gate for gate, kind in VISIT_GATES.items() if kind == doing.what}
    yield from _of_steps(gates, ground)


def _of_steps(gates: Iterable[str], ground: Ground) -> Iterator[Fact]:
    asked, told = set(gates), set[str]()
    for look in ground.outlook.stages if ground.outlook else ():
        for gate in look.gates if look.state not in DONE_STATES else ():
            if gate.gate in asked and gate.why not in told:
                told.add(gate.why)
                yield _of_gate(gate, ground.at, look.name)


def _wanted(doing: Doing, ground: Ground) -> Iterator[Fact]:
    units = units_of(ground.horse.yard)
    link = ground.at.of_horse("starting:horse-to-get", "See sizes, and who could lend")
    wanted = ground.outlook.wants.wanted if ground.outlook else ()
    for thing in things_of(wanted):
        if (thing.kind, thing.part) != (doing.what, doing.part):
            continue
        lines = (line for one in thing.wanted for line in size_lines(one, units))
        for name, size in lines:
            yield Fact(name=name[:1].upper() + name[1:], said=size, link=link)


def _step(doing: Doing, ground: Ground) -> Iterator[Fact]:
    gates = [g for g in _gates(doing.what, ground) if g.kind != "on_the_day"]
    yes = sum(gate.answer is GateAnswer.MET for gate in gates)
    if not gates:
        return
    yield Fact(
        name="What it needs first",
        said=f"{yes} of {len(gates)} {'is' if yes == 1 else 'are'} a yes today.",
        link=ground.at.link(
            "starting:step", ground.at.horse, doing.what, text="See the step"
        ),
    )


_RESTS: Final[Mapping[str, Callable[[Doing, Ground], Iterator[Fact]]]] = {
    "measure": _measured,
    "try_on": _tried,
    "visit": _visited,
    "got": _wanted,
    "session": _step,
    "tick": _step,
}


def _day(on: date) -> str:
    return f"{on.day} {on:%b %Y}"
