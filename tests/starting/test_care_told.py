"""What the care page says of the teeth is what the gates answer, day by day."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.age import read_foaled
from starting.care import Told, Visit, Whose, records_told, say_date
from starting.care.teeth import counted, teeth_on
from starting.gates import CareDone
from starting.gates.mouth import FIRST_BIT_DAYS, HEALING_DAYS, LATER_BIT_DAYS
from tests.starting.making_gates import ASTRIDE, MOUTHING, ON, gate

BRACKEN = Whose(name="Bracken", she="she")


def days(number: int) -> timedelta:
    return timedelta(days=number)


def told(*care: CareDone, on: date = ON, who: str = "") -> dict[str, Told]:
    visits = [Visit(done=done, who=who) for done in care]
    return {row.title: row for row in records_told(visits, BRACKEN, on)}


def visit(ago: int, kind: str = "teeth", **more: Any) -> CareDone:
    return CareDone(kind=kind, on=ON - days(ago), **more)


VISITS = st.lists(
    st.builds(
        visit,
        ago=st.integers(-5, 400),
        kind=st.sampled_from(["teeth", "teeth", "vet"]),
        clear=st.booleans(),
        wolf_teeth=st.sampled_from([None, None, "none", "left", "out"]),
        healing_until=st.sampled_from([None, None, ON - days(1), ON, ON + days(9)]),
    ),
    max_size=4,
)


@settings(max_examples=150, deadline=None)
@given(care=VISITS)
def test_the_page_and_the_gates_never_differ(care: list[CareDone]) -> None:
    done = tuple(care)
    for stage, limits in ((MOUTHING, FIRST_BIT_DAYS), (ASTRIDE, LATER_BIT_DAYS)):
        asked = gate("teeth", stage, care=done)
        assert counted(teeth_on(done, ON), limits, ON).answer == asked.answer
    wolf = gate("wolf_teeth", MOUTHING, care=done)
    word = {"met": "yes", "shut": "not yet", "not_known": "can't say"}
    assert told(*done)["Wolf teeth"].word == word[wolf.answer]


@pytest.mark.parametrize("limits", [FIRST_BIT_DAYS, LATER_BIT_DAYS])
def test_the_last_days_named_are_the_last_that_the_gates_take(
    limits: tuple[int, int],
) -> None:
    stage = MOUTHING if limits == FIRST_BIT_DAYS else ASTRIDE
    look = visit(0)
    counts = counted(teeth_on((look,), ON), limits, ON)
    assert counts.until is not None
    assert counts.but_until is not None
    named = (counts.until, counts.but_until)
    around = [on + days(more) for on in named for more in (0, 1)]
    gates = [gate("teeth", stage, on=on, care=(look,)).answer for on in around]
    page = [counted(teeth_on((look,), on), limits, on).answer for on in around]
    assert gates == page == ["met", "caution", "caution", "shut"]


def test_a_healing_mouth_says_what_the_look_counts_for_after_it() -> None:
    first = told(visit(1, wolf_teeth="out"))["For a first bit"]
    heals = ON - days(1) + days(HEALING_DAYS)
    assert first.word == "not yet"
    assert first.text == (
        f"Bracken's mouth is healing until {heals.day} Mar 2026: no bit. After that"
        " the look counts until 30 May 2026."
    )
    late = told(visit(95, healing_until=ON + days(3)))["For a first bit"]
    assert "After that it is 'yes, but' until" in late.text
    old = told(visit(179, healing_until=ON + days(3)))["For a first bit"]
    assert old.text.endswith("By then the look is too long ago.")


def test_nothing_new_for_two_days_after_a_vaccination() -> None:
    for ago, quiet in ((0, True), (1, True), (2, True), (3, False)):
        assert ("Something new" in told(visit(ago, "vaccination"))) == quiet


def test_a_tooth_change_asks_for_a_look_until_somebody_has_looked() -> None:
    change = visit(10, "tooth_change")
    assert told(change, visit(11))["Tooth change"].word == "look again"
    assert told(change, visit(9))["Tooth change"].word == ""


def test_feet_are_loud_from_eight_weeks_on() -> None:
    assert told(visit(55, "farrier"))["Farrier"].word == ""
    assert told(visit(56, "farrier"))["Farrier"].word == "8 weeks ago"


def test_an_open_finding_stays_open_whoever_else_came_that_day() -> None:
    both = (visit(5, "vet", clear=True), visit(5, "vet", clear=False))
    assert told(*both)["Vet"].word == "something left open"
    assert told(visit(5), visit(5, clear=False))["For a first bit"].word == "not yet"


def test_who_looked_is_said_or_that_it_is_not_written() -> None:
    assert (
        "by Ann Moor: nothing left open."
        in told(visit(3), who="Ann Moor")["Teeth"].text
    )
    assert "by whom is not written" in told(visit(3))["Teeth"].text


FOALED = read_foaled("2024-04-24")


def row(title: str, *care: CareDone, on: date = ON, grown: bool = False) -> Told:
    whose = Whose(name="Bracken", she="she", grown=grown, foaled=FOALED)
    visits = [Visit(done=done) for done in care]
    found = {one.title: one for one in records_told(visits, whose, on)}
    return found.get(title, Told(title="", text=""))


def test_each_kind_says_when_it_is_next() -> None:
    named = ON + days(40)
    for kind, title in (
        ("teeth", "Teeth"),
        ("vet", "Vet"),
        ("farrier", "Farrier"),
        ("saddle_fitter", "Saddle fitter"),
        ("vaccination", "Vaccination"),
        ("worming", "Worming"),
        ("back", "Back"),
        ("other", "Visit"),
    ):
        told = row(title, visit(3, kind, next_due=named))
        assert told.text.endswith(f"Next, as named, on {say_date(named)}.")
        late = row(title, visit(3, kind, next_due=ON - days(1)))
        assert (late.tone, late.word) == ("caution", "overdue")
        assert row(title, visit(3, kind, next_due=ON)).word == ""


def test_without_a_named_day_teeth_and_feet_are_due_in_general() -> None:
    feet = row("Farrier", visit(10, "farrier"))
    assert f"In general due again by {say_date(ON + days(46))}." in feet.text
    teeth = row("Teeth", visit(10))
    assert "In general due again by" in teeth.text
    assert "In general" not in row("Teeth", visit(10), grown=True).text
    assert "In general" not in row("Teeth", visit(10, clear=False)).text


@pytest.mark.parametrize("kind", ["Vaccination", "Worming"])
def test_the_vet_is_asked_where_no_next_day_was_named(kind: str) -> None:
    told = row(kind, visit(10, kind.lower()))
    assert told.text.endswith("No next day is written down: ask your vet.")


def test_the_mouth_is_watched_while_its_teeth_change_and_not_reached_into() -> None:
    at_31 = row("Watch the mouth", on=date(2026, 11, 25))
    assert "the first cheek teeth, next to the bit, at 24 to 36 months" in at_31.text
    assert "the second cheek teeth, at 30 to 42 months" in at_31.text
    assert "From 24 Apr 2027: the second pair of front teeth and the third" in (
        at_31.text
    )
    assert "never put fingers between the teeth" in at_31.notes[0]
    assert "ask your vet" in at_31.notes[0]
    assert "differ" in at_31.notes[1]
    foal = row("Watch the mouth", on=date(2025, 1, 1))
    assert foal.text.startswith("From 24 Apr 2026: the middle pair of front teeth")
    assert row("Watch the mouth", on=date(2029, 4, 24)).text
    assert not row("Watch the mouth", on=date(2029, 4, 25)).text
    assert not row("Watch the mouth", grown=True).text


def test_a_gelding_is_told_until_it_is_healed_and_cleared() -> None:
    cut = visit(3, "gelding", clear=False)
    told = row("Gelding", cut)
    assert told.tone == "shut"
    assert "only once your vet has cleared" in told.text
    assert "ring your vet" in told.notes[0]
    healed = row("Gelding", cut, visit(-20, "vet"), on=ON + days(20))
    assert (healed.tone, healed.text.endswith("Healed and cleared.")) == ("", True)
    assert row("Gelding", cut, on=ON + days(300)).tone == "shut"
