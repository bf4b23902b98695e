"""The page of one item: what matters first, figures folded, all of it reachable."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.test import Client
from django.utils import timezone

from fitting.models import Loan, Part, Yard
from starting.writes.replan import ensure_planned
from tests.make import make_bit, make_horse, make_measurement

pytestmark = pytest.mark.django_db


def page_of(client: Client, address: str) -> str:
    answer = client.get(address)
    assert answer.status_code == 200
    return " ".join(answer.content.decode().split())


def without_folds(page: str) -> str:
    """Return the page as it stands before anything is opened."""
    first, *rest = page.split("<details")
    return first + "".join(part.partition("</details>")[2] for part in rest)


def filly(yard: Yard, months: int = 14, mouth_mm: float = 112.0) -> None:
    foaled = timezone.localdate() - timedelta(days=round(months * 30.4375))
    horse = make_horse(yard, name="Tansy", foaled=foaled)
    on = timezone.localdate() - timedelta(days=3)
    make_measurement(horse, "mouth_width", on=on, value=mouth_mm, method="dowel")


def test_the_answer_stands_first_and_its_caution_just_above(
    keeper: Client, yard: Yard
) -> None:
    filly(yard)
    bit = make_bit(yard, name="Eggbutt", length_mm=116.5)
    ensure_planned(yard)
    page = page_of(keeper, bit.get_absolute_url())
    order = [
        page.index("Have the mouth looked at by a vet"),
        page.index("Good until"),
        page.index("The chance of a no on that day:"),
        page.index("As measured"),
        page.index("What was changed"),
    ]
    assert order == sorted(order)
    assert page.count("Have the mouth looked at by a vet") == 1


def test_figures_are_folded_and_still_on_the_page(keeper: Client, yard: Yard) -> None:
    filly(yard)
    bit = make_bit(yard, name="Eggbutt", length_mm=116.5)
    ensure_planned(yard)
    page = page_of(keeper, bit.get_absolute_url())
    open_at_once = without_folds(page)
    for folded in ("By: ", "Length 4"):
        assert folded in page
        assert folded not in open_at_once
    for said in ("each side", "Good until", "The chance of a no on that day: "):
        assert said in open_at_once


def test_an_item_of_several_parts_says_each_answer_shortly_and_why_in_the_fold(
    keeper: Client, yard: Yard
) -> None:
    filly(yard)
    bit = make_bit(yard, name="Eggbutt", length_mm=116.5)
    Part.objects.create(tack=bit, part="browband", length_mm=380)
    ensure_planned(yard)
    page = page_of(keeper, bit.get_absolute_url())
    open_at_once = without_folds(page)
    assert "Browband: <b>can&#x27;t say</b>." in open_at_once
    assert "Brow was never measured" not in open_at_once
    assert "Brow was never measured" in page


def test_an_item_that_will_fit_says_from_when(keeper: Client, yard: Yard) -> None:
    filly(yard, months=20, mouth_mm=104.0)
    bit = make_bit(yard, name="Eggbutt", length_mm=118.0)
    ensure_planned(yard)
    page = page_of(keeper, bit.get_absolute_url())
    assert "Likely good from " in page
    assert "The chance of a no on the first day: " in page
    asked = page_of(keeper, f"/{yard.slug}/does-it-fit/?horse=tansy&item={bit.key}")
    day = page.partition("Likely good from ")[2].partition(" until")[0]
    day = day.partition(".")[0]
    assert f"Likely good from {day}" in asked
    assert "The chance of a no on the first day: " in asked


def test_what_is_out_is_said_at_the_head(keeper: Client, yard: Yard) -> None:
    filly(yard)
    bit = make_bit(yard, name="Eggbutt", length_mm=116.5)
    back = date(2099, 1, 4)
    Loan.objects.create(tack=bit, to=yard.horses.get(), back_by=back)
    ensure_planned(yard)
    page = page_of(keeper, bit.get_absolute_url())
    assert page.index("back by 4 Jan 2099") < page.index("Who it fits today")


def test_what_an_item_covers_is_told_in_millimetres_too(
    keeper: Client, yard: Yard
) -> None:
    yard.length_unit = "in"
    yard.save()
    filly(yard)
    bit = make_bit(yard, name="Eggbutt", length_mm=116.5)
    ensure_planned(yard)
    page = page_of(keeper, bit.get_absolute_url())
    covered = page.partition("Good for ")[2].partition(".")[0]
    assert covered.count(" mm)") == 2  # good, and only just: inches alone look alike
