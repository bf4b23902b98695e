"""What is to be got for a horse, as entries of its diary."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from fitting.wanted import Thing, Wanted, Wants, things_of
from starting.diary import Entry, Task, get_entry
from starting.outlook.facts import HorseFacts, YardFacts


def with_things_to_get(
    entries: Sequence[Entry],
    yard: YardFacts,
    horse: HorseFacts,
    wants: Wants,
    on: date,
) -> tuple[Entry, ...]:
    """Return the entries with those of what is wanted, by day and key."""
    more = _to_get(yard, horse, wants, on)
    return tuple(sorted((*entries, *more), key=lambda e: (e.on, e.key)))


def _to_get(
    yard: YardFacts, horse: HorseFacts, wants: Wants, on: date
) -> Iterator[Entry]:
    for thing in things_of(wants.wanted):
        if thing.got_on is not None:
            continue
        task = Task(
            horse=horse.name,
            horse_key=horse.key,
            on=thing.by,
            because=_because(thing.first),
            path=f"/{yard.slug}/horses/{horse.key}/to-get/",
            forecast=thing.by > on,
            cautions=_cautions(thing),
        )
        key = f"{thing.kind}-{thing.part}" if thing.part else thing.kind
        yield get_entry(task, key, thing.with_article)


def _cautions(thing: Thing) -> tuple[str, ...]:
    every = (caution for one in thing.wanted for caution in one.cautions)
    return tuple(dict.fromkeys(every))


def _because(wanted: Wanted) -> str:
    """Return what it is needed for; the days ahead are within a year."""
    day = f"{wanted.needed_on.day} {wanted.needed_on:%b %Y}"
    if wanted.stage_name:
        return f"{wanted.stage_name} is planned for {day}: nothing here is good then."
    return f"{wanted.item} is good until about {day}: nothing else here is good then."
