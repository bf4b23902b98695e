"""A yard's own figures reach whatever reckons with tack, not the outlook alone."""

from __future__ import annotations

from datetime import timedelta

import pytest

from fitting.body import Taken
from fitting.fit.edge_text import kept_of
from fitting.fit.edges import Change
from fitting.growth import Growth
from fitting.models import Horse, TryOn, TryOnPart, Yard
from fitting.reads.foresee import with_readings
from fitting.reads.growth import growth_of, tried_on
from fitting.reads.growths import growths_of
from fitting.reads.in_use import covers_in_use
from fitting.reads.outlook import seen_of
from fitting.taught import lessons_of
from fitting.writes.edges import change_yard_edges
from starting.outlook import body
from starting.reads.facts import yard_facts
from starting.writes import replan, today_in
from tests.make import make_bit, make_horse

MOUTH = "mouth_width"
TIGHT = "bit.fixed.good_to"


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    """A horse that a bit of 126 mm was put on and sat right."""
    horse = make_horse(yard, name="Tansy")
    bit = make_bit(yard, length_mm=126.0, mouthpiece="double_jointed")
    on = today_in(yard) - timedelta(days=3)
    tried = TryOn.objects.create(horse=horse, on=on, tack=bit, how="worn")
    TryOnPart.objects.create(tryon=tried, part="mouthpiece", seen="sits_right")
    return horse


def again(horse: Horse) -> Horse:
    return Horse.objects.select_related("yard").get(pk=horse.pk)


def tighten(yard: Yard) -> None:
    change = Change(
        edge=TIGHT, to=8.0, by="Jo", on=today_in(yard), why="Closer.", written="8 mm"
    )
    change_yard_edges(yard, [change], seen=0, token="", led_to="")
    assert kept_of(change)["to"] == "8 mm"


def middles(horse: Horse) -> list[float]:
    """Return the mouth today by every way to a horse's growth."""
    facts = yard_facts(horse.yard)
    fact = facts.horses[0]
    lessons = lessons_of(body.subject_of(facts, fact), body.tried_on(facts, fact))
    grown: list[Growth] = [
        growth_of(horse),
        *growths_of([horse]),
        body.growth_of(facts, fact, lessons),
    ]
    spreads = [growth.at(MOUTH, today_in(horse.yard)) for growth in grown]
    return [spread.quantile(0.5) for spread in spreads if spread]


def test_what_a_try_on_teaches_goes_by_them_everywhere(tansy: Horse) -> None:
    before = middles(again(tansy))
    tighten(tansy.yard)
    after = middles(again(tansy))
    assert len(before) == len(after) == 3
    assert max(before) - min(before) < 0.01
    assert max(after) - min(after) < 0.01
    assert abs(after[0] - before[0]) > 0.1


def test_which_bodies_an_item_is_good_for_goes_by_them(tansy: Horse) -> None:
    tighten(tansy.yard)
    horse = again(tansy)
    (cover,) = covers_in_use(
        horse, growth_of(horse), tried_on(horse), today_in(horse.yard)
    )
    assert cover.from_mm == pytest.approx(126.0 - 8.0)


def test_what_readings_would_change_goes_by_them(tansy: Horse) -> None:
    tighten(tansy.yard)
    horse, on = again(tansy), today_in(tansy.yard)
    replan(horse.yard, on)
    seen = seen_of(horse)
    assert seen is not None
    typed = Taken(measure=MOUTH, on=on, readings=(118.0,), method="calliper")
    after = with_readings(horse, seen, [typed], tried_on(horse), on)
    (bit,) = after.fits
    changed = {one.edge for one in bit.decided if one.on}
    assert changed == {TIGHT}
