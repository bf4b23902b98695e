"""What is wrong with a step as a yard changed it, in plain words beside its field."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from starting.programme.order import below, circle_in, out_of_reach
from starting.programme.values import MOUNTED_FLOOR_MONTHS

Table = dict[str, Any]
Steps = Mapping[str, Table]

AGES: Final = ("earliest_months", "typical_months")
BEFORE: Final = "prerequisites"
REFRESH_LEAST_DAYS: Final = 7  # ours: a yard with one free day a week keeps up
DAYS_OF_A_WEEK: Final = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """What is wrong, and beside which field it is said; no field: the whole step."""

    field: str
    text: str


def faults_of(usual: Steps, steps: Steps, key: str) -> tuple[Fault, ...]:
    """Return what is wrong with one changed step among its programme's steps.

    Args:
        usual: the steps of the shipped programme that it is made from.
        steps: the steps as changed, each by its key.
        key: the step that was changed.
    """
    step = steps[key]
    return (
        *_of_ages(step),
        *(_of_sessions(step) if step["kind"] == "sessions" else ()),
        *_of_ticks(step),
        *_of_order(usual, steps, key),
    )


def faults_without(usual: Steps, steps: Steps, key: str) -> tuple[Fault, ...]:
    """Return why a step cannot be taken out; nothing: it can."""
    step = steps[key]
    if step["kind"] == "check":
        text = f"{step['name']} stays: body, teeth and people are looked at there."
        return (Fault(field="", text=text),)
    ridden = step.get("floor_months", 0) >= MOUNTED_FLOOR_MONTHS
    if ridden and not step.get("optional", False):
        text = f"{step['name']} stays: no step with a rider on is jumped over."
        return (Fault(field="", text=text),)
    if len(steps) == 1:
        return (Fault(field="", text="It is the only step there is."),)
    left = {one: steps[one] for one in steps if one != key}
    return tuple(_of_checks(usual, left))


def never_opens(step: Table) -> Fault | None:
    """Return why a step could never be begun, or would shut all after it for good."""
    ends = step.get("ends_at_months")
    if ends is not None and step["earliest_months"] >= ends:
        text = f"It ends at {ends:g} months, so it could never begin."
        return Fault(field="earliest_months", text=text)
    if 0 < step.get("refresh_after_days", 0) < REFRESH_LEAST_DAYS:
        text = (
            f"Under {REFRESH_LEAST_DAYS} days it would be gone over again for ever"
            " where a yard has one free day a week, and no step after it could begin."
            " 0 means never."
        )
        return Fault(field="refresh_after_days", text=text)
    return None


def _of_ages(step: Table) -> Iterator[Fault]:
    least, floor = step["earliest_months"], step.get("floor_months", 0)
    low, high = step["typical_months"]
    if least < floor:
        text = (
            f"Not under {floor:g} months: that floor is set for the horse's sake"
            " (ours), and no way up goes below it."
        )
        yield Fault(field="earliest_months", text=text)
    if low < least:
        text = f"It cannot usually begin before its earliest, {least:g} months."
        yield Fault(field="typical_months", text=text)
    if high < low:
        yield Fault(field="typical_months", text="The later month goes second.")


def _of_sessions(step: Table) -> Iterator[Fault]:
    least = step["min_good_sessions"]
    low, high = step["typical_sessions"]
    if least < 1:
        text = "One good session at least: else nothing establishes the step."
        yield Fault(field="min_good_sessions", text=text)
    if high < low:
        yield Fault(field="typical_sessions", text="The larger number goes second.")
    if high < least:
        text = f"It needs {least} good ones, so it usually takes {least} or more."
        yield Fault(field="typical_sessions", text=text)
    shortest, longest = step["minutes"]
    if longest < max(shortest, 1):
        yield Fault(field="minutes", text="The longer one goes second, 1 or more.")
    few, many = step["days_a_week"]
    if not 1 <= many <= DAYS_OF_A_WEEK or few > many:
        text = "1 to 7 days a week, the smaller number first."
        yield Fault(field="days_a_week", text=text)
    if step["days_in_a_row"] < 1:
        yield Fault(field="days_in_a_row", text="1 day at least.")


def _of_ticks(step: Table) -> Iterator[Fault]:
    texts = [check["text"].casefold() for check in step["checks"]]
    if not texts:
        text = "One tick at least: else nothing says that the step is established."
        yield Fault(field="checks", text=text)
    if len(set(texts)) < len(texts):
        yield Fault(field="checks", text="The same tick stands here twice.")


def _of_order(usual: Steps, steps: Steps, key: str) -> Iterator[Fault]:
    shut = never_opens(steps[key])
    if shut is not None:
        yield shut
    waits = {name: step[BEFORE] for name, step in steps.items()}
    if ring := circle_in(waits):
        yield Fault(field=BEFORE, text=_ring_words(ring, steps, key))
        return
    if missing := [name for name in waits[key] if name not in steps]:
        text = f"{missing[0]} is no step of this programme."
        yield Fault(field=BEFORE, text=text)
        return
    never = frozenset(name for name, step in steps.items() if never_opens(step))
    if key in out_of_reach(waits, never) and shut is None:
        first = next(name for name in waits[key] if name in out_of_reach(waits, never))
        text = f"Nobody could come to it: {steps[first]['name']} can never be begun."
        yield Fault(field=BEFORE, text=text)
    yield from _of_checks(usual, steps)


def _ring_words(ring: tuple[str, ...], steps: Steps, key: str) -> str:
    """Return a circle in words, beginning with the step that was changed."""
    at = ring.index(key) if key in ring else 0
    names = [steps[one]["name"] for one in (*ring[at:], *ring[:at])]
    if len(names) == 1:
        return f"{names[0]} cannot wait for itself."
    waiting = ", which waits for ".join([*names[1:], names[0]])
    return f"They would wait in a circle: {names[0]} waits for {waiting}."


def _of_checks(usual: Steps, steps: Steps) -> Iterator[Fault]:
    """Find the first step that no longer comes after a check it came after."""
    was = {name: step[BEFORE] for name, step in usual.items()}
    now = {name: step[BEFORE] for name, step in steps.items()}
    for name, step in steps.items():
        needed = (below(was, name) - below(now, name)) & steps.keys()
        lost = [one for one in needed if steps[one]["kind"] == "check"]
        if lost and step.get("floor_months"):
            check = steps[lost[0]]["name"]
            text = (
                f"{step['name']} has to come after {check}, near or far: there the"
                " horse is looked at before it is asked for more."
            )
            yield Fault(field=BEFORE, text=text)
            return
