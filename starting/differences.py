"""What one programme has otherwise than another, step by step, in words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

from starting.gates import gate_name
from starting.programme import Check, Programme, Stage
from starting.programme.ages import said_age, said_span

Kind = Literal["new", "gone", "changed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """One step that differs, and how, a sentence each."""

    stage: str
    name: str
    kind: Kind
    lines: tuple[str, ...]


def differences(before: Programme, after: Programme) -> tuple[Apart, ...]:
    """Return the steps in which two programmes differ, in the order of the second.

    Those that the second has no more stand last.
    """
    was = {stage.key: stage for stage in before.stages}
    now = {stage.key: stage for stage in after.stages}
    names = {key: stage.name for key, stage in (was | now).items()}
    found = []
    for key, stage in now.items():
        if key not in was:
            found.append(_apart(stage, "new", ("A step more.",)))
        elif lines := tuple(_lines(was[key], stage, names)):
            found.append(_apart(stage, "changed", lines))
    gone = (stage for key, stage in was.items() if key not in now)
    found += [_apart(stage, "gone", ("Taken out.",)) for stage in gone]
    return tuple(found)


def said_of_all(before: Programme, after: Programme) -> tuple[str, ...]:
    """Return how two programmes differ as a whole, a sentence each."""
    return tuple(_of_all(before, after))


def _of_all(before: Programme, after: Programme) -> Iterator[str]:
    if before.may_end_at != after.may_end_at:
        end = after.may_end_at
        name = after.stage(end).name if end else ""
        yield (
            f"It may end at {name}, where nobody is named to ride."
            if end
            else "It does not end before a rider."
        )
    if before.settle_days != after.settle_days:
        yield f"{after.settle_days} days to settle in, before anything is asked."
    if before.more_sessions != after.more_sessions:
        each = f"{after.more_sessions:g}"
        yield f"From four years on {each} good sessions are needed for each usual one."


def _apart(stage: Stage, kind: Kind, lines: Sequence[str]) -> Apart:
    return Apart(stage=stage.key, name=stage.name, kind=kind, lines=tuple(lines))


def _lines(was: Stage, now: Stage, names: Mapping[str, str]) -> Iterator[str]:
    for field, words in NUMBERS.items():
        old, new = words(getattr(was, field)), words(getattr(now, field))
        if getattr(was, field) != getattr(now, field):
            yield f"{TITLES[field]}: {new}, was {old}."
    yield from _clean_way(was.clean_days, now.clean_days)
    yield from _first_ones(was.first_minutes, now.first_minutes)
    yield from _before(was, now, names)
    for field in ("gates_dated", "gates_to_do", "gates_on_the_day"):
        yield from _gates(getattr(was, field), getattr(now, field))
    yield from _ticks(was.checks, now.checks)
    yield from _others(was, now)


def _months(value: float | None) -> str:
    return "none" if value is None else said_age(value)


def _two_months(value: tuple[float, float]) -> str:
    return said_span(*value)


def _two(value: tuple[int, int]) -> str:
    low, high = value
    return f"{low}" if low == high else f"{low} to {high}"


def _days(value: int) -> str:
    return f"{value} days" if value else "never"


def _optional(value: bool) -> str:  # noqa: FBT001  one field's value
    return "may be left out" if value else "belongs to it"


NUMBERS: Final[Mapping[str, Callable[[Any], str]]] = {
    "earliest_months": _months,
    "floor_months": _months,
    "typical_months": _two_months,
    "min_good_sessions": str,
    "typical_sessions": _two,
    "minutes": _two,
    "days_a_week": _two,
    "days_in_a_row": str,
    "refresh_after_days": _days,
    "people": str,
    "people_better": str,
    "optional": _optional,
}
TITLES: Final = {
    "earliest_months": "Earliest",
    "floor_months": "Never under",
    "typical_months": "Usually begun at",
    "min_good_sessions": "Good sessions at least",
    "typical_sessions": "Sessions usually",
    "minutes": "Minutes",
    "days_a_week": "Days a week",
    "days_in_a_row": "Days in a row at most",
    "refresh_after_days": "Gone over again after",
    "people": "People",
    "people_better": "People, better",
    "optional": "The step",
}
OTHERS: Final = {
    "name": "name",
    "aim": "aim",
    "stop_signs": "signs to stop",
    "cautions": "cautions",
    "tack_first_met": "tack first met",
    "rest_days": "length of the rest",
    "ends_at_months": "end",
    "evidence": "evidence",
    "two_a_day": "sessions a day",
}


def _clean_way(was: int, now: int) -> Iterator[str]:
    if was == now:
        return
    if not now:
        yield "Its full count is needed, whatever its first days are like."
    else:
        first = "first day" if now == 1 else f"first {now} days"
        yield f"Its {first} will do, if every tick is yes."


def _first_ones(
    was: tuple[int, int] | None, now: tuple[int, int] | None
) -> Iterator[str]:
    if was == now:
        return
    if now is None:
        yield "The first sessions are as long as the others."
    else:
        yield f"The first {now[0]} sessions at most {now[1]} minutes."


def _before(was: Stage, now: Stage, names: Mapping[str, str]) -> Iterator[str]:
    more = [key for key in now.prerequisites if key not in was.prerequisites]
    less = [key for key in was.prerequisites if key not in now.prerequisites]
    if more:
        yield f"Waits for {_listed(names.get(key, key) for key in more)} as well."
    if less:
        yield f"No longer waits for {_listed(names.get(key, key) for key in less)}."


def _gates(was: Sequence[str], now: Sequence[str]) -> Iterator[str]:
    if more := [gate for gate in now if gate not in was]:
        yield f"Asks as well: {_listed(map(gate_name, more))}."
    if less := [gate for gate in was if gate not in now]:
        yield f"No longer asks: {_listed(map(gate_name, less))}."


def _ticks(was: Sequence[Check], now: Sequence[Check]) -> Iterator[str]:
    old, new = {c.key: c.text for c in was}, {c.key: c.text for c in now}
    for key, text in new.items():
        if key not in old:
            yield f"A tick more: {text}."
        elif old[key] != text:
            yield f"A tick reworded: {text}, was: {old[key]}."
    for key, text in old.items():
        if key not in new:
            yield f"A tick less: {text}."


def _others(was: Stage, now: Stage) -> Iterator[str]:
    changed = (n for f, n in OTHERS.items() if getattr(was, f) != getattr(now, f))
    if said := _listed(changed):
        yield f"Changed in it: {said}."


def _listed(names: Iterable[str]) -> str:
    *others, last = list(names) or [""]
    return f"{', '.join(others)} and {last}" if others else last
