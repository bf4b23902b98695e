"""What somebody is to look at before a step goes on, as visits in the diary."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Final

from starting.diary import Entry, Task, care_entry
from starting.outlook.facts import HorseFacts, YardFacts
from starting.outlook.to_dos import CARE_NAMES
from starting.outlook.values import StageLook
from starting.progress import Look

# Who looks at it; tack is put on by the keeper, or seen with the saddle.
VISITS: Final[Mapping[Look, str]] = {
    "vet": "vet",
    "teeth": "teeth",
    "back": "back",
    "feet": "farrier",
    "saddle": "saddle_fitter",
}


def with_looks(
    entries: Sequence[Entry],
    yard: YardFacts,
    horse: HorseFacts,
    stages: Sequence[StageLook],
    on: date,
) -> tuple[Entry, ...]:
    """Return the entries with the visits that held steps wait for, due at once.

    A visit that somebody named a day for stays on that day.
    """
    found = {entry.key: entry for entry in entries}
    for entry in _looks(yard, horse, stages, on):
        named = found.get(entry.key)
        if named is None or named.forecast:
            found[entry.key] = entry
    return tuple(sorted(found.values(), key=lambda e: (e.on, e.key)))


def _looks(
    yard: YardFacts, horse: HorseFacts, stages: Sequence[StageLook], on: date
) -> Iterator[Entry]:
    for what, because in _asked(stages).items():
        kind = VISITS[what]
        visits = sum(care.kind == kind for care in horse.care)
        task = Task(
            horse=horse.name,
            horse_key=horse.key,
            on=on,
            because=because,
            path=f"/{yard.slug}/horses/{horse.key}/care/",
        )
        yield care_entry(task, f"{kind}-{visits + 1}", CARE_NAMES[kind])


def _asked(stages: Sequence[StageLook]) -> dict[Look, str]:
    """Return what is to be looked at, with the reason of the first step that waits."""
    found: dict[Look, str] = {}
    begun = (s for s in stages if s.state in {"under_way", "established"})
    for stage in begun:
        for held, gate in zip(stage.held, stage.gates, strict=False):
            for what in held.waits_for:
                if what in VISITS:
                    found.setdefault(what, gate.why)
    return found
