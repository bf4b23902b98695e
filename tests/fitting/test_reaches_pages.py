"""Whom an item fits, drawn on its page: of many horses the first ones."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Yard
from fitting.reads.reaches import MOST_DRAWN
from starting.writes import replan, today_in
from tests.make import make_bit, make_horse, make_measurement


def put_up(yard: Yard, names: Iterable[str]) -> None:
    today = timezone.localdate()
    for name in names:
        horse = make_horse(yard, name=name, foaled=today - timedelta(days=900))
        on = today - timedelta(days=3)
        make_measurement(horse, "mouth_width", on=on, value=112.0, method="dowel")
    replan(yard, today_in(yard))


def test_horses_that_an_item_fits_but_are_not_drawn_are_counted(
    keeper: Client, yard: Yard
) -> None:
    def told() -> str:
        page = reverse("fitting:tack", args=[yard.slug, bit.key])
        return " ".join(keeper.get(page).content.decode().split())

    bit = make_bit(yard, name="Eggbutt", length_mm=117.0)
    put_up(yard, [f"Rush {number}" for number in range(MOST_DRAWN)])
    assert "in the list alone" not in told()
    put_up(yard, ["Sedge"])
    assert "1 more horse it fits or only just fits is in the list alone." in told()
    put_up(yard, ["Reed"])
    assert "2 more horses it fits or only just fits are in the list alone." in told()
