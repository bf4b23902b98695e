"""Where a try-on and the tape do not agree: both sides, and what can be done."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from fitting.body import measure_by_key
from fitting.contradictions import (
    Contradiction,
    measured_sentence,
    tried_sentence,
)
from fitting.fit import Finding
from fitting.models import Yard
from fitting.reads.tried import TriedRow
from fitting.reads.units import units_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """One contradiction as a row.

    ``said``: both sides, a sentence each; ``record``: the page of the try-on, below the
    horse's own pages, if it is known.
    """

    about: str
    item: str
    measure: str
    said: tuple[str, ...]
    record: str
    of_try_on: bool


def apart_of(found: Iterable[Contradiction], yard: Yard) -> tuple[Apart, ...]:
    """Return contradictions as rows."""
    units = units_of(yard)
    return tuple(
        Apart(
            about=measure_by_key(one.measure).name,
            item=one.item,
            measure=one.measure,
            said=(tried_sentence(one, units), measured_sentence(one, units)),
            record=one.record,
            of_try_on=one.of_try_on,
        )
        for one in found
    )


def also_apart(
    fits: Iterable[Finding], told: Sequence[Apart], tried: Sequence[TriedRow]
) -> tuple[Apart, ...]:
    """Return what findings say of a try-on that disagrees, where ``told`` does not.

    That is a saddle's, whose length is looked at by its own rule. A try-on speaks of
    an item and of the sets it is in: it is told once.
    """
    covered = {one.item for one in told}
    apart = [finding for finding in fits if finding.disagrees]
    known = {_key(one) for one in apart if one.item in covered}
    said = {_key(one): one for one in reversed(apart) if _key(one) not in known}
    return tuple(_by_finding(one, tried) for one in said.values())


def _key(one: Finding) -> tuple[str, str]:
    """Return what is alike where one try-on speaks of several: its day, its words."""
    return one.rests_on, one.disagrees


def _by_finding(one: Finding, tried: Sequence[TriedRow]) -> Apart:
    item = one.item
    rows = (row for row in tried if row.item == item and not row.struck)
    last = next(rows, None)
    return Apart(
        about=item,
        item=item,
        measure="",
        said=(one.why, one.disagrees),
        record=last.record if last else "",
        of_try_on=bool(last and last.pk),
    )
