"""The rules that hold a step by what the log says, as gates with their sentences."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.listed import listed
from starting.gates.asked import HER
from starting.gates.facts import Gate, GateAnswer, GateFacts
from starting.gates.words import (
    CAUTION_INCIDENT,
    CAUTION_PAIN,
    CAUTION_SADDLE,
    say_day,
)
from starting.programme import Stage
from starting.progress import Held, Look

LOOKS: Final[dict[Look, str]] = {
    "vet": "the horse by the vet",
    "teeth": "teeth",
    "back": "back",
    "feet": "feet",
    "saddle": "the saddle by a saddle fitter",
    "tack": "tack, put on or seen by a saddle fitter",
}
HAPPENED: Final = {
    "fall": "fell",
    "bolt": "bolted",
    "bucked_off": "bucked somebody off",
    "horse_down": "went down",
    "line_dragged": "dragged a line",
}
GATE_OF: Final = {"go_back": "gone_back", "lost_yes": "gone_back"}
OF_TACK: Final = frozenset({"new_tack", "outgrown"})


def held_gates(stage: Stage, facts: GateFacts, on: date) -> Iterator[Gate]:
    """Yield one gate for each rule that holds a step; none where nothing does."""
    at = next((one for one in facts.progress.stages if one.stage == stage.key), None)
    for held in at.held if at else ():
        if not _is_over(held, on):
            yield _gate(_Ruled(held=held, stage=stage, facts=facts, on=on))


def _is_over(held: Held, on: date) -> bool:
    """Whether a day is past a wait that nothing but time ends."""
    timed = held.opens_on is not None and not held.waits_for
    return timed and held.opens_on is not None and held.opens_on <= on


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ruled:
    """A rule with the step, the facts and the day it is asked for."""

    held: Held
    stage: Stage
    facts: GateFacts
    on: date

    @property
    def to(self) -> str:
        """The name of the step to do instead."""
        steps = self.facts.programme.stages
        return next((s.name for s in steps if s.key == self.held.to), self.held.to)

    @property
    def since(self) -> str:
        return say_day(self.held.since)

    @property
    def her(self) -> str:
        return HER.get(self.facts.she, self.facts.name)

    @property
    def waits(self) -> bool:
        """Whether only time opens it for now."""
        return self.held.opens_on is not None and self.on < self.held.opens_on

    @property
    def looks(self) -> str:
        return listed(tuple(LOOKS[one] for one in self.held.waits_for))


def _gate(ruled: _Ruled) -> Gate:
    held = ruled.held
    why, would_meet = _WORDS[held.rule](ruled)
    key = GATE_OF.get(held.rule, held.rule)
    return Gate(
        stage=ruled.stage.key,
        gate=f"{key}:{held.what}" if held.rule in OF_TACK else key,
        kind="dated" if ruled.waits else "to_do",
        answer=GateAnswer.SHUT,
        why=why,
        would_meet=would_meet,
        opens_on=held.opens_on if ruled.waits else None,
        record=_record(ruled),
        rests_on=held.since,
        sources=("ours",),
        caution=_CAUTIONS.get(held.rule, ""),
    )


def _record(ruled: _Ruled) -> str:
    if ruled.held.rule == "outgrown":
        return f"item:{ruled.held.items[0]}"
    looked_at = ruled.held.waits_for or ruled.waits
    return "care" if looked_at else f"stage:{ruled.held.to}"


def _gone_back(ruled: _Ruled) -> tuple[str, str]:
    held = ruled.held
    because = (
        "a sign asked for a step back"
        if held.rule == "go_back"
        else "two sessions running answered no to what was yes before"
    )
    so_far = f", {held.good} so far" if held.good else ""
    why = (
        f"{ruled.stage.name} went back on {ruled.since}: {because}. First come"
        f" {held.needed} good sessions of {ruled.to}{so_far}; then it is tried again."
    )
    return why, f"{held.needed} good sessions of {ruled.to} after {ruled.since}."


def _stuck(ruled: _Ruled) -> tuple[str, str]:
    why = (
        f"{ruled.stage.name} went back three times within 30 days (ours), the last on"
        f" {ruled.since}: it waits until teeth, back, feet and tack were looked at."
    )
    return why, f"Looked at after {ruled.since}, nothing left open: {ruled.looks}."


def _incident(ruled: _Ruled) -> tuple[str, str]:
    held = ruled.held
    what = HAPPENED.get(held.what, "had an accident")
    why = f"{ruled.facts.name} {what} on {ruled.since}: steps with a rider or on lines"
    wait = ""
    if ruled.waits and held.opens_on is not None:
        wait = f" wait 14 days (ours), until {say_day(held.opens_on)}"
    looks = f"{', and' if wait else ' wait'} until looked at since: {ruled.looks}"
    then = f" Then up again from {ruled.to}, step by step." if held.to else ""
    return (
        f"{why}{wait}{looks if held.waits_for else ''}.{then}",
        f"Looked at after {ruled.since}, nothing left open: {ruled.looks}."
        if held.waits_for
        else "",
    )


def _long_off(ruled: _Ruled) -> tuple[str, str]:
    held = ruled.held
    if held.needed == 1:
        first = f"one good session of {ruled.to}, and so up, step by step"
    else:
        so_far = f", {held.good} so far" if held.good else ""
        first = f"{held.needed} good sessions of {ruled.to}{so_far}"
    why = (
        f"{ruled.facts.name} had no rider for more than 60 days (ours) after"
        f" {ruled.since}: first comes {first}."
    )
    return why, f"{first[:1].upper()}{first[1:]}."


def _new_tack(ruled: _Ruled) -> tuple[str, str]:
    what = ruled.held.what
    why = (
        f"Every {what} that fits {ruled.facts.name} is new to {ruled.her}, or was"
        f" altered: first comes one good session of {ruled.to} in it."
    )
    return why, f"A good session of {ruled.to} that names the {what} under Worn."


def _outgrown(ruled: _Ruled) -> tuple[str, str]:
    held, name = ruled.held, ruled.facts.name
    fits = "fits" if len(held.items) == 1 else "fit"
    why = (
        f"{listed(held.items)} no longer {fits} {name}, nor does any other {held.what}"
        f" here; it last sat well on {ruled.since}. Steps that ask for a {held.what}"
        " wait, the others go on."
    )
    return why, f"A {held.what} that fits {ruled.her}, borrowed or bought."


_WORDS: Final = {
    "go_back": _gone_back,
    "lost_yes": _gone_back,
    "stuck": _stuck,
    "incident": _incident,
    "long_off": _long_off,
    "new_tack": _new_tack,
    "outgrown": _outgrown,
}
_CAUTIONS: Final = {
    "go_back": CAUTION_PAIN,
    "lost_yes": CAUTION_PAIN,
    "stuck": CAUTION_PAIN,
    "incident": CAUTION_INCIDENT,
    "long_off": CAUTION_SADDLE,
}
