"""The teeth: when last looked at, and how long that counts for a bit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.drawings.signs import word_of
from starting.care import notes
from starting.care.values import Told, Visit, Whose, last_visit, say_date
from starting.gates import CareDone, GateAnswer, healing_until
from starting.gates.mouth import FIRST_BIT_DAYS, LATER_BIT_DAYS, WOLF_SAID

MINDS_THE_BIT: Final = "Look into the mouth, and at how a bit lies, before it goes in."
_WORDS: Final = {
    GateAnswer.MET: "yes",
    GateAnswer.CAUTION: word_of("caution"),
    GateAnswer.SHUT: word_of("shut"),
    GateAnswer.NOT_KNOWN: "can't say",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Teeth:
    """The last look at the teeth; ``heals``: the last day of healing, if not over."""

    last: date | None
    clear: bool
    heals: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """What a look answers, and the last days of its yes and of its yes, but."""

    answer: GateAnswer
    until: date | None = None
    but_until: date | None = None


def teeth_on(visits: Iterable[CareDone], on: date) -> Teeth:
    """Return what was last seen of the teeth up to a day."""
    before = tuple(visit for visit in visits if visit.on <= on)
    looks = [visit for visit in before if visit.kind == "teeth"]
    last = max((visit.on for visit in looks), default=None)
    heals = healing_until(before, on)
    return Teeth(
        last=last,
        clear=bool(looks) and all(v.clear for v in looks if v.on == last),
        heals=heals if heals and on <= heals else None,
    )


def counted(teeth: Teeth, days: tuple[int, int], on: date) -> Counted:
    """Return how a look at the teeth counts, by its days of yes and of yes, but."""
    if teeth.last is None:
        shut = GateAnswer.SHUT if teeth.heals else GateAnswer.NOT_KNOWN
        return Counted(answer=shut)
    if not teeth.clear:
        return Counted(answer=GateAnswer.SHUT)
    until, but = (teeth.last + timedelta(days=number) for number in days)
    answer = GateAnswer.MET
    if teeth.heals or on > but:
        answer = GateAnswer.SHUT
    elif on > until:
        answer = GateAnswer.CAUTION
    return Counted(answer=answer, until=until, but_until=but)


def teeth_told(visits: Sequence[Visit], whose: Whose, on: date) -> Iterator[Told]:
    """Return what the last look at the teeth says, and for which bit it counts."""
    teeth = teeth_on((visit.done for visit in visits), on)
    last = last_visit(visits, "teeth", on)
    yield _seen_told(last, teeth, whose)
    if whose.grown or (last is None and teeth.heals is None):
        return
    for title, days, beside in (
        ("For a first bit", FIRST_BIT_DAYS, ()),
        ("For later steps with a bit", LATER_BIT_DAYS, notes.COUNTS),
    ):
        counts = counted(teeth, days, on)
        text = counts_text(teeth, counts, whose, on)
        yield _answered(title, counts.answer, text, beside)


def _seen_told(last: Visit | None, teeth: Teeth, whose: Whose) -> Told:
    if last is None:
        text = f"No look at {whose.name}'s teeth is written down."
        tone, word = "unknown", "can't say"
    else:
        by = f"by {last.by}" if last.who else "by whom is not written"
        state = "nothing left open" if teeth.clear else "something left open"
        text = f"Last seen on {say_date(last.done.on)}, {by}: {state}."
        tone, word = ("", "") if teeth.clear else ("caution", "something left open")
    return Told(title="Teeth", text=text, tone=tone, word=word, notes=notes.MOUTH)


def _answered(
    title: str, answer: GateAnswer, text: str, beside: tuple[str, ...] = ()
) -> Told:
    tone = "unknown" if answer is GateAnswer.NOT_KNOWN else answer.value
    return Told(title=title, text=text, tone=tone, word=_WORDS[answer], notes=beside)


def counts_text(teeth: Teeth, counts: Counted, whose: Whose, on: date) -> str:
    """Return until when a look counts, and what would make it count again."""
    if teeth.heals:
        return healing_text(teeth.heals, counts, whose)
    if counts.until is None or counts.but_until is None:
        return "It counts once a visit is written down with nothing left open."
    if on <= counts.until:
        return (
            f"Counts until {say_date(counts.until)}, then as 'yes, but' until"
            f" {say_date(counts.but_until)}."
        )
    if on <= counts.but_until:
        return (
            f"Counted until {say_date(counts.until)}; 'yes, but' until"
            f" {say_date(counts.but_until)}. Have them looked at again."
        )
    return (
        f"Too long ago: it counted until {say_date(counts.but_until)} at the most."
        " Have them looked at again."
    )


def healing_text(heals: date, counts: Counted, whose: Whose) -> str:
    """Return that the mouth is healing, and what the look counts for after that."""
    text = f"{whose.name}'s mouth is healing until {say_date(heals)}: no bit."
    if counts.until is None or counts.but_until is None:
        return text
    if heals < counts.until:
        return f"{text} After that the look counts until {say_date(counts.until)}."
    if heals < counts.but_until:
        return f"{text} After that it is 'yes, but' until {say_date(counts.but_until)}."
    return f"{text} By then the look is too long ago."


def wolf_teeth_told(done: Sequence[CareDone], whose: Whose, on: date) -> Told:
    """Return what was decided about the wolf teeth; unknown is never fine."""
    decided = [
        (visit.on, visit.wolf_teeth == "out", visit.wolf_teeth)
        for visit in done
        if visit.wolf_teeth is not None and visit.on <= on
    ]
    if not decided:
        text = "Nothing is written down. Ask at the teeth visit: none, left, or out."
        return _answered("Wolf teeth", GateAnswer.NOT_KNOWN, text, notes.WOLF_TEETH)
    last, out, decision = max(decided)
    heals = teeth_on(done, on).heals
    text = f"{whose.name} {WOLF_SAID[str(decision)]}: written {say_date(last)}."
    if out and heals:
        text = f"{text} Healing until {say_date(heals)}: no bit."
        return _answered("Wolf teeth", GateAnswer.SHUT, text)
    return _answered("Wolf teeth", GateAnswer.MET, text)


def tooth_change_told(
    done: Sequence[CareDone], whose: Whose, on: date
) -> Iterator[Told]:
    """Return when teeth were last seen changing, if ever, and who looked since."""
    seen = [v.on for v in done if v.kind == "tooth_change" and v.on <= on]
    if not seen:
        return
    last, look = max(seen), teeth_on(done, on).last
    since = look is not None and look >= last
    again = (
        f"Teeth looked at since, on {say_date(look)}."
        if since and look
        else f"Nobody has looked at the teeth since. {MINDS_THE_BIT}"
    )
    yield Told(
        title="Tooth change",
        text=f"Last seen on {say_date(last)}. {again}",
        tone="" if since else "caution",
        word="" if since else "look again",
    )
