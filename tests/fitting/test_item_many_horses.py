"""An item's page in a large yard: those that cannot be said share one row."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Yard
from starting.writes import replan, today_in
from tests.make import make_bit, make_horse, make_measurement


def page_of(client: Client, yard: Yard, horses: int) -> str:
    on = today_in(yard) - timedelta(days=3)
    for number in range(horses):
        horse = make_horse(yard, name=f"Foal {number}")
        if number < 2:
            make_measurement(horse, "mouth_width", on=on, value=115.0, method="dowel")
    bit = make_bit(yard, name="Eggbutt")
    replan(yard, today_in(yard))
    return client.get(bit.get_absolute_url()).content.decode()


@pytest.mark.parametrize(("horses", "rows"), [(4, 4), (12, 3)])
def test_many_that_cannot_be_said_share_a_row(
    keeper: Client, yard: Yard, horses: int, rows: int
) -> None:
    page = page_of(keeper, yard, horses)
    table = page[page.index("<tbody>") : page.index("</tbody>")]
    assert table.count("<tr>") == rows
    asked = reverse("fitting:does-it-fit", args=[yard.slug])
    for horse in yard.horses.all():
        assert horse.name in table
        assert f'href="{asked}?horse={horse.key}&amp;item=' in table
