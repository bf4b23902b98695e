"""An outlook's entries in the diary: what stands there, on which day, and how long."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import pytest

from fitting.age import read_foaled
from fitting.fit import Part, Tack
from fitting.lending import WASH, Lent
from fitting.tryons import TryOn
from starting.dated.bring import LEVEL_GROUND
from starting.diary import BRING, Entry, measures_said
from starting.gates import CareDone
from starting.measuring import Errand
from starting.outlook import HorseFacts, look_at_yard
from starting.outlook.shared import errands_of
from starting.outlook.to_dos import CARE_BEFORE_DAYS, CARE_NAMES, SOONER_DAYS, ToDo
from starting.programme import shipped
from tests.starting.making_outlook import (
    TODAY,
    bitted_soon,
    entries,
    horse_facts,
    measured,
    teeth,
    yard_facts,
)


def test_a_visit_a_step_needs_is_three_to_seven_weeks_before_it() -> None:
    found = entries(bitted_soon(teeth(160)), TODAY - timedelta(days=60))
    visit = found["care/teeth-2"]
    first = min(one.on for one in found.values() if visit.key in one.after)
    by = first - timedelta(days=CARE_BEFORE_DAYS)
    assert by - timedelta(days=SOONER_DAYS["care"]) <= visit.on <= by
    assert visit.forecast
    assert f"is planned for {first.day} {first:%b %Y}" in visit.text


def test_teeth_and_feet_due_in_general_are_in_the_diary() -> None:
    shod = CareDone(kind="farrier", on=TODAY - timedelta(days=10))
    yearling = read_foaled((TODAY - timedelta(days=670)).isoformat())
    found = entries(horse_facts(foaled=yearling, care=(teeth(10), shod)))
    feet = found["care/farrier-2"]
    assert TODAY + timedelta(days=18) <= feet.on <= TODAY + timedelta(days=46)
    assert feet.forecast
    assert "Your farrier's own date comes first." in feet.text
    mouth = found["care/teeth-2"]
    assert mouth.on <= TODAY + timedelta(days=171)
    assert "in general every 6 months" in mouth.text
    assert not entries(horse_facts(care=(teeth(10), shod), grown=True))


def test_every_kind_of_visit_that_was_named_is_in_the_diary() -> None:
    care = tuple(
        CareDone(kind=kind, on=TODAY, next_due=TODAY + timedelta(days=30 + number))
        for number, kind in enumerate(CARE_NAMES)
    )
    found = entries(horse_facts(care=care))
    for number, kind in enumerate(CARE_NAMES):
        entry = found[f"care/{kind}-2"]
        assert entry.on == TODAY + timedelta(days=30 + number)
        assert not entry.forecast


def test_the_days_from_which_teeth_may_change_are_in_the_diary() -> None:
    found = entries(horse_facts())
    (watch,) = (one for key, one in found.items() if "tooth_change-from" in key)
    assert watch.on == date(2027, 4, 24)  # 36 months
    assert watch.title == "Tansy: watch the mouth"
    assert "the second pair of front teeth and the third cheek teeth" in watch.text
    assert "never with fingers between the teeth" in watch.text
    assert "book the visit" not in watch.text
    assert not watch.forecast
    on_the_day = entries(horse_facts(), watch.on)["care/tooth_change-from-36"]
    assert on_the_day.on == watch.on
    after = entries(horse_facts(), watch.on + timedelta(days=1))
    assert "care/tooth_change-from-36" not in after


def test_what_is_got_is_tried_on_only_once_it_is_there(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    on, seen = TODAY - timedelta(days=60), list[ToDo]()

    def spied(horse: HorseFacts, to_dos: Sequence[ToDo]) -> tuple[Errand, ...]:
        seen.extend(to_dos)
        return errands_of(horse, to_dos)

    monkeypatch.setattr("starting.outlook.shared.errands_of", spied)
    bit = (measured("mouth_width", on, 112.0, "gauge"),)
    found = entries(replace(bitted_soon(teeth(90)), measured=bit), on)
    got = next(one for one in seen if (one.kind, one.name[:3]) == ("get", "bit"))
    tried = next(one for one in seen if (one.kind, one.name) == ("try_on", "bit"))
    assert got.due_by <= tried.useful_from
    assert found[f"get/{got.name}"].on < found["try_on/bit"].on


def test_a_visit_somebody_named_a_day_for_stands_on_that_day_alone() -> None:
    booked = 3
    visit = entries(bitted_soon(teeth(300, booked)))["care/teeth-2"]
    start = entries(bitted_soon(teeth(300, booked)))["stage_starts/mouthing"]
    assert start.on >= visit.on
    assert visit.on == TODAY + timedelta(days=booked)
    assert not visit.forecast
    assert "Their dates come first." in visit.text
    assert visit.key in start.after


def test_a_step_depends_on_the_planned_starts_of_the_steps_before_it() -> None:
    found = entries(bitted_soon(teeth(300)))
    kind, waiting = "stage_starts/", 0
    starts = {k.removeprefix(kind): e for k, e in found.items() if k.startswith(kind)}
    for key, start in starts.items():
        stage = shipped().stage(key)
        before = {*stage.prerequisites, *stage.prerequisites_once}
        asked = {starts[one].key for one in before & starts.keys()}
        assert {one for one in start.after if "/stage_starts/" in one} == asked
        assert {*start.after} <= {entry.key for entry in found.values()}
        waiting += bool(asked)
    assert waiting > 3


def test_a_visit_named_for_after_the_step_does_not_do_for_it() -> None:
    visit = entries(bitted_soon(teeth(300, 200)))["care/teeth-2"]
    assert visit.on == TODAY
    assert "Mouthing is planned for" in visit.text


def test_of_two_visits_of_one_day_the_one_that_names_the_next_counts() -> None:
    named, bare = teeth(30, 100), teeth(30)
    for care in ((named, bare), (bare, named)):
        visit = entries(horse_facts(care=care, grown=True))["care/teeth-3"]
        assert visit.on == TODAY + timedelta(days=100)


def test_a_day_on_which_a_step_opens_stands_until_it_is_over() -> None:
    horse = horse_facts(foaled=read_foaled((TODAY - timedelta(days=80)).isoformat()))
    (key, before) = next(
        (key, entry)
        for key, entry in entries(horse).items()
        if key.startswith("stage_opens/")
    )
    on_the_day = entries(horse, before.on)[key]
    assert on_the_day.on == before.on > TODAY
    assert on_the_day.text.partition("\n")[2]
    assert not on_the_day.forecast
    assert key not in entries(horse, before.on + timedelta(days=1))


def test_a_loan_stands_on_the_day_it_goes_back_until_it_is_back() -> None:
    lent = Lent(
        item="Fennel's bit",
        key="fennels-bit",
        kind="bit",
        time=2,
        lender="Fennel",
        own_hole=3,
        back_by=TODAY + timedelta(days=9),
    )
    entry = entries(horse_facts(grown=True, borrowed=(lent,)))[
        "care/lent-fennels-bit-2"
    ]
    assert entry.on == lent.back_by
    assert not entry.forecast
    assert entry.title == "Tansy: give back Fennel's bit"
    assert "Put it back on hole 3" in entry.text
    assert WASH in entry.text
    assert entry.path == "/sallow-end/tack/fennels-bit/"
    assert entry.others == ("Fennel",)
    assert "Fennel's bit" not in entry.text
    back = replace(lent, returned=TODAY)
    endless = replace(lent, back_by=None)
    assert not entries(horse_facts(grown=True, borrowed=(back, endless)))


def test_a_saddle_is_looked_at_again_before_a_step_it_does_not_stand_until() -> None:
    saddle = Tack(
        name="Brown saddle", kind="saddle", parts=(Part(part="panel", length_mm=420),)
    )

    seen = TryOn(on=TODAY, item=saddle.name, how="worn", answer="good")
    horse = replace(bitted_soon(teeth(3)), tryons=(seen,))
    (outlook,) = look_at_yard(yard_facts(horse, tack=(saddle,)), TODAY)
    start = next(one.start for one in outlook.stages if one.stage == "saddle")
    assert start is not None
    assert start > TODAY + timedelta(days=57)
    (again,) = (one for one in outlook.entries if one.key.endswith("try_on/saddle"))
    assert start - timedelta(days=42) <= again.on <= start - timedelta(days=21)
    assert "What was seen of Brown saddle stands until 20 Jan 2027" in again.text
    assert "saddle fitter" in again.text


def brought(entry: Entry) -> str:
    lines = (line for line in entry.text.split("\n") if line.startswith(BRING))
    return next(lines, "").removeprefix(BRING)


def test_an_entry_says_what_to_bring() -> None:
    found = entries(bitted_soon(teeth(160)), TODAY - timedelta(days=60))
    tall = [one for one in found.values() if "withers" in measures_said(one)]
    assert tall
    assert all("stick" in brought(one) for one in tall)
    assert all(LEVEL_GROUND in brought(one) for one in tall)
    assert "headcollar and rope" in brought(found["care/teeth-2"])
    assert "a bridle that fits" in brought(found["stage_starts/bridle"])
    assert not brought(found["stage_starts/body_check"])
