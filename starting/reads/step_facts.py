"""What a step asks for in numbers and days, and its signs to stop."""

from __future__ import annotations

from dataclasses import dataclass

from starting.gates import GateAnswer
from starting.models.log import STOP_LEVELS
from starting.outlook import StageLook
from starting.people import people_asked, people_of
from starting.programme import Stage
from starting.reads.steps import say


@dataclass(frozen=True, slots=True, kw_only=True)
class StopRow:
    """The signs that ask for the same."""

    level: str
    texts: tuple[str, ...]


def stop_rows(stage: Stage) -> tuple[StopRow, ...]:
    """Return a step's stop signs, by what they ask for."""
    found = (
        (label, tuple(sign.text for sign in stage.stop_signs if sign.level == level))
        for level, label in STOP_LEVELS
    )
    return tuple(StopRow(level=label, texts=texts) for label, texts in found if texts)


def how(stage: Stage, look: StageLook | None = None) -> tuple[tuple[str, str], ...]:
    """Return how many, how long, how often, and who must be there, perhaps now."""
    facts = [("Who must be there", _who(stage, look))]
    if stage.kind == "sessions":
        usual = span(stage.typical_sessions)
        good = f"{stage.min_good_sessions} good ones at least; usually {usual}"
        good += _clean_way(stage.clean_days)
        a_row = f", at most {stage.days_in_a_row} in a row"
        facts += [
            ("Sessions", good),
            ("How often", f"{_a_week(stage)}{a_row}"),
            ("How long", f"{span(stage.minutes)} minutes{_at_first(stage)}"),
        ]
        if stage.refresh_after_days:
            again = f"after {stage.refresh_after_days} days without it"
            facts.append(("Go over again", again))
    return tuple(facts)


def _who(stage: Stage, look: StageLook | None) -> str:
    """Return who must be there: of a horse that is planned, at its next session."""
    if look is None:
        return people_of(stage)
    still = [one.gate for one in look.gates if one.answer is not GateAnswer.MET]
    return people_asked(stage, still)


def _clean_way(days: int) -> str:
    """Return that a few clean days will do; empty: they will not."""
    if not days:
        return ""
    first = "its first" if days == 1 else f"its first {days}"
    plural = "" if days == 1 else "s"
    return f"; or {first} clean day{plural}, every tick yes and no sign to stop"


def _a_week(stage: Stage) -> str:
    plural = "" if stage.days_a_week[1] == 1 else "s"
    return f"{span(stage.days_a_week)} day{plural} a week"


def _at_first(stage: Stage) -> str:
    sessions, most = stage.first_minutes or (0, 0)
    return f", the first {sessions} at most {most}" if sessions else ""


def span(pair: tuple[int, int]) -> str:
    """Return two numbers as a range: ``3 to 5``; the same twice: ``3``."""
    low, high = pair
    return f"{low}" if low == high else f"{low} to {high}"


def when(look: StageLook | None) -> tuple[tuple[str, str], ...]:
    """Return the likely days, and what they rest on."""
    if look is None or look.start is None:
        return (("Because", look.because),) if look and look.because else ()
    facts = [("Likely start", say(look.start)), ("Likely finish", say(look.finish))]
    if look.finish_early:
        late = say(look.finish_late) or "more than five years on"
        reach = f"{say(look.finish_early)} to {late}"
        facts.append(("Finish, eight times in ten (ours)", reach))
    return tuple(f for f in (*facts, ("Because", look.because)) if f[1])
