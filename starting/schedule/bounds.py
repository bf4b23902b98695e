"""The days before which a step cannot start, and why."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Final

from starting.programme.ages import said_age
from starting.schedule.days import reaches, say_day
from starting.schedule.values import Because, Binding, Hold, HorseAhead, StageAhead

if TYPE_CHECKING:
    from starting.programme import Stage

GATE_KINDS: Final[dict[str, Binding]] = {
    "age": "age",
    "rest": "rest",
    "off_work": "off_work",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """A first possible day, in days from today, and what sets it."""

    day: int
    kind: Binding
    words: str
    subject: str = ""
    dated: bool = True  # its day is told after its words

    def because(self, today: date) -> Because:
        """Return the bound as a reason."""
        when = say_day(today + timedelta(days=self.day))
        said = when in self.words or not self.dated
        text = self.words if said else f"{self.words}: {when}"
        return Because(kind=self.kind, text=text, subject=self.subject)


def lower_bounds(
    horse: HorseAhead, ahead: StageAhead, today: date
) -> tuple[Bound, ...]:
    """Return the dated bounds of a step: its gates and its age.

    A step under way is past its age; if a gate says otherwise, the gate holds it.
    """
    found = [
        Bound(
            day=(hold.until - today).days,
            kind=GATE_KINDS.get(hold.gate, "gate"),
            words=hold.why.rstrip("."),
            subject=hold.gate,
        )
        for hold in ahead.holds
        if hold.until is not None
    ]
    if ahead.under_way:
        return tuple(found)
    earliest = _earliest(ahead.stage, horse.born, today)
    typical = _typical(ahead.stage, horse.born, today)
    late = typical.day > earliest.day and not horse.as_early_as_allowed
    return (*found, earliest, typical) if late else (*found, earliest)


def _earliest(stage: Stage, born: date, today: date) -> Bound:
    if stage.earliest_days is None:
        on = reaches(born, stage.earliest_months)
        words = f"From {said_age(stage.earliest_months)}"
    else:
        on = born + timedelta(days=stage.earliest_days)
        words = f"From {stage.earliest_days} days old"
    return Bound(day=(on - today).days, kind="age", words=words, subject=stage.key)


def _typical(stage: Stage, born: date, today: date) -> Bound:
    months = stage.typical_months[0]
    return Bound(
        day=(reaches(born, months) - today).days,
        kind="typical_age",
        words=f"Usual from {said_age(months)}",
        subject=stage.key,
    )


def cannot_say(ahead: StageAhead) -> Because | None:
    """Return why nobody can say when a step starts; None: there are dates."""
    held: Hold | None = next((one for one in ahead.holds if one.until is None), None)
    if held is not None:
        why = held.why.rstrip(".")
        text = f"Nobody can say when yet: {why}"
        return Because(kind="cannot_say", text=text, subject=held.gate)
    if ahead.stage.kind == "rest" and _has_no_length(ahead.stage):
        text = "Nobody can say how long: the programme names no length for this rest"
        return Because(kind="cannot_say", text=text, subject=ahead.stage.key)
    return None


def _has_no_length(stage: Stage) -> bool:
    return stage.rest_days is None and stage.ends_at_months is None
