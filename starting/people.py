"""Who must be there for a step, in words."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final

from starting.programme import Stage

SECOND: Final = frozenset({"second_person", "second_person_first"})
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
    if stage.people == 1 and SECOND & set(asked):
        return "two people: one at the head who knows horses"
    return people_words(stage)
