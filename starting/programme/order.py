"""What stands on what: steps put in order, and circles found."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from graphlib import CycleError, TopologicalSorter
from typing import Any

Waits = Mapping[str, Sequence[str]]  # each step, and the steps it waits for


def circle_in(waits: Waits) -> tuple[str, ...]:
    """Return steps that wait for each other in a ring, each for the next; or none."""
    try:
        TopologicalSorter(waits).prepare()
    except CycleError as error:
        ring = tuple(reversed(error.args[1]))
        return ring[:-1]
    return ()


def below(waits: Waits, key: str) -> frozenset[str]:
    """Return every step that one waits for, near and far; itself only in a circle."""
    found: set[str] = set()
    todo = list(waits.get(key, ()))
    while todo:
        one = todo.pop()
        if one not in found:
            found.add(one)
            todo.extend(waits.get(one, ()))
    return frozenset(found)


def in_order(steps: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return steps after all that they wait for, else in the order they stood in.

    Steps that wait in a circle, or for a step that is not there, stay as they stood.
    """
    waits = {step["key"]: _names(step.get("prerequisites")) for step in steps}
    if out_of_reach(waits, frozenset()):
        return list(steps)  # whoever reads the steps refuses them
    left, done, found = list(steps), set[str](), list[dict[str, Any]]()
    while left:
        step = next(s for s in left if done.issuperset(waits[s["key"]]))
        left.remove(step)
        done.add(step["key"])
        found.append(step)
    return found


def _names(value: object) -> list[str]:
    """Return a list's names; what is none stands for a step that is not there."""
    names = value if isinstance(value, list) else [value]
    return [str(name) for name in names]


def out_of_reach(waits: Waits, never: frozenset[str]) -> frozenset[str]:
    """Return the steps nobody can come to.

    Those that can never be done, those in a circle, those that wait for a step that
    is not there, and all that wait for any of them.
    """
    reached: set[str] = set()
    before = -1
    while before < len(reached):
        before = len(reached)
        reached |= {
            key
            for key, needed in waits.items()
            if key not in never and reached.issuperset(needed)
        }
    return frozenset(waits) - reached
