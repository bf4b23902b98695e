"""Who must be there for a step, in words."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final

from starting.programme import Stage

FIRST: Final = "second_person_first"
SECOND: Final = frozenset({"second_person", FIRST})
AT_THE_HEAD: Final = "one at the head who knows horses"
COUNTED: Final = {1: "one person", 2: "two people", 3: "three people"}


def people_words(stage: Stage) -> str:
    """Return who must be there, in words."""
    least = COUNTED.get(stage.people, f"{stage.people} people")
    if stage.people_better > stage.people:
        better = COUNTED.get(stage.people_better, f"{stage.people_better} people")
        return f"{least}; better {better}"
    return least


def people_asked(stage: Stage, asked: Collection[str]) -> str:
    """Return who must be there, counting who is asked for on the day."""
    if stage.people < least_people(stage, asked):
        return f"two people: {AT_THE_HEAD}"
    return people_words(stage)


def people_of(stage: Stage) -> str:
    """Return who must be there by the programme alone, whichever horse it is."""
    asked = stage.gates_on_the_day
    if stage.people < least_people(stage, asked) and FIRST in asked:
        return f"two people at first, {AT_THE_HEAD}"
    return people_asked(stage, asked)


def least_people(stage: Stage, asked: Collection[str]) -> int:
    """Return how many must be there at least, with who is asked for on the day."""
    return max(stage.people, 2) if SECOND & set(asked) else stage.people
