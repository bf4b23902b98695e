"""Outlooks become dated entries of the diary."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from typing import Final, Literal
from uuid import UUID, uuid5

from starting.measuring import Due, MeasuringDay

EntryKind = Literal["measure", "try_on", "care", "get", "stage_opens", "stage_starts"]
Work = Literal["none", "in_hand", "line", "mounted"]

# Ours, drawn once: another value would make every entry a new one.
ENTRY_NAMESPACE: Final = UUID("7c0f1a52-4b0e-4f0a-9d7e-2f6f3a1c8e45")

NAMED_IN_A_TITLE: Final = 2  # measures: a month's view has room for no more
MEASURE: Final = "Next: measure "
AND_WRITE: Final = ", and write the readings in."
OVERDUE: Final = " (overdue)"
GIVE_BACK: Final = "give back "
# What stands between the horse and the thing or the step in a title.
TO_DO: Final[Mapping[str, str]] = {
    "measure": "measure ",
    "try_on": "try on ",
    "get": "get ",
    "stage_opens": "gates open for ",
    "stage_starts": "starts ",
}
BOOK: Final = "Next: book the visit, and write in what was found."
BRING: Final = "Bring: "
FORECAST: Final = "Forecast: will move."
NEVER_PERMISSION: Final = (
    "An entry is never permission: what the step needs first is asked on the day."
)
NOTEBOOK: Final = (
    "This plan is a notebook, not a diagnosis. If the horse is lame, sore, losing "
    "weight, bleeding or behaving oddly, stop and call your vet."
)
BACKING: Final = (
    "Backing is dangerous. Do it with an experienced helper, a hat to current "
    "standard and body protector, never alone."
)
# Hat marks: BSI, member note, January 2016; body protector: EN 13158 level 3.
# Gloves, boots, neck strap: common practice, no published source.
_ON_FOOT: Final = ("hat to a current standard", "gloves", "boots")
WORN: Final[Mapping[Work, tuple[str, ...]]] = {
    "none": (),
    "in_hand": _ON_FOOT,
    "line": _ON_FOOT,
    "mounted": (*_ON_FOOT, "body protector", "neck strap on the horse"),
}
MOUNTED_PEOPLE: Final = 2  # at least: never alone, as BACKING says
_COUNTS: Final = ("nobody", "one", "two", "three", "four")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One dated entry. ``key`` names the task, not the day: a re-plan moves it."""

    key: str  # e.g. "pennyroyal/stage_starts/roller"
    horse: str
    on: date
    kind: EntryKind
    title: str
    text: str
    forecast: bool
    path: str = ""  # the page it leads to, below the site's address
    due_since: date | None = None  # an entry due keeps its day, then says overdue
    after: tuple[str, ...] = ()  # keys of entries this one depends on
    others: tuple[str, ...] = ()  # more names in the text, left out of plain feeds


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """Whose entry it is, its day and its reason: the same for every kind."""

    horse: str  # the name that is shown
    horse_key: str  # what stays when the horse is renamed
    on: date
    because: str = ""
    path: str = ""
    forecast: bool = False
    after: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()  # of the numbers in ``because``
    others: tuple[str, ...] = ()  # other horses and people named in ``because``
    bring: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """What an entry says of a step. ``worn`` empty: what is usual for the work."""

    key: str
    name: str
    work: Work
    people: int = 1
    people_better: int = 1
    worn: tuple[str, ...] = ()
    on_the_day: tuple[str, ...] = ()  # gates asked when the session begins, in words


@lru_cache(maxsize=8192)  # a yard is published again and again
def entry_uid(yard: str, key: str, site_host: str) -> str:
    """Return the UID: a UUID of yard and task, at the public host."""
    return f"{uuid5(ENTRY_NAMESPACE, json.dumps([yard, key]))}@{site_host}"


def task_key(horse_key: str, kind: EntryKind, task: str) -> str:
    """Return the key ``horse/kind/task``; a slash inside a part is written ``%2F``.

    Raises:
        ValueError: a part is empty, so that two tasks could share a key.
    """
    if not horse_key or not task:
        raise ValueError(f"a key needs a horse and a task: {horse_key!r}, {task!r}")
    return "/".join(
        part.replace("%", "%25").replace("/", "%2F") for part in (horse_key, kind, task)
    )


def horse_key_of(key: str) -> str:
    """Return the horse's part of an entry's key."""
    return key.partition("/")[0].replace("%2F", "/").replace("%25", "%")


def task_of(key: str) -> str:
    """Return the task's part of an entry's key."""
    return key.rpartition("/")[2].replace("%2F", "/").replace("%25", "%")


def measure_tasks(
    days: Sequence[MeasuringDay], taken: Mapping[str, int]
) -> tuple[str, ...]:
    """Return one task name for each measuring day of one horse, earliest day first.

    A day is named by the measure that made it necessary (due first, then by name)
    and how many days of it there will then have been: ``mouth_width-4``. Unlike the
    set of measures, or the place in the list, that stays when something else is taken.

    Args:
        days: the planned days, ascending.
        taken: measure to the number of days it was measured on so far.

    Raises:
        ValueError: a day on which nothing is due.
    """
    seen = dict(taken)
    tasks = []
    for day in days:
        leader = min(day.due, key=_urgency).measure
        for measure in {due.measure for due in day.due}:
            seen[measure] = seen.get(measure, 0) + 1
        tasks.append(f"{leader}-{seen[leader]}")
    return tuple(tasks)


def _urgency(due: Due) -> tuple[date, str]:
    return due.due_by, due.measure


def measure_entry(task: Task, name: str, measures: Sequence[str]) -> Entry:
    """Return the entry of a measuring day; ``name`` is one of ``measure_tasks``."""
    what = ", ".join(measures)
    lines = (f"{MEASURE}{what}{AND_WRITE}",)
    said = " and ".join(measures)
    if len(measures) > NAMED_IN_A_TITLE:
        said = f"{measures[0]} and {len(measures) - 1} more"
    return _entry(task, "measure", name, said, lines)


def measures_said(entry: Entry) -> str:
    """Return the measures that an entry asks for, as its text names them."""
    lines = (line for line in entry.text.split("\n") if line.startswith(MEASURE))
    return next(lines, "").removeprefix(MEASURE).removesuffix(AND_WRITE)


def said_in_title(title: str, horse: str) -> str:
    """Return what a title says after the horse: "measure mouth and girth"."""
    return title.removesuffix(OVERDUE).removeprefix(f"{horse}: ")


def named_in_title(kind: str, said: str) -> str:
    """Return only the thing or the step that a title names after the horse."""
    return said.removeprefix(GIVE_BACK if kind == "care" else TO_DO[kind])


def try_on_entry(task: Task, item_key: str, item: str) -> Entry:
    """Return the entry of a try-on."""
    lines = (f"Next: try on {item}, and write in how each part sits.",)
    return _entry(task, "try_on", item_key, item, lines)


def care_entry(task: Task, care_key: str, care: str, do: str = BOOK) -> Entry:
    """Return the entry of a visit: teeth, vet, farrier ...; ``do``: what comes next."""
    return _entry(task, "care", care_key, care, (do,))


def get_entry(task: Task, thing_key: str, thing: str) -> Entry:
    """Return the entry of a thing to buy or borrow."""
    lines = (f"Next: buy or borrow {thing}, and try it on before it is used.",)
    return _entry(task, "get", thing_key, thing, lines)


def give_back_entry(task: Task, loan_key: str, item: str, do: Sequence[str]) -> Entry:
    """Return the entry of a loan that goes back; ``do``: what is done with it then."""
    lines = (*do, "Next: give it back, and tick on its page that it is back.")
    return _entry(task, "care", loan_key, f"{GIVE_BACK}{item}", lines)


def stage_opens_entry(task: Task, step: Step) -> Entry:
    """Return the entry of the day on which a step's dated gates stand open."""
    next_step = f"Next: see what else {step.name} needs."
    lines = (next_step, *_step_lines(step))
    return _entry(_with_caution(task, step), "stage_opens", step.key, step.name, lines)


def stage_starts_entry(task: Task, step: Step) -> Entry:
    """Return the entry of the day on which the plan starts a step."""
    next_step = f"Next: open {step.name} and answer its gates for the day."
    lines = (next_step, *_step_lines(step))
    return _entry(_with_caution(task, step), "stage_starts", step.key, step.name, lines)


def _with_caution(task: Task, step: Step) -> Task:
    if step.work != "mounted" or BACKING in task.cautions:
        return task
    return replace(task, cautions=(*task.cautions, BACKING))


def _step_lines(step: Step) -> Iterable[str]:
    least = MOUNTED_PEOPLE if step.work == "mounted" else 1
    if step.work != "none":
        yield f"Who must be there: {_who(max(step.people, least), step.people_better)}."
        worn = ", ".join(step.worn or WORN[step.work])
        yield f"What must be worn: {worn}."
    if step.on_the_day:
        yield f"Ask on the day: {'; '.join(step.on_the_day)}."
    yield NEVER_PERMISSION


def _who(people: int, better: int) -> str:
    who = "one capable adult"
    if people > 1:
        who = f"{_count(people)} capable adults, one at the horse's head or the gate"
    return f"{who}; {_count(better)} are better" if better > people else who


def _count(people: int) -> str:
    return _COUNTS[people] if people < len(_COUNTS) else str(people)


def _entry(
    task: Task, kind: EntryKind, name: str, what: str, lines: Iterable[str]
) -> Entry:
    """Reason and next step first, then who and what, the notebook caution last."""
    forecast = (FORECAST,) if task.forecast else ()
    bring = (f"{BRING}{'; '.join(task.bring)}.",) if task.bring else ()
    said = (task.because, *lines, *bring, *forecast, *task.cautions, NOTEBOOK)
    return Entry(
        key=task_key(task.horse_key, kind, name),
        horse=task.horse,
        on=task.on,
        kind=kind,
        title=f"{task.horse}: {TO_DO.get(kind, '')}{what}",
        text="\n".join(line for line in said if line),
        forecast=task.forecast,
        path=task.path,
        after=task.after,
        others=task.others,
    )
