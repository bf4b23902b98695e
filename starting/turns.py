"""Whose turn it is, in one sentence: who goes today, who waits and until which day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from fitting.lending import near_day
from fitting.listed import listed

NAMED: Final = 4  # horses; of more that wait, the others are counted
COUNTS: Final = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
    "ten", "eleven", "twelve",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class InTurn:
    """One horse that had today's session, goes today, or waits until a day."""

    name: str
    turn: Literal["had", "goes", "waits"]
    until: date | None = None


def whose_turn(horses: Sequence[InTurn], sessions_a_day: int, today: date) -> str:
    """Return who goes today and who waits; empty: nobody waits for anybody.

    The order is the plan's: the longest way ahead first, then the fewest weekdays
    that serve a step, then the older (ours).
    """
    waits = [one for one in horses if one.turn == "waits"]
    if not waits:
        return ""
    goes = tuple(one.name for one in horses if one.turn == "goes")
    had = tuple(one.name for one in horses if one.turn == "had")
    return f"{_room(sessions_a_day, had)} {_goes(goes)}{_waits(waits, today)}."


def _room(sessions_a_day: int, had: Sequence[str]) -> str:
    if not had:
        return f"{_count(sessions_a_day)} a day here:"
    return f"{_count(sessions_a_day)} a day here, {listed(tuple(had))} had today's:"


def _goes(goes: tuple[str, ...]) -> str:
    if not goes:
        return ""
    if len(goes) > NAMED:
        return f"{COUNTS[len(goes)]} go today, the longest way ahead first; "
    verb = "goes" if len(goes) == 1 else "go"
    return f"{listed(goes)} {verb} today, with the longest way ahead; "


def _waits(waits: Sequence[InTurn], today: date) -> str:
    by_day = sorted(waits, key=lambda one: (one.until or date.max, one.name))
    days: dict[date | None, list[str]] = {}
    for one in by_day[:NAMED]:
        days.setdefault(one.until, []).append(one.name)
    said = [_wait(names, day, today) for day, names in days.items()]
    if len(by_day) > NAMED:
        said.append(f"{len(by_day) - NAMED} more after them")
    return "; ".join(said)


def _wait(names: Sequence[str], day: date | None, today: date) -> str:
    until = f"until {near_day(day, today)}" if day else "for a day nobody can say"
    return f"{listed(tuple(names))} wait{'s' if len(names) == 1 else ''} {until}"


def _count(sessions: int) -> str:
    word = COUNTS[sessions].capitalize()
    return f"{word} session{'' if sessions == 1 else 's'}"
