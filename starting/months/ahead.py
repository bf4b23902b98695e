"""What is planned, month by month: each date is a forecast, never a permission."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final

from fitting.age import MONTHS_A_YEAR
from fitting.drawings.months import month_of
from starting.diary import GIVE_BACK, named_in_title, said_in_title
from starting.months.values import Ahead, EntrySeen, Line, StepSeen, say_in
from starting.schedule.values import HORIZON_MONTHS

LEADS: Final = {"measure": "Measure", "try_on": "Try on", "get": "Buy or borrow"}


def lines_ahead(ahead: Ahead) -> Iterator[Line]:
    """Yield the lines of what is planned, each on its day."""
    for step in ahead.dated:
        yield from _step(step)
    opens: dict[date, list[str]] = {}
    for entry in ahead.entries:
        said = said_in_title(entry.title, ahead.horse)
        what = named_in_title(entry.kind, said)
        if entry.kind == "stage_opens":
            opens.setdefault(entry.on, []).append(what)
        elif entry.kind != "stage_starts":  # its step says so already
            yield _entry(entry, said, what)
    for on, names in opens.items():
        lead = f"Opens on {say_in(on, on)}:"
        yield Line(on=on, lead=lead, said=f"{', '.join(names)}.", ahead=True)


def _step(step: StepSeen) -> Iterator[Line]:
    """Yield where a step starts and where it ends; in one line if in one month."""
    start, finish = step.start, step.finish
    if step.state == "under_way":
        start = None
    if start and finish and month_of(finish) == month_of(start):
        yield _line(step, start, _together(step, start, finish))
        return
    if start:
        yield _line(step, start, f"from about {say_in(start, start)}.")
    if finish:
        yield _line(step, finish, f"likely done {_ends(step, finish)}.")


def _line(step: StepSeen, on: date, said: str) -> Line:
    return Line(
        on=on,
        lead=step.name,
        said=said,
        sign=step.shown_state,
        stage=step.stage,
        ahead=True,
    )


def _together(step: StepSeen, start: date, finish: date) -> str:
    if start == finish:
        return f"{_ends(step, finish)}."
    return f"from about {say_in(start, start)}, likely done {_ends(step, finish)}."


def _ends(step: StepSeen, likely: date) -> str:
    """Return the likely day and between which days it lies; those may not be drawn.

    One time in ten it is sooner than the first, one in ten later than the last.
    """
    about = f"about {say_in(likely, likely)}"
    early, late = step.finish_early, step.finish_late
    if early is None:
        return about
    if late is None:
        years = HORIZON_MONTHS // MONTHS_A_YEAR
        return f"{about}, perhaps not within {years} years"
    if late == likely:
        return (
            f"{about}, perhaps from {say_in(early, likely)}" if early < late else about
        )
    if early == likely:
        return f"{about}, perhaps as late as {say_in(late, likely)}"
    return f"{about}, between {say_in(early, likely)} and {say_in(late, likely)}"


def _entry(entry: EntrySeen, said: str, what: str) -> Line:
    when = say_in(entry.on, entry.on)
    lead = LEADS.get(entry.kind, "")
    if said.startswith(GIVE_BACK):
        lead = "Give back"
    if lead:
        return Line(on=entry.on, lead=lead, said=f"{what}, by {when}.", ahead=True)
    return Line(on=entry.on, lead=_capital(what), said=f"due {when}.", ahead=True)


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
