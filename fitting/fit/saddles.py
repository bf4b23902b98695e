"""The rule of a saddle: no past the last rib, seen on the horse, seen again in time."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from fitting.fit.answers import (
    EDGE_MM,
    Answer,
    Chances,
    Finding,
    Judged,
    NoRule,
    middle_of,
)
from fitting.fit.asked import Asked
from fitting.fit.edges import OURS, Decided, Edges
from fitting.fit.in_short import LOOK_AGAIN, NOT_SURE, seen_short
from fitting.fit.judging import SAID, say_day, with_held
from fitting.fit.rests import UNSAID, Rests
from fitting.fit.saddle_checks import (
    GIRTH_CHANGE,
    NOT_ON,
    WIDTH_CHANGE,
    changes_since,
    fitter_came,
    last_check,
    others_ask,
    unmeasured_then,
)
from fitting.fit.staleness import days_since
from fitting.fit.tack import Part
from fitting.growth import Spread
from fitting.tryons import Saw
from fitting.units import show_off

MEASURE: Final = "back_length"
NAME: Final = "back length"
WITHIN: Final = "saddle.within"
SOURCES: Final = ("sms_recheck", "greve_dyson_2015", "common_practice", "ours")
SADDLE: Final = (
    "A qualified saddle fitter has to confirm it, on this horse, and again as the back"
    " changes: no length says how wide a tree should be. Sore, ruffled or dry patches"
    " under it: leave it off, and ask your vet."
)
CAUTIONS: Final = (SADDLE,)
TRY_IT_ON: Final = "try it on"
_SHORT: Final = {Answer.NO: "too long", Answer.WATCH: NOT_SURE}


@dataclass(frozen=True, slots=True, kw_only=True)
class SaddleRule:
    """How far back a saddle's panel reaches on one horse: all that a tape can say."""

    item: str
    kind: str
    part: str
    panel_mm: float
    measure: str = MEASURE
    measure_name: str = NAME
    edges: Edges = OURS
    cautions: tuple[str, ...] = CAUTIONS
    sources: tuple[str, ...] = SOURCES

    @property
    def half_mm(self) -> float:
        """How closely it is seen where a panel ends (mm)."""
        return self.edges.value(WITHIN)

    def fitted_mm(self, hole: int | None) -> float | None:
        """Return nothing: every back from the panel's length on is long enough."""
        return None

    def chances(self, body: Spread) -> Chances:
        """Return the chances that it ends before the last rib, and that it does not."""
        past = body.below(self.panel_mm - EDGE_MM)
        return Chances(good=1.0 - past, no=past)

    def judge(self, body: Spread, on: date, *, worn: bool) -> Judged:
        """Return the answer of its length alone for a back of that spread."""
        chances = self.chances(body)
        return chances.judged(chances.answer)

    def finding(
        self, body: Spread, on: date, *, worn: bool, rests: Rests = UNSAID
    ) -> Finding:
        """Return the answer of its length alone, with its reason."""
        judged, back = self.judge(body, on, worn=worn), middle_of(body)
        return Finding(
            item=self.item,
            kind=self.kind,
            part=self.part,
            answer=judged.answer,
            why=self._say(back, judged.answer),
            chance_no=judged.chance_no,
            cautions=self.cautions,
            rests_on=rests.on,
            stale=rests.stale,
            stale_days=rests.stale_days,
            sources=self.sources,
            size_mm=self.panel_mm,
            needs_to_mm=back,
            short=_SHORT.get(judged.answer, ""),
        )

    def _say(self, back_mm: float, answer: Answer) -> str:
        off = back_mm - self.panel_mm
        than = "shorter" if off >= 0 else "longer"
        by = show_off(abs(off), self.edges.told_in)
        said = f"Its panel is {by} {than} than the back up to the last rib"
        if answer is Answer.WATCH:
            return f"{said}, which is not known closely enough to be sure."
        return f"{said}." if answer is Answer.GOOD else f"{said}: too long."


def rule(item: str, kind: str, part: Part, edges: Edges = OURS) -> SaddleRule | NoRule:
    """Return the rule of a saddle's panel, or what has to be written down first."""
    if part.length_mm is None:
        return NoRule(
            measure=MEASURE,
            why="The length of its panel is not written down.",
            ask="length of the panel",
            cautions=CAUTIONS,
            sources=SOURCES,
        )
    return SaddleRule(
        item=item,
        kind=kind,
        part=part.part,
        panel_mm=part.length_mm,
        edges=edges,
    )


def finding(asked: Asked, rule: SaddleRule | NoRule) -> Finding:
    """Return how a saddle sits: good only once it was seen on, and not for long.

    What was last seen outranks the tape while it stands; but never once the back or
    the girth has changed.
    """
    length = _length(asked, rule)
    saw = last_check(asked.wearer.tryons, asked.spoken_of, asked.on)
    stands = saw is not None and asked.on <= saw.until
    if saw is None or (length.answer is Answer.NO and not stands):
        found = length if length.answer is Answer.NO else _unseen(asked, length)
    elif saw.verdict in NOT_ON:
        found = _not_on(asked, length, saw)
    else:
        found = _seen(asked, length, saw)
    return with_held(asked, found)


def _seen(asked: Asked, length: Finding, saw: Saw) -> Finding:
    """Return the answer of a saddle that could be put on when it was last seen."""
    changed = changes_since(asked.wearer.growth, saw.on, asked.on, asked.wearer.edges)
    if changed:
        return _changed(asked, length, saw, changed)
    if asked.on > saw.until:
        return _overdue(asked, length, saw)
    if saw.verdict != "sits_right":
        return _by_sight(asked, length, saw, Answer.WATCH, _said(asked, saw))
    return _right(asked, length, saw)


def _length(asked: Asked, rule: SaddleRule | NoRule) -> Finding:
    """Return what is known of its length alone."""
    body = asked.sizes.at(MEASURE, asked.on)
    if isinstance(rule, NoRule):
        return _bare(asked, rule.why, rule.ask)
    if body is None or not asked.wearer.growth.known(MEASURE):
        return _bare(asked, "Back length was never measured.", NAME, rule.panel_mm)
    stands = dict(asked.wearer.standing).get(MEASURE) == "stands"
    since = None if stands else days_since(asked.wearer, MEASURE, asked.on)
    old = "" if stands else ", some time ago"
    rests = Rests(f"{NAME}, measured{old}", not stands, since)
    return rule.finding(body, asked.on, worn=False, rests=rests)


def _bare(asked: Asked, why: str, ask: str, panel_mm: float | None = None) -> Finding:
    return Finding(
        item=asked.item,
        kind=asked.kind,
        part=asked.part,
        answer=Answer.NOT_KNOWN,
        why=why,
        ask=ask,
        cautions=CAUTIONS,
        sources=SOURCES,
        size_mm=panel_mm,
    )


def _unseen(asked: Asked, length: Finding) -> Finding:
    came = fitter_came(asked.wearer.tryons, asked.on)
    seen = "It was never put on: only on the horse can it be seen to fit."
    if came is not None:
        seen = (
            f"A saddle fitter came on {say_day(came)}, but that this saddle was put on"
            " by then is not written down."
        )
    return replace(
        length,
        answer=Answer.NOT_KNOWN,
        why=f"{length.why} {seen}",
        ask=length.ask or TRY_IT_ON,
        stale=False,
        short="",
    )


def _not_on(asked: Asked, length: Finding, saw: Saw) -> Finding:
    """A no; of some time ago not known: it may fit by now, but nobody has seen it."""
    why = _said(asked, saw)
    if asked.on <= saw.until:
        return _by_sight(asked, length, saw, Answer.NO, why)
    why = f"{why} Nobody has looked since."
    found = _by_sight(asked, length, saw, Answer.NOT_KNOWN, why)
    return replace(found, ask=TRY_IT_ON)


def _changed(
    asked: Asked, length: Finding, saw: Saw, changed: tuple[str, ...]
) -> Finding:
    why = (
        f"{_said(asked, saw)} Since then {' and '.join(changed)}: have it looked at"
        " again before it is used."
    )
    found = _by_sight(asked, length, saw, Answer.WATCH, why)
    return replace(found, decided=_of_changes(asked), short=LOOK_AGAIN)


def _of_changes(asked: Asked) -> tuple[Decided, ...]:
    """Return how much back and girth may change under a saddle."""
    return asked.wearer.edges.decided(WIDTH_CHANGE, GIRTH_CHANGE)


def _overdue(asked: Asked, length: Finding, saw: Saw) -> Finding:
    days, stood = (asked.on - saw.on).days, (saw.until - saw.on).days
    why = (
        f"{_said(asked, saw)} That is {days} days ago, and it stands {stood} (ours):"
        f" due again. {_capital(others_ask(days))}"
    )
    found = _by_sight(asked, length, saw, Answer.WATCH, why)
    return replace(found, stale=True, stale_days=days, short=LOOK_AGAIN)


def _right(asked: Asked, length: Finding, saw: Saw) -> Finding:
    due = f"To be looked at again by {say_day(saw.until)}."
    found = _by_sight(
        asked, length, saw, Answer.GOOD, f"{_said(asked, saw)} {due} {length.why}"
    )
    found = replace(
        found,
        good_until=saw.until + timedelta(days=1),
        decided=_of_changes(asked),
        ask=unmeasured_then(asked.wearer.growth, saw.on, asked.wearer.edges),
    )
    if length.answer is not Answer.NO:
        return found
    disagrees = "But by its length alone it is a no: measure it again."
    return replace(found, disagrees=disagrees, ask=NAME)


def _by_sight(
    asked: Asked, length: Finding, saw: Saw, answer: Answer, why: str
) -> Finding:
    """Return an answer that rests on what was seen, not on the tape."""
    how = "saddle fitter" if _is_fitter(asked, saw) else "put on"
    return replace(
        length,
        answer=answer,
        why=why,
        ask="",
        chance_no=None,
        stale=False,
        rests_on=f"{how} {say_day(saw.on)}",
        short=seen_short(saw.verdict),
    )


def _is_fitter(asked: Asked, saw: Saw) -> bool:
    return fitter_came(asked.wearer.tryons, saw.on) == saw.on


def _said(asked: Asked, saw: Saw) -> str:
    day = say_day(saw.on)
    if _is_fitter(asked, saw) and saw.verdict == "sits_right":
        return f"A saddle fitter saw it on {day}, and left nothing open."
    if _is_fitter(asked, saw):
        return f"A saddle fitter came on {day}: {SAID[saw.verdict]}."
    return f"Put on {day}, {SAID[saw.verdict]}."


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
