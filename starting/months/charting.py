"""The steps of a span of months as the straps of a drawing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from fitting.age import Foaled, reaches_months
from fitting.drawings.ink import Said
from fitting.drawings.months import Span, month_after
from fitting.drawings.signs import sign_of
from fitting.drawings.timeline import Month, Rested, Timeline
from fitting.drawings.timeline_straps import Strap
from starting.months.table import age_said
from starting.months.values import Ahead, Spell, StepSeen

ALONE: Final = frozenset({"check", "event"})
NOT_DRAWN: Final = (
    " Early and late ends are not known here: only the likely day is marked."
)


def steps_shown(
    ahead: Ahead, begun: Mapping[str, date], span: Span
) -> tuple[StepSeen, ...]:
    """Return the steps that have a day within a span, by their first day."""
    shown = [step for step in ahead.stages if _meets(step, begun, span)]
    return tuple(sorted(shown, key=lambda step: _first(step, begun) or date.max))


def span_of(months: Sequence[date]) -> Span:
    """Return the days of months given by their first days."""
    return Span(first=months[0], last=month_after(months[-1]))


def _first(step: StepSeen, begun: Mapping[str, date]) -> date | None:
    if step.ahead and step.state != "under_way":
        return step.start
    return begun.get(step.stage) or step.established_on or step.start


def _last(step: StepSeen, span: Span) -> date | None:
    """Return the likely last day; one beyond all planning ends with the span."""
    if not step.ahead:
        return step.established_on if step.state == "established" else None
    return step.finish or (span.last if step.start else None)


def _meets(step: StepSeen, begun: Mapping[str, date], span: Span) -> bool:
    first, last = _first(step, begun), _last(step, span)
    if first is None or last is None:
        return False
    return first < span.last and last >= span.first


def chart_of(
    ahead: Ahead,
    begun: Mapping[str, date],
    spells: Sequence[Spell],
    months: Sequence[date],
    foaled: Foaled,
) -> Timeline:
    """Return the drawing of one youngster over some months (their first days)."""
    span = span_of(months)
    straps = straps_of(ahead, begun, span)
    return Timeline(
        months=tuple(_month(first, foaled) for first in months),
        today=ahead.on,
        straps=straps,
        rests=rests_of(spells, span),
        said=_said(ahead, len(straps), months),
        under="months old",
    )


def straps_of(ahead: Ahead, begun: Mapping[str, date], span: Span) -> tuple[Strap, ...]:
    """Return the steps of a span as straps, each with the row that holds it."""
    shown = steps_shown(ahead, begun, span)
    rows = {step.stage: at for at, step in enumerate(shown)}
    names = {step.stage: step.name for step in ahead.stages}
    return tuple(
        replace(_strap(step, begun, span, names), held_by=_row_before(rows, step))
        for step in shown
    )


def rests_of(spells: Sequence[Spell], span: Span) -> tuple[Rested, ...]:
    """Return the rests and times off work that reach into a span."""
    return tuple(_rested(spell, span) for spell in spells if _in(spell, span))


def _row_before(rows: Mapping[str, int], step: StepSeen) -> int | None:
    """Return the row of the step that holds one, if it stands further up."""
    at = rows.get(step.held_by)
    return at if at is not None and at < rows[step.stage] else None


def _strap(
    step: StepSeen, begun: Mapping[str, date], span: Span, names: Mapping[str, str]
) -> Strap:
    first = _first(step, begun)
    last = _last(step, span) or span.last
    return Strap(
        name=step.name,
        sign=sign_of(step.shown_state),
        start=first,
        likely=last if step.finish or not step.ahead else month_after(span.last),
        why=_why(step, names),
        early=step.finish_early,
        late=step.finish_late,
        open_end=step.finish_early is not None and step.finish_late is None,
        done=not step.ahead,
        alone=step.kind in ALONE,
        gate="gate-met" if step.may_start or not step.ahead else "gate-shut",
        opens=opens_on(step),
        ahead=step.ahead and step.state != "under_way",
        rest=step.kind == "rest",
    )


def opens_on(step: StepSeen) -> date | None:
    """Return the day the last of its dated gates opens, if it starts no sooner."""
    days = (gate.opens_on for gate in step.gates if gate.kind == "dated")
    last = max((day for day in days if day), default=None)
    if not step.ahead or last is None or step.start is None or step.start < last:
        return None
    return last


def _why(step: StepSeen, names: Mapping[str, str]) -> str:
    """Return what holds a step, shortly; the table has it whole."""
    if not step.ahead:
        return "established"
    if step.state == "under_way":
        plural = "" if step.sessions_left == 1 else "s"
        return f"under way, about {step.sessions_left} session{plural} to come"
    if step.held_by in names:
        return f"after {names[step.held_by]}"
    return step.because.rstrip(".")


def _month(first: date, foaled: Foaled) -> Month:
    age = age_said(foaled, first).removesuffix(" mo")
    exact = foaled.first == foaled.last
    return Month(
        first=first,
        said=age if exact else "",
        birthday=_birthday(first, foaled) if exact else None,
    )


def _birthday(first: date, foaled: Foaled) -> date | None:
    years = first.year - foaled.last.year
    if years < 1:
        return None
    day = reaches_months(foaled, 12 * years)
    return day if first <= day < month_after(first) else None


def _in(spell: Spell, span: Span) -> bool:
    return spell.first < span.last and (spell.last or span.last) >= span.first


def _rested(spell: Spell, span: Span) -> Rested:
    end = min(spell.last or span.last, span.last)
    first = max(spell.first, span.first)
    said = "rest" if spell.what == "Rest" else "off work"
    return Rested(span=Span(first=first, last=end), said=said)


def _said(ahead: Ahead, count: int, months: Sequence[date]) -> Said:
    many = "One step" if count == 1 else f"{count} steps"
    ends = (
        " The hollow part runs from the early to the late end."
        if ahead.drawn
        else NOT_DRAWN
    )
    return Said(
        uid="months",
        title=f"{ahead.horse}, {months[0]:%B %Y} to {months[-1]:%B %Y}",
        desc=(
            f"{many} as straps along the months; the buckle is the likely last day."
            f"{ends} The table below has every day and its reason."
        ),
    )
