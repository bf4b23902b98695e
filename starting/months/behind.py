"""What was written down, month by month."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from fitting.body import measure_by_key
from fitting.drawings.months import month_of
from starting.months.values import ALIKE_FROM, Line, Records, Spell, StepSeen, say_in


def lines_behind(records: Records, steps: Sequence[StepSeen]) -> Iterator[Line]:
    """Yield the lines of what was written, each on its day."""
    names = {step.stage: step.name for step in steps}
    yield from _steps(records, steps)
    yield from _sessions(records, names)
    yield from _measured(records)
    for worn in records.first_worn:
        said = f"{worn.what}, on {say_in(worn.on, worn.on)}."
        yield Line(on=worn.on, lead="First worn", said=said)
    for care in records.care:
        more = f". {care.said}" if care.said else ""
        said = f"on {say_in(care.on, care.on)}{more}"
        yield Line(on=care.on, lead=care.what, said=_stopped(said))
    for spell in records.spells:
        yield _spell(spell)


def _spell(spell: Spell) -> Line:
    first = spell.first
    end = ", no last day named"
    if spell.last:
        end = f" to {say_in(spell.last, first)}"
    return Line(on=first, lead=spell.what, said=f"from {say_in(first, first)}{end}.")


def _stopped(said: str) -> str:
    return said if said.endswith(".") else f"{said}."


def _steps(records: Records, steps: Sequence[StepSeen]) -> Iterator[Line]:
    """Yield when each step was begun and when it was established."""
    for step in steps:
        begun = records.begun.get(step.stage)
        if begun is not None:
            said = f"begun on {say_in(begun, begun)}."
            yield _of(step, begun, said, "under_way")
    days: dict[date, list[StepSeen]] = defaultdict(list)
    for step in steps:
        if step.established_on is not None and step.state == "established":
            days[step.established_on].append(step)
    for day, done in days.items():
        yield from _established(day, done)


def _established(day: date, done: Sequence[StepSeen]) -> Iterator[Line]:
    """Yield the steps established on a day, many in one line."""
    said = f"established on {say_in(day, day)}"
    if len(done) < ALIKE_FROM:
        for step in done:
            yield _of(step, day, f"{said}.", "established")
        return
    names = ", ".join(step.name for step in done)
    lead = f"{len(done)} steps"
    yield Line(on=day, lead=lead, said=f"{said}: {names}.", sign="established")


def _of(step: StepSeen, on: date, said: str, state: str) -> Line:
    return Line(on=on, lead=step.name, said=said, sign=state, stage=step.stage)


def _sessions(records: Records, names: Mapping[str, str]) -> Iterator[Line]:
    """Yield how many sessions each month had, by step."""
    months: dict[date, list[str]] = defaultdict(list)
    counts: dict[date, int] = defaultdict(int)
    for (month, stage), count in records.sessions.items():
        counts[month] += count
        months[month].append(f"{names.get(stage, stage)} {count}")
    for month, said in months.items():
        plural = "session" if counts[month] == 1 else "sessions"
        yield Line(
            on=month, lead=f"{counts[month]} {plural}:", said=f"{', '.join(said)}."
        )


def _measured(records: Records) -> Iterator[Line]:
    """Yield what was measured in each month, and on which days."""
    months: dict[date, tuple[set[date], dict[str, None]]] = {}
    for on, measure in sorted(records.measured):
        days, measures = months.setdefault(month_of(on), (set(), {}))
        days.add(on)
        measures[measure_by_key(measure).name.lower()] = None
    for days, measures in months.values():
        said = f"on {_days(sorted(days))}: {', '.join(measures)}."
        yield Line(on=min(days), lead="Measured", said=said)


def _days(days: Sequence[date]) -> str:
    """Return days of one month: ``5, 12 and 20 Nov``."""
    numbers = [str(on.day) for on in days[:-1]]
    last = say_in(days[-1], days[-1])
    return f"{', '.join(numbers)} and {last}" if numbers else last
