"""A saddle fitter's visit, written down as care, speaks of the saddle that was on."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from fitting.fit import Answer, Finding
from fitting.models import Horse, Part, Tack, TryOn, Yard
from fitting.reads.growth import tried_on
from fitting.reads.outlook import seen_of
from starting.models import CareVisit
from starting.reads.facts import yard_facts
from starting.writes import replan, today_in
from tests.make import make_horse

NAME = "Brown saddle"


@pytest.fixture
def horse(yard: Yard) -> Horse:
    """A horse of three, and a saddle that was put on it long ago."""
    born = today_in(yard) - timedelta(days=1150)
    horse = make_horse(yard, name="Tansy", foaled=born.isoformat())
    saddle = Tack.objects.create(yard=yard, key="brown", name=NAME, kind="saddle")
    Part.objects.create(tack=saddle, part="panel", length_mm=420)
    on = today_in(yard) - timedelta(days=200)
    TryOn.objects.create(horse=horse, on=on, tack=saddle, how="worn", answer="good")
    return horse


def visited(horse: Horse, on: date, **fields: object) -> Finding:
    CareVisit.objects.create(horse=horse, kind="saddle_fitter", on=on, **fields)
    replan(horse.yard, today_in(horse.yard))
    seen = seen_of(Horse.objects.get(pk=horse.pk))
    assert seen is not None
    return next(one for one in seen.fits if one.item == NAME)


def test_a_fitter_who_left_nothing_open_makes_the_saddle_good(horse: Horse) -> None:
    on = today_in(horse.yard) - timedelta(days=5)
    found = visited(horse, on, clear=True)
    assert found.answer is Answer.GOOD
    assert found.rests_on.startswith("saddle fitter ")
    assert found.good_until == on + timedelta(days=57)


def test_a_fitter_who_left_something_open_does_not(horse: Horse) -> None:
    found = visited(horse, today_in(horse.yard), clear=False)
    assert found.answer is Answer.WATCH


def test_no_other_visit_speaks_of_a_saddle(horse: Horse) -> None:
    on = today_in(horse.yard)
    CareVisit.objects.create(horse=horse, kind="back", on=on, clear=True)
    found = visited(horse, on - timedelta(days=100), clear=True)
    assert found.answer is Answer.WATCH
    assert "100 days ago" in found.why


def test_pages_read_the_same_visits_as_the_outlook_rests_on(horse: Horse) -> None:
    visited(horse, today_in(horse.yard), clear=True)
    (facts,) = yard_facts(horse.yard).horses
    assert len(facts.tryons) == 2
    assert tuple(tried_on(horse).tryons) == facts.tryons
