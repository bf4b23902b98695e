"""One part on one horse: what was seen on it outranks what is reckoned."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from fitting.fit.answers import (
    Answer,
    Finding,
    NoRule,
    Rule,
    middle_of,
)
from fitting.fit.asked import Answered, Asked
from fitting.fit.gaps import with_gap
from fitting.fit.headcollars import HEADCOLLAR_KIND, unlooked
from fitting.fit.in_short import LOOK_AGAIN, seen_short
from fitting.fit.lasting import (
    Measured,
    SeenToFit,
)
from fitting.fit.nosebands import NosebandRule
from fitting.fit.rests import Rests
from fitting.fit.staleness import days_since
from fitting.fit.straps import StrapRule
from fitting.tryons import Saw, last_held, last_worn, standing_worn

SAID: Final = {
    "sits_right": "it sat right",
    "too_short": "it was too short",
    "too_long": "it was too long",
    "wrong_place": "it lay in the wrong place",
    "rubs": "it rubbed",
    "only_just": "it only just fitted",
    "no": "it did not fit",
}
_NOT: Final = frozenset({"too_short", "too_long", "no"})


def answered(asked: Asked, rule: Rule | NoRule) -> Answered:
    """Return the answer on a part: by a try-on that stands, else by arithmetic."""
    if asked.tried:
        saw = standing_worn(asked.wearer.tryons, asked.spoken_of, asked.on)
        now = _unworn(asked, rule) if saw is None else _worn(asked, rule, saw)
        found = with_held(asked, now.found)
    else:
        now = _unworn(asked, rule)
        found = now.found
    if found.part != asked.part:
        found = replace(found, part=asked.part)
    return now if found is now.found else replace(now, found=found)


def with_held(asked: Asked, found: Finding) -> Finding:
    """Return the finding with what was last seen of the part held against the horse."""
    held = last_held(asked.wearer.tryons, asked.spoken_of, asked.on)
    if held is None:
        return found
    heard = f"held against on {say_day(held.on)}: {SAID[held.verdict]}"
    return replace(found, rests_on="; ".join(filter(None, (found.rests_on, heard))))


def _unworn(asked: Asked, rule: Rule | NoRule) -> Answered:
    """By arithmetic, or not known."""
    found = _reckoned(asked, rule)
    if found.answer is Answer.NOT_KNOWN:
        return Answered(asked=asked, found=_not_looked_at(asked, found))
    if isinstance(rule, NoRule):
        return Answered(asked=asked, found=found)
    size = Measured(sizes=asked.sizes, measure=rule.measure)
    return Answered(asked=asked, found=found, rule=rule, size=size)


def _not_looked_at(asked: Asked, found: Finding) -> Finding:
    """A foal's headcollar that sat right, but was not looked at since, is watched."""
    saw = last_worn(asked.wearer.tryons, asked.spoken_of, asked.on)
    if asked.kind != HEADCOLLAR_KIND or saw is None or saw.verdict != "sits_right":
        return found
    unseen = unlooked(asked.wearer, saw.on, asked.on)
    if not unseen:
        return found
    why = f"{_said(saw)} {unseen}"
    return replace(found, answer=Answer.WATCH, why=why, hole=saw.hole, short=LOOK_AGAIN)


def _reckoned(asked: Asked, rule: Rule | NoRule) -> Finding:
    """By arithmetic on the day alone, or not known."""
    if isinstance(rule, NoRule):
        return _not_known(asked, rule)
    body = asked.sizes.at(rule.measure, asked.on)
    known = asked.wearer.growth.known(rule.measure)
    if body is None or not (known or _taught(asked, rule)):
        return _unmeasured(asked, rule)
    rests = _rests(asked, rule, known=known)
    return rule.finding(body, asked.on, worn=False, rests=rests)


def _rests(asked: Asked, rule: Rule, *, known: bool) -> Rests:
    if not known:
        return Rests(f"{rule.measure_name}, by what was tried on")
    if (rule.measure, "stands") in asked.wearer.standing:
        return Rests(f"{rule.measure_name}, measured")
    since = days_since(asked.wearer, rule.measure, asked.on)
    return Rests(
        f"{rule.measure_name}, measured, some time ago", stale=True, stale_days=since
    )


def _taught(asked: Asked, rule: Rule) -> bool:
    """Whether a try-on that told of the size still stands."""
    growth, until = asked.wearer.growth, asked.spoken_of.until
    return any(day <= asked.on <= until(day) for day in growth.taught_on(rule.measure))


def _worn(asked: Asked, rule: Rule | NoRule, saw: Saw) -> Answered:
    if isinstance(rule, NosebandRule) and saw.gap_mm is not None:
        rule = replace(rule, measured_gap_mm=None)
    if saw.verdict in _NOT:
        now = Answered(asked=asked, found=_seen_only(asked, rule, saw, Answer.NO))
    elif saw.verdict == "sits_right":
        now = _sat_right(asked, rule, saw)
    else:
        now = Answered(asked=asked, found=_at_best_watch(asked, rule, saw))
    return replace(now, found=_as_seen(asked, rule, saw, now.found))


def _as_seen(asked: Asked, rule: Rule | NoRule, saw: Saw, found: Finding) -> Finding:
    """Return the finding with the gap seen under it, and where the tape disagrees."""
    disagrees = _disagreement(asked, rule, saw)
    gap = rule.gap if isinstance(rule, StrapRule | NoRule) else None
    return replace(
        with_gap(found, gap, saw.gap_mm),
        rests_on=f"put on {say_day(saw.on)}",
        disagrees=disagrees,
        ask=rule.measure_name
        if disagrees and not isinstance(rule, NoRule)
        else found.ask,
    )


def _sat_right(asked: Asked, rule: Rule | NoRule, saw: Saw) -> Answered:
    """Good until growth passes it; without sizes, for as long as the try-on stands."""
    fitted = None if isinstance(rule, NoRule) else rule.fitted_mm(saw.hole)
    if isinstance(rule, NoRule) or fitted is None:
        return _right_while_it_stands(asked, rule, saw)
    if isinstance(rule, StrapRule):
        rule = replace(rule, worn_hole=saw.hole)
    size = SeenToFit(
        sizes=asked.sizes,
        measure=rule.measure,
        seen_on=saw.on,
        fitted_mm=fitted,
        half_mm=rule.half_mm,
    )
    body = size.on(asked.on)
    if body is None:
        return _right_while_it_stands(asked, rule, saw)
    found = rule.finding(body, asked.on, worn=True)
    since = "" if found.answer is Answer.GOOD else " Since then:"
    found = replace(found, why=f"{_said(saw)}{since} {found.why}")
    return Answered(asked=asked, found=found, rule=rule, size=size, worn=True)


def _right_while_it_stands(asked: Asked, rule: Rule | NoRule, saw: Saw) -> Answered:
    found = _seen_only(asked, rule, saw, Answer.GOOD)
    until = saw.until + timedelta(days=1)
    return Answered(asked=asked, found=replace(found, good_until=until))


def _at_best_watch(asked: Asked, rule: Rule | NoRule, saw: Saw) -> Finding:
    reckoned = _reckoned(asked, rule)
    if reckoned.answer is Answer.NOT_KNOWN:
        return replace(_seen_only(asked, rule, saw, Answer.WATCH), ask=reckoned.ask)
    no = reckoned.answer is Answer.NO
    return replace(
        reckoned,
        answer=Answer.NO if no else Answer.WATCH,
        why=f"{_said(saw)} {reckoned.why}",
        stale=False,
        short=reckoned.short if no else seen_short(saw.verdict),
    )


def _seen_only(asked: Asked, rule: Rule | NoRule, saw: Saw, answer: Answer) -> Finding:
    """The bare word of a try-on, with the numbers of arithmetic beside it if any."""
    reckoned = _reckoned(asked, rule)
    return replace(
        reckoned,
        answer=answer,
        why=_said(saw),
        chance_no=None,
        hole=saw.hole,
        spare_longer=None,
        spare_shorter=None,
        ask="",
        stale=False,
        decided=(),
        short=seen_short(saw.verdict),
    )


def _not_known(asked: Asked, rule: NoRule) -> Finding:
    return Finding(
        item=asked.item,
        kind=asked.kind,
        part=asked.part,
        answer=Answer.NOT_KNOWN,
        why=rule.why,
        ask=rule.ask,
        cautions=rule.cautions,
        sources=rule.sources,
    )


def _unmeasured(asked: Asked, rule: Rule) -> Finding:
    name = rule.measure_name
    return _not_known(
        asked,
        NoRule(
            measure=rule.measure,
            why=f"{_capital(name)} was never measured, and it was not put on lately.",
            ask=name,
            cautions=rule.cautions,
            sources=rule.sources,
        ),
    )


def _disagreement(asked: Asked, rule: Rule | NoRule, saw: Saw) -> str:
    """Return both in a sentence when they are further apart than both errors.

    Without sizes: those are told once, in the yard's units, beside the tape's.
    Ours: the try-on's error is half the good window, the measurement's the SD of the
    size reckoned from it on the day of the try-on.
    """
    if isinstance(rule, NoRule) or not asked.wearer.growth.known(rule.measure):
        return ""
    measured = asked.wearer.growth.by_readings()  # the try-on has taught the rest
    body, fitted = measured.at(rule.measure, saw.on), rule.fitted_mm(saw.hole)
    if body is None or fitted is None:
        return ""
    off = middle_of(body) - fitted
    apart = {
        "sits_right": abs(off) - rule.half_mm,
        "too_short": -off,
        "too_long": off,
    }.get(saw.verdict)
    if apart is None or apart <= body.sd:
        return ""
    than = "short" if off > 0 else "long"
    was = f"too {than} that day" if saw.verdict == "sits_right" else "not"
    by_tape = f"by what was measured ({rule.measure_name})"
    return f"But {by_tape} it was {was}: measure it again."


def _said(saw: Saw) -> str:
    hole = "" if saw.hole is None else f" on hole {saw.hole}"
    return f"Put on {say_day(saw.on)}{hole}, {SAID[saw.verdict]}."


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def say_day(day: date) -> str:
    """Return a day as it is said: ``26 Nov 2026``."""
    return f"{day.day} {day:%b %Y}"
