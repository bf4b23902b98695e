"""The growth of many horses is what each one's outlook rests on, asked for at once."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.test import Client

from fitting.models import Horse, Tack, TryOn, TryOnPart, Yard
from fitting.reads.growths import growths_of
from fitting.reads.outlook import seen_of
from fitting.reads.today import today_in
from starting.models import Session, SessionWorn
from starting.writes import replan
from tests.fitting.test_beside_pages import beside
from tests.make import SIGNED_IN, make_bit, make_horse, make_measurement

MOUTH = "mouth_width"


def try_on(horse: Horse, bit: Tack, seen: str) -> None:
    on = today_in(horse.yard) - timedelta(days=3)
    row = TryOn.objects.create(horse=horse, on=on, tack=bit, how="worn")
    TryOnPart.objects.create(tryon=row, part="mouthpiece", seen=seen)


def work_in(horse: Horse, bit: Tack, seen: str) -> None:
    on = today_in(horse.yard) - timedelta(days=2)
    session = Session.objects.create(horse=horse, on=on, stage="company")
    SessionWorn.objects.create(session=session, tack=bit, seen=seen, part="mouthpiece")


def some_horses(yard: Yard, how_many: int) -> list[Horse]:
    """Make horses known each in another way: measured, tried on, worked, not at all."""
    horses = [make_horse(yard, name=f"Horse {n}") for n in range(how_many)]
    for number, horse in enumerate(horses):
        bit = make_bit(yard, length_mm=118.0 + 2 * number)
        if number % 2 == 0:
            make_measurement(horse, value=1290.0 + 10 * number)
            try_on(horse, bit, "too_short")
        work_in(horse, bit, "sits_right")
    return horses


def test_it_is_the_growth_that_the_outlooks_rest_on(yard: Yard) -> None:
    horses = [*some_horses(yard, 3), make_horse(yard, name="Never")]
    today = today_in(yard)
    assert replan(yard, today)
    for horse, growth in zip(horses, growths_of(horses), strict=True):
        seen = seen_of(Horse.objects.get(pk=horse.pk))
        assert seen is not None
        for measure in ("withers_height", MOUTH):
            look, size = seen.measure(measure), growth.at(measure, today)
            assert look is not None
            assert look.now is not None
            assert size is not None
            assert size.quantile(0.5) == pytest.approx(look.now.p50, abs=0.06)
            assert size.quantile(0.95) == pytest.approx(look.now.p95, abs=0.06)


def test_sessions_teach_as_try_ons_do(yard: Yard) -> None:
    never, worked = make_horse(yard), make_horse(yard)
    work_in(worked, make_bit(yard, length_mm=130.0), "sits_right")
    first, second = growths_of([never, worked])
    today = today_in(yard)
    wide, narrow = first.at(MOUTH, today), second.at(MOUTH, today)
    assert wide is not None
    assert narrow is not None
    assert narrow.sd < 0.85 * wide.sd


def test_no_horses_have_no_growth(db: None) -> None:
    assert growths_of([]) == ()


def test_a_size_learnt_from_trying_on_says_so(viewer: Client, yard: Yard) -> None:
    horses = some_horses(yard, 2)
    page = viewer.get(beside(yard, *horses, measure=MOUTH)).content.decode()
    assert "2 try-ons" in page
    assert "1 try-on" in page
    assert "never measured" not in page


@pytest.mark.parametrize("how_many", [2, 4])
def test_it_asks_as_often_of_four_that_tried_tack_on(
    viewer: Client, yard: Yard, how_many: int, django_assert_num_queries: Any
) -> None:
    address = beside(yard, *some_horses(yard, how_many))
    viewer.get(address)
    with django_assert_num_queries(SIGNED_IN + 1 + 7):  # horses, growth
        assert viewer.get(address).status_code == 200
