"""Facts for outlooks: say only what matters."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from fitting.age import read_foaled
from fitting.body import Taken
from starting.diary import Entry
from starting.gates import CareDone, GateAnswer
from starting.outlook import HorseFacts, MeasuredText, Outlook, YardFacts, look_at_yard
from starting.programme import shipped
from starting.progress import Recorded, SessionDone

TODAY = date(2026, 11, 25)
ALL_DAYS = frozenset(range(7))
BEFORE_THE_BRIDLE = (
    "company", "first_headcollar", "feet", "led_with_dam", "ramp_with_dam", "weaned",
    "handling_block", "tied_and_groomed", "led_out", "travels", "stands_to_measure",
    "grow_at_grass", "yields_in_hand", "cloth_and_ropes", "body_check",
)  # fmt: skip
LAST_WEEK = TODAY - timedelta(days=7)


def measured(
    measure: str, on: date, value: float, method: str = "stick"
) -> MeasuredText:
    taken = Taken(measure=measure, on=on, readings=(value,), method=method)
    return MeasuredText(taken=taken, text=f"{value:g} mm")


def established(stages: tuple[str, ...], on: date) -> tuple[Recorded, ...]:
    return tuple(Recorded(stage=s, state="established", on=on) for s in stages)


def good_session(stage: str, on: date) -> SessionDone:
    checks = tuple((check.key, "yes") for check in shipped().stage(stage).checks)
    return SessionDone(on=on, stage=stage, minutes=8, checks=checks)  # type: ignore[arg-type]


def horse_facts(name: str = "Tansy", **fields: Any) -> HorseFacts:
    fields.setdefault("key", name.lower())
    fields.setdefault("she", "she")
    fields.setdefault("horse_type", "pony")
    fields.setdefault("foaled", read_foaled("2024-04-24"))
    if not fields.get("grown"):
        fields.setdefault("programme", shipped())
    return HorseFacts(name=name, **fields)


def yard_facts(*horses: HorseFacts, **fields: Any) -> YardFacts:
    fields.setdefault("free_days", ALL_DAYS)
    fields.setdefault("helper_days", frozenset())
    return YardFacts(
        name="Sallow End",
        slug="sallow-end",
        hemisphere="north",
        sessions_a_day=2,
        tack=fields.pop("tack", ()),
        made_up=fields.pop("made_up", ()),
        horses=horses,
        **fields,
    )


def entries(horse: HorseFacts, on: date = TODAY) -> dict[str, Entry]:
    (outlook,) = look_at_yard(yard_facts(horse), on)
    return {entry.key.partition("/")[2]: entry for entry in outlook.entries}


def bitted_soon(*care: CareDone) -> HorseFacts:
    """Return a filly with all done that comes before the bridle."""
    done = established(BEFORE_THE_BRIDLE, TODAY - timedelta(days=21))
    return horse_facts(records=done, care=care)


def teeth(ago: int, next_in: int | None = None) -> CareDone:
    booked = None if next_in is None else TODAY + timedelta(days=next_in)
    return CareDone(
        kind="teeth",
        on=TODAY - timedelta(days=ago),
        wolf_teeth="none",
        next_due=booked,
    )


def gate(outlook: Outlook, stage: str, name: str) -> GateAnswer:
    found = outlook.stage(stage)
    assert found is not None
    return next(g.answer for g in found.gates if g.gate == name)
