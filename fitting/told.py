"""Findings as a page tells them: one verdict an item, its parts line by line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Final

from fitting.asks import TRY_IT_ON, ask_words, asks_of, to_measure, to_write_down
from fitting.fit.answers import WORST_FIRST, Answer, Finding, holed, worst
from fitting.fit.edge_words import decided_words
from fitting.fit.staleness import stale_words
from fitting.fit.thickness import ASK_JAW
from fitting.listed import listed
from fitting.pieces import part_word
from fitting.sources import SOURCES
from fitting.until_when import chance_words, from_words, stretch_of
from fitting.why_short import why_short

BEST_FIRST: Final = (Answer.GOOD, Answer.WATCH, Answer.NOT_KNOWN, Answer.NO)
_ANSWERS: Final = {"good": "good", "watch": "only just", "no": "no", "": "nothing"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """Parts that are answered alike, told together.

    ``decided``: the figures their answer went by, and whether somebody changed them.
    """

    parts: str
    answer: Answer
    why: str
    rests_on: str
    disagrees: str
    decided: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """How one item, or one made-up set, sits on one horse: as its worst part does.

    ``until`` is the first day on which it is no longer good; it stays good up to
    ``looked_until`` at least, where no such day is found; ``coming`` says when it will
    be good, where it is not yet, and ``chance`` the chance of a no on the first of
    those days. ``measure``, ``try_on``, ``write_down`` and ``at_dentist`` say what
    would tell more, ``stale`` how old the size is that it goes by, if too old,
    ``short`` why it is a no, or only just, in a few words.
    """

    answer: Answer
    hole: int | None
    spare_longer: int | None
    spare_shorter: int | None
    until: date | None
    looked_until: date | None
    lines: tuple[Line, ...]
    measure: tuple[str, ...]
    try_on: bool
    write_down: tuple[str, ...]
    at_dentist: str
    stale: str
    short: str
    coming: str
    chance: str
    known: str
    cautions: tuple[str, ...]
    sources: tuple[str, ...]

    @property
    def several(self) -> bool:
        """Whether more than one line is told."""
        return len(self.lines) > 1

    @property
    def in_short(self) -> tuple[tuple[Answer, str], ...]:
        """The parts by their answer, the worst first; empty where it is one."""
        if not self.several:
            return ()
        return tuple(
            (answer, listed(line.parts for line in self.lines if line.answer is answer))
            for answer in WORST_FIRST
            if any(line.answer is answer for line in self.lines)
        )

    @property
    def against(self) -> tuple[Line, ...]:
        """The parts that make it a no or only just; empty where one line tells all."""
        if not self.several or self.answer not in {Answer.NO, Answer.WATCH}:
            return ()
        return tuple(line for line in self.lines if line.answer is self.answer)

    @property
    def explains(self) -> bool:
        """Whether there is more to say: part by part, or by which figures."""
        return self.several or any(line.decided for line in self.lines)

    @property
    def to_try(self) -> bool:
        """Whether trying it on would tell more than is known."""
        return self.try_on or self.answer in {Answer.NOT_KNOWN, Answer.WATCH}

    @property
    def ask(self) -> str:
        """What to measure, write down or try, in a few words."""
        if self.answer is not Answer.NOT_KNOWN:
            return ""
        tried = (TRY_IT_ON,) if self.try_on else ()
        return ask_words((*self.measure, *self.write_down, *tried))


@dataclass(frozen=True, slots=True, kw_only=True)
class Notes:
    """What stands once beside several verdicts."""

    cautions: tuple[str, ...]
    sources: tuple[str, ...]
    at_dentist: str


def notes_of(told: Iterable[Verdict]) -> Notes:
    """Return the cautions, sources and wishes of several verdicts, each once."""
    several = tuple(told)
    return Notes(
        cautions=_fullest(_once(c for one in several for c in one.cautions)),
        sources=_once(s for one in several for s in one.sources),
        at_dentist=next((o.at_dentist for o in several if o.at_dentist), ""),
    )


def _fullest(said: Sequence[str]) -> tuple[str, ...]:
    """Return sentences without those that another one begins with."""
    return tuple(
        one
        for one in said
        if not any(two != one and two.startswith(one.rstrip(".")) for two in said)
    )


def verdict(findings: Sequence[Finding]) -> Verdict:
    """Return what is told of an item's findings on one horse."""
    parts = told_parts(findings)
    held = holed(parts)
    answer = worst(parts)
    until = _first(f.good_until for f in parts) if answer is Answer.GOOD else None
    looked = _first(f.looked_until for f in parts) if answer is Answer.GOOD else None
    asks = asks_of(parts)
    stretch = stretch_of(parts)
    return Verdict(
        answer=answer,
        hole=held.hole if held else None,
        spare_longer=held.spare_longer if held else None,
        spare_shorter=held.spare_shorter if held else None,
        until=until,
        looked_until=None if until else looked,
        lines=_lines(parts),
        measure=to_measure(asks),
        try_on=TRY_IT_ON in asks,
        write_down=to_write_down(asks),
        at_dentist=ASK_JAW if ASK_JAW in asks else "",
        stale=stale_words(parts),
        short=why_short(parts, answer),
        coming=from_words(stretch),
        chance=chance_words(stretch, named=len(parts) > 1),
        known=_known(parts, answer),
        cautions=_once(caution for f in parts for caution in f.cautions),
        sources=tuple(
            SOURCES[key].text
            for key in _once(key for f in parts for key in f.sources)
            if key in SOURCES
        ),
    )


def would_tell(findings: Sequence[Finding]) -> str:
    """Return what is good of an item not known as a whole, or what would tell."""
    parts = told_parts(findings)
    return _known(parts, Answer.NOT_KNOWN) or ask_words(asks_of(parts))


def told_parts(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Return the findings without a headpiece that only repeats the cheekpieces."""
    cheek = next((f for f in findings if f.part == "cheekpieces"), None)
    if cheek is None:
        return tuple(findings)
    return tuple(
        f
        for f in findings
        if f.part != "headpiece"
        or f.answer is not cheek.answer
        or not f.why.endswith(cheek.why)
    )


def _lines(parts: Sequence[Finding]) -> tuple[Line, ...]:
    """Return the parts line by line; parts with the same words share one."""
    order = {(f.answer, f.why): at for at, f in reversed(list(enumerate(parts)))}

    def place(finding: Finding) -> int:
        return order[finding.answer, finding.why]

    alike = (tuple(of) for _, of in groupby(sorted(parts, key=place), place))
    return tuple(
        Line(
            parts=listed(part_word(f.part) for f in of),
            answer=of[0].answer,
            why=of[0].why,
            rests_on=_rests_on(of[0]),
            disagrees=of[0].disagrees,
            decided=decided_words(one for f in of for one in f.decided),
        )
        for of in alike
    )


def _rests_on(found: Finding) -> str:
    """Return what an answer rests on, where its reason does not begin with that."""
    said = found.why.lower().startswith(found.rests_on.lower())
    return "" if said else found.rests_on


def _known(parts: Sequence[Finding], answer: Answer) -> str:
    """Return which parts are good where the whole cannot be said."""
    if answer is not Answer.NOT_KNOWN:
        return ""
    good = [part_word(f.part) for f in parts if f.answer is Answer.GOOD]
    return f"{listed(good)} good" if good else ""


def _first(days: Iterable[date | None]) -> date | None:
    return min((day for day in days if day), default=None)


def _once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))


def verdicts(findings: Iterable[Finding]) -> dict[str, Verdict]:
    """Return the verdict on every item and set, by its name."""
    by_item: dict[str, list[Finding]] = {}
    for finding in findings:
        by_item.setdefault(finding.item, []).append(finding)
    return {item: verdict(of) for item, of in by_item.items()}


def spare_words(told: Verdict) -> str:
    """Return the holes to spare, each way, in words."""
    longer, shorter = told.spare_longer, told.spare_shorter
    if longer is None or shorter is None:
        return ""
    return f"{longer} to let down, {shorter} to take up"


def hole_words(findings: Sequence[Finding]) -> str:
    """Return the hole of an item or set, or those of its parts, as words to go on."""
    found = holed(findings)
    if found is not None:
        return f" on hole {found.hole}"
    parts = [f"{part_word(f.part)} on hole {f.hole}" for f in findings if f.hole]
    return f", {listed(parts)}" if parts else ""


def tried_words(
    thing: str, horse: str, *, worn: bool, seen: Sequence[tuple[str, str]], answer: str
) -> str:
    """Return what a try-on means, in a sentence or two.

    ``seen``: part and what was seen of it (sits_right, too_short, ...); ``answer``: on
    the whole, or nothing.
    """
    done = "put on" if worn else "held against"
    if not seen and not answer:
        return f"{thing} {done} {horse}: nothing seen."
    said = _seen_words(seen) or f"{_ANSWERS[answer]} on the whole"
    what = {word for _, word in seen}
    return f"{thing} {done} {horse}: {said}{_meaning(what, answer, worn=worn)}."


def _seen_words(seen: Sequence[tuple[str, str]]) -> str:
    """Return what was seen; one word where it is the same of every part."""
    if len({word for _, word in seen}) == 1:
        return seen[0][1].replace("_", " ")
    return ", ".join(
        f"{part_word(part)} {word.replace('_', ' ')}" for part, word in seen
    )


def _meaning(what: set[str], answer: str, *, worn: bool) -> str:
    if not worn:
        return ". A hint: only what is put on outranks the arithmetic"
    if what & {"too_short", "too_long"} or (answer == "no" and not what):
        return ". That outranks the arithmetic: no"
    if what & {"rubs", "wrong_place"} or answer in {"watch", "no"}:
        return "; only just, at best"
    return "; good until growth passes it"
