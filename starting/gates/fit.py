"""Whether something on the pegs fits: bit, bridle, headcollar, roller, saddle ..."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fitting.fit import Answer, Finding
from fitting.listed import listed
from fitting.told import hole_words
from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer
from starting.gates.words import (
    CAUTION_BIT,
    CAUTION_BRIDLE,
    CAUTION_CAVESSON,
    CAUTION_GIRTH,
    CAUTION_HEADCOLLAR,
    CAUTION_ROLLER,
    CAUTION_RUG,
    CAUTION_SADDLE,
    clause,
    say_day,
)

BIT_PARTS: Final = frozenset({"bit", "mouthpiece", "length", "thickness"})
# What must be known of a thing to speak of it at all: a browband alone is no bridle.
NEEDED_PARTS: Final = {
    "bridle": frozenset({"whole", "cheekpieces", "headpiece"}),
    "headcollar": frozenset({"nose"}),
    "cavesson": frozenset({"nose"}),
    "roller": frozenset({"strap"}),
    "saddle": frozenset({"panel"}),
    "girth": frozenset({"strap"}),
    "rug": frozenset({"back_seam"}),
}
CAUTIONS: Final = {
    "bit": CAUTION_BIT,
    "bridle": CAUTION_BRIDLE,
    "headcollar": CAUTION_HEADCOLLAR,
    "cavesson": CAUTION_CAVESSON,
    "roller": CAUTION_ROLLER,
    "saddle": CAUTION_SADDLE,
    "girth": CAUTION_GIRTH,
    "rug": CAUTION_RUG,
}
# What is measured for it, and what is done with it instead.
TO_TRY: Final = {
    "bit": ("mouth width", "hold the bit against"),
    "bridle": ("head length", "put the bridle on"),
    "headcollar": ("nose", "put the headcollar on"),
    "cavesson": ("nose", "put the cavesson on"),
    "roller": ("heart girth", "put the roller on"),
    "saddle": ("back length", "put the saddle on"),
    "girth": ("girth path", "put the girth on"),
    "rug": ("rug length", "put the rug on"),
}
SADDLE: Final = "saddle"
TRY_IT_ON: Final = "try it on"
WORST_FIRST: Final = (Answer.NO, Answer.NOT_KNOWN, Answer.WATCH, Answer.GOOD)
ANSWERS: Final = {
    Answer.GOOD: GateAnswer.MET,
    Answer.WATCH: GateAnswer.CAUTION,
    Answer.NOT_KNOWN: GateAnswer.NOT_KNOWN,
    Answer.NO: GateAnswer.SHUT,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A made-up set or a single item with what counts of it."""

    name: str
    is_set: bool
    findings: tuple[Finding, ...]

    @property
    def answer(self) -> Answer:
        """As good as its worst part; a stale one is at best watch."""
        seen = {finding.answer for finding in self.findings}
        worst = next(answer for answer in WORST_FIRST if answer in seen)
        stale = any(finding.stale for finding in self.findings)
        return Answer.WATCH if stale and worst is Answer.GOOD else worst

    @property
    def worst(self) -> Finding:
        """The part that decides; of a stale good one, the stale part."""
        return min(
            self.findings,
            key=lambda finding: (WORST_FIRST.index(finding.answer), not finding.stale),
        )


def fit(ask: Asked) -> Gate:
    """Return whether some set or item of the kind is good, by its worst part."""
    ranked = sorted(
        _candidates(ask),
        key=lambda one: (-WORST_FIRST.index(one.answer), not one.is_set),
    )
    best = ranked[0] if ranked else None
    answer = ANSWERS[best.answer] if best else GateAnswer.NOT_KNOWN
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=answer,
        why=_why(ask, best, answer),
        would_meet=_would_meet(ask, best, answer),
        record=f"{'set' if best.is_set else 'item'}:{best.name}" if best else "",
        sources=_sources(best),
        caution=f"{CAUTIONS[ask.what]}{_prompts(best)}",
    )


def _candidates(ask: Asked) -> tuple[Candidate, ...]:
    sets = ask.facts.set_names
    names = dict.fromkeys(finding.item for finding in ask.facts.findings)
    made = (
        Candidate(name=name, is_set=name in sets, findings=_counting(ask, name))
        for name in sorted(names, key=lambda name: name not in sets)
    )
    return tuple(one for one in made if one.findings and _is_whole(ask, one))


def _of_kind(ask: Asked, finding: Finding) -> bool:
    in_set = finding.item in ask.facts.set_names
    if ask.what not in {"bit", "bridle"}:  # a set of its own
        return finding.kind == ask.what and not in_set
    of_bit = finding.kind == "bit" or (in_set and finding.part in BIT_PARTS)
    if ask.what == "bit":
        return of_bit
    if of_bit:  # a step without a bit wears the bridle without it
        return in_set and "fit:bit" in ask.stage.gates_to_do
    return in_set or finding.kind == ask.what


def _counting(ask: Asked, name: str) -> tuple[Finding, ...]:
    return tuple(
        finding
        for finding in ask.facts.findings
        if finding.item == name and _of_kind(ask, finding)
    )


def _is_whole(ask: Asked, one: Candidate) -> bool:
    """Whether the part is there that it cannot do without."""
    needed = NEEDED_PARTS.get(ask.what)
    return needed is None or any(f.part in needed for f in one.findings)


def _prompts(best: Candidate | None) -> str:
    """Return what a good answer still asks for, as a jaw gap: it bars nothing."""
    good = (one for one in best.findings if one.answer is Answer.GOOD) if best else ()
    asks = tuple(dict.fromkeys(clause(one.ask) for one in good if one.ask))
    return f" Still to be had: {listed(asks)}." if asks else ""


def _why(ask: Asked, best: Candidate | None, answer: GateAnswer) -> str:
    if best is None:
        return f"Can't say: no {ask.what} to try on {ask.name} is written down."
    because = clause(best.worst.why)
    if answer is GateAnswer.MET:
        return f"{best.name} fits {ask.name}{hole_words(best.findings)}{_until(best)}."
    if answer is GateAnswer.CAUTION and best.worst.answer is Answer.GOOD:
        return f"{best.name} fitted {ask.name}, but what that rests on is too old."
    if answer is GateAnswer.CAUTION:
        return f"{best.name} only just fits {ask.name}: {because}."
    if answer is GateAnswer.SHUT:
        return f"No {ask.what} here fits {ask.name}; nearest is {best.name}: {because}."
    return f"Can't say whether {best.name} fits {ask.name}: {because}."


def _until(best: Candidate) -> str:
    ends = [one.good_until for one in best.findings if one.good_until is not None]
    return f", until about {say_day(min(ends))}" if ends else ""


def _would_meet(ask: Asked, best: Candidate | None, answer: GateAnswer) -> str:
    if answer is GateAnswer.MET:
        return ""
    if answer is GateAnswer.SHUT:
        return f"A {ask.what} in {ask.hers} size, borrowed or bought."
    if ask.what == SADDLE:
        return _to_see(ask, best)
    if best is None:
        return f"Write down a {ask.what}, {_to_try(ask)}."
    asks = _asks(best)
    if answer is GateAnswer.NOT_KNOWN and asks:
        return f"Still to be had of {best.name}: {listed(asks)}."
    return f"Measure {ask.her}, or put {best.name} on and write down what is seen."


def _to_see(ask: Asked, best: Candidate | None) -> str:
    """Return whom to have with you: no tape says that a saddle fits."""
    asks = [one for one in _asks(best) if one != TRY_IT_ON] if best else []
    measured = f"Still to be had: {listed(tuple(asks))}. " if asks else ""
    named = f"Put {best.name} on" if best else "Write down a saddle, and put it on"
    seen = f"{ask.her} with a qualified saddle fitter there, and write down both"
    return f"{measured}{named} {seen}: what was seen, and the visit."


def _asks(best: Candidate) -> tuple[str, ...]:
    """Return what a part of it that is not known wants written down or measured."""
    asked = (clause(one.ask) for one in best.findings if _is_open(one))
    return tuple(dict.fromkeys(asked))


def _is_open(one: Finding) -> bool:
    return one.answer is Answer.NOT_KNOWN and bool(one.ask)


def _to_try(ask: Asked) -> str:
    measure, instead = TO_TRY[ask.what]
    return f"measure {ask.hers} {measure}, or {instead} {ask.her}"


def _sources(best: Candidate | None) -> tuple[str, ...]:
    if best is None:
        return ("ours",)
    found = (source for one in best.findings for source in one.sources)
    return tuple(dict.fromkeys(found)) or ("ours",)
