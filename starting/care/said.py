"""What a record just written in means, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from starting.care.teeth import (
    MINDS_THE_BIT,
    counted,
    counts_text,
    healing_text,
    teeth_on,
)
from starting.care.told import gelding_text, open_more, quiet_until
from starting.care.values import LOOKED_OVER, Whose, say_date
from starting.gates import CareDone, GateAnswer, Off, RestSpan, back_on
from starting.gates.gelding import gelded
from starting.gates.mouth import FIRST_BIT_DAYS
from starting.outlook.to_dos import CARE_NAMES
from starting.outlook.work import OPEN_REST_DAYS
from starting.progress.after_incident import WAIT_DAYS


def visit_said(
    visit: CareDone, visits: Sequence[CareDone], whose: Whose, on: date
) -> str:
    """Return what a visit just written in means."""
    parts = [f"Written in: {CARE_NAMES.get(visit.kind, visit.kind)}{_state(visit)}."]
    later = [v.on for v in visits if v.kind == visit.kind and v.on > visit.on]
    if later:
        parts.append(f"A later one, on {say_date(max(later))}, is the one that counts.")
        return " ".join(parts)
    parts += _meaning(visit, visits, whose, on)
    if visit.next_due:
        parts.append(f"Next on {say_date(visit.next_due)}: it stands in the diary.")
    return " ".join(parts)


def _state(visit: CareDone) -> str:
    if not visit.clear:
        return ", something left open"
    return ", clear" if visit.kind in LOOKED_OVER else ""


def _meaning(
    visit: CareDone, visits: Sequence[CareDone], whose: Whose, on: date
) -> Iterator[str]:
    if visit.kind == "teeth":
        if not whose.grown:
            yield _teeth_mean(visits, whose, on)
    elif visit.kind == "vaccination" and on <= quiet_until(visit.on):
        end = say_date(quiet_until(visit.on))
        yield f"Nothing new with {whose.name} until {end}."
    elif visit.kind == "tooth_change":
        yield MINDS_THE_BIT
    elif visit.kind == "gelding":
        stands = gelded(visits, on)
        if stands and (stands.new_from is None or on < stands.new_from):
            yield gelding_text(stands, whose)
    elif not visit.clear:
        yield open_more(whose)


def _teeth_mean(visits: Sequence[CareDone], whose: Whose, on: date) -> str:
    teeth = teeth_on(visits, on)
    counts = counted(teeth, FIRST_BIT_DAYS, on)
    if counts.until is None and not teeth.heals:
        return "No bit until a visit is written down with nothing left open."
    if counts.answer is GateAnswer.MET and counts.until:
        return f"They count for a first bit until {say_date(counts.until)}."
    if teeth.heals:
        return healing_text(teeth.heals, counts, whose)
    return f"For a first bit: {counts_text(teeth, counts, whose, on)}"


def off_words(off: Off) -> str:
    """Return from when until when a horse is off work."""
    start = f"from {say_date(off.start)}"
    if off.cleared_on:
        return f"{start}, cleared on {say_date(off.cleared_on)}"
    if off.cleared_by:
        return f"{start} until cleared by {off.cleared_by}"
    if off.until:
        return f"{start}, back on {say_date(off.until)}"
    return f"{start}, with no day back yet"


def off_said(off: Off, whose: Whose, on: date) -> str:
    """Return what off work just written in means."""
    said = f"Written in: off work {off_words(off)}."
    back = back_on(off)
    if back is not None and back <= on:
        return f"{said} It holds {whose.name} back no more."
    if off.start > on:
        return said
    then = f"before {say_date(back)}" if back else "until then"
    if back is None and not off.cleared_by:
        then = "until a day back is written in"
    return f"{said} Nothing is to be done with {whose.name} {then}."


def rest_words(rest: RestSpan) -> str:
    """Return from when until when a horse is turned away."""
    end = f"to {say_date(rest.end)}" if rest.end else "with no last day yet"
    return f"from {say_date(rest.start)} {end}"


def rest_said(rest: RestSpan) -> str:
    """Return what a rest just written in means."""
    said = f"Written in: rest {rest_words(rest)}."
    if rest.end:
        return f"{said} The plan goes on after that."
    return f"{said} The plan counts on {OPEN_REST_DAYS} days (ours) until you name one."


def incident_said(what: str, whose: Whose, *, grave: bool) -> str:
    """Return what an incident just written in means."""
    waits = "It moves no date by itself."
    if grave and not whose.grown:
        waits = (
            f"Steps with a rider or on lines wait {WAIT_DAYS} days (ours), and until"
            " vet and teeth, and the saddle once one was worn, were looked at after it."
        )
    return (
        f"Written in: {what}. {waits} If {whose.name} is hurt or"
        f" lame, ring your vet and write {whose.her} off work."
    )
