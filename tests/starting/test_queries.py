"""Queries per page stay the same from one horse to thirty, asked of every page."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from fitting.models import FirstWorn, TryOn, TryOnPart, Yard
from starting.models import CareVisit, Person, Session
from starting.writes import replan, today_in
from starting.writes.links import make_link
from tests.make import (
    make_bit,
    make_horse,
    make_measurement,
    make_member,
    make_photo,
)
from tests.starting.addresses import OPEN, OWN, POST_ONLY, WHO_MAY, Rows, addresses
from tests.starting.addresses import make_rows as rows_of

PAGES = sorted(
    name
    for name, who in WHO_MAY.items()
    if who not in {OPEN, OWN} and name not in POST_ONLY
)


def more_of_everything(yard: Yard, horses: int) -> None:
    """Fill a yard: each horse with a bit of its own, and a little of everything."""
    on = today_in(yard) - timedelta(days=4)
    for number in range(horses):
        horse = make_horse(yard, name=f"Another {number}")
        bit = make_bit(yard)
        make_measurement(horse, on=on)
        make_photo(horse, on=on)
        make_measurement(horse, "mouth_width", on=on, value=104.0, method="dowel")
        tryon = TryOn.objects.create(horse=horse, on=on, tack=bit, how="worn")
        TryOnPart.objects.create(tryon=tryon, part="mouthpiece", seen="sits_right")
        FirstWorn.objects.create(horse=horse, kind="bit", tack=bit, on=on)
        Session.objects.create(horse=horse, on=on, stage="company")
        CareVisit.objects.create(horse=horse, kind="teeth", on=on)
        Person.objects.create(yard=yard, name=f"Somebody {number}")
        make_member(yard, "viewer")
        make_link(yard, label=f"Phone {number}", options={})


def queries(client: Client, rows: Rows, name: str) -> list[str]:
    parts = rows.parts(name, addresses()[name])
    with CaptureQueriesContext(
        connection,
    ) as seen:
        answer = client.get(reverse(name, kwargs=parts))
    assert answer.status_code == 200, name
    return [query["sql"] for query in seen.captured_queries]


@pytest.mark.django_db
def test_no_page_asks_more_of_a_yard_of_thirty_horses(
    keeper: Client, yard: Yard
) -> None:
    rows = rows_of(yard)
    replan(yard, today_in(yard))
    few = {name: queries(keeper, rows, name) for name in PAGES}
    more_of_everything(yard, 30)
    replan(yard, today_in(yard))
    many = {name: queries(keeper, rows, name) for name in PAGES}
    grown = {
        name: (len(few[name]), len(many[name]))
        for name in PAGES
        if len(many[name]) != len(few[name])
    }
    assert not grown
