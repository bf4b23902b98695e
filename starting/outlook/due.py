"""What is to be measured next: useful from, due by, and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.age import months_old
from fitting.body import stands_days
from fitting.fit import Finding
from fitting.tryons import body_of
from starting.gates import MeasureStands
from starting.measuring import Due
from starting.outlook.body import FIRST_MEASURES, tooth_change
from starting.outlook.facts import HorseFacts

BEFORE_A_STAGE_DAYS: Final = 7  # ours: a measurement is taken a week before its step

End = tuple[date, str]  # a day a measure is due by, and why
_MEASURE_OF: Final = {  # of gates not fresh:
    "condition_score": "condition_score",
    "rider_load": "weight",
    "weight_trend": "weight",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """A step that needs a measure, and the day it is planned to start."""

    measure: str
    stage_name: str
    start: date


def measure_asked(gate: str) -> str:
    """Return the measure that a gate of a step asks for; empty: none."""
    subject, _, what = gate.partition(":")
    return what if subject == "fresh" else _MEASURE_OF.get(gate, "")


def due_measures(
    horse: HorseFacts,
    stands: Sequence[MeasureStands],
    needs: Sequence[Need],
    in_use: Sequence[Finding],
    on: date,
) -> tuple[Due, ...]:
    """Return what is to be measured: useful from, due by, and why.

    A measure is asked for once it was ever taken, or when a step ahead needs it; of a
    youngster never measured, those whose growth is shown are asked for at once (ours).
    Grown horses, kept for comparison, are asked for nothing, and no horse for what
    needs no tape at its age.
    """
    if horse.grown:
        return ()
    found = (_due(horse, stand, needs, in_use, on) for stand in stands)
    return tuple(due for due in found if due is not None)


def _due(
    horse: HorseFacts,
    stand: MeasureStands,
    needs: Sequence[Need],
    in_use: Sequence[Finding],
    on: date,
) -> Due | None:
    never = stand.last_on is None
    if never and stand.measure in FIRST_MEASURES and _days(horse, stand, on):
        return Due(
            measure=stand.measure,
            useful_from=on,
            due_by=on,
            because="never measured",
            at_once=True,
        )
    needed = list(_needed(stand, needs))
    if never and not needed:
        return None
    ends = [*needed, *_stood(horse, stand, on), *_outgrown(stand, in_use)]
    asked = [end for end in ends if _days(horse, stand, max(end[0], on))]
    if not asked:
        return None
    by, because = min(asked)
    return Due(
        measure=stand.measure,
        useful_from=min(_useful_from(horse, stand, by), by),
        due_by=by,
        because=because,
    )


def _days(horse: HorseFacts, stand: MeasureStands, on: date) -> int | None:
    """Return for how long a measurement of a day stands; None: not asked then."""
    months = months_old(horse.foaled.last, on)
    return stands_days(stand.measure, months, ridden=horse.rider_named)


def _useful_from(horse: HorseFacts, stand: MeasureStands, by: date) -> date:
    """Return the day from which a new reading tells something: half its standing."""
    if stand.last_on is not None and stand.until is not None:
        return stand.last_on + (stand.until - stand.last_on) / 2
    return by - timedelta(days=(_days(horse, stand, by) or 0) // 2)


def _needed(stand: MeasureStands, needs: Sequence[Need]) -> Iterator[End]:
    """Return the steps ahead for which no measurement will stand on their first day."""
    for need in needs:
        will_stand = stand.until is not None and need.start <= stand.until
        if need.measure == stand.measure and not will_stand:
            by = need.start - timedelta(days=BEFORE_A_STAGE_DAYS)
            yield by, f"needed for {need.stage_name}"


def _stood(horse: HorseFacts, stand: MeasureStands, on: date) -> Iterator[End]:
    """Return the end of the last measurement's standing."""
    if stand.last_on is None or stand.until is None:
        return
    change = tooth_change(horse, on)
    if change is not None and stand.until == change - timedelta(days=1):
        yield stand.until, "a tooth change was noted since"
    else:
        days = (stand.until - stand.last_on).days
        yield stand.until, f"a measurement stands {days} days"


def _outgrown(stand: MeasureStands, in_use: Sequence[Finding]) -> Iterator[End]:
    """Return the last days on which what is worn is sure to be good.

    What was only seen to fit is left out: another try-on tells, no measurement does.
    """
    for finding in in_use:
        of_it = body_of(finding.kind, finding.part) == stand.measure
        if of_it and finding.good_until is not None and finding.chance_no is not None:
            last = finding.good_until - timedelta(days=1)
            yield last, f"{finding.item} may no longer fit after it"
