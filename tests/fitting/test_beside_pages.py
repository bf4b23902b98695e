"""The page of horses put beside one another."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from fitting.readings import show
from fitting.reads.growth import growth_of
from fitting.reads.today import today_in
from fitting.reads.units import units_of
from tests.make import SIGNED_IN, make_horse, make_measurement, make_yard

HEIGHT = "withers_height"


def beside(yard: Yard, *horses: Horse | str, **more: Any) -> str:
    keys = [h if isinstance(h, str) else h.key for h in horses]
    asked = "&".join(
        [*(f"horse={key}" for key in keys), *(f"{k}={v}" for k, v in more.items())]
    )
    return f"{reverse('fitting:beside', args=[yard.slug])}?{asked}"


def measured(yard: Yard, name: str, mm: float, **fields: Any) -> Horse:
    horse = make_horse(yard, name=name, **fields)
    make_measurement(horse, on=date(2026, 4, 20), value=mm, same_person=True)
    return horse


def test_the_horses_and_a_body_lead_to_it(viewer: Client, yard: Yard) -> None:
    ash = make_horse(yard, name="Ash")
    plain = reverse("fitting:beside", args=[yard.slug])
    page = viewer.get(reverse("fitting:horses", args=[yard.slug])).content.decode()
    assert f'href="{plain}"' in page
    page = viewer.get(ash.get_absolute_url()).content.decode()
    assert f'href="{plain}?horse=ash"' in page


def test_with_one_horse_it_says_that_it_takes_two(
    keeper: Client, viewer: Client, yard: Yard
) -> None:
    make_horse(yard)
    plain = reverse("fitting:beside", args=[yard.slug])
    add = reverse("fitting:add-horse", args=[yard.slug])
    page = keeper.get(plain).content.decode()
    assert "It takes two horses" in page
    assert add in page
    assert add not in viewer.get(plain).content.decode()


def test_the_first_ticked_waits_for_a_second(viewer: Client, yard: Yard) -> None:
    ash, _ = make_horse(yard, name="Ash"), make_horse(yard)
    answer = viewer.get(beside(yard, ash))
    assert answer.status_code == 200
    page = answer.content.decode()
    assert "Tick at least one more." in page
    assert 'value="ash" ' in page
    assert page.count("checked") == 1


def test_sizes_at_one_age_are_those_of_each_ones_growth(
    viewer: Client, yard: Yard
) -> None:
    low, high = measured(yard, "Low", 1240.0), measured(yard, "High", 1340.0)
    page = viewer.get(beside(yard, low, high, age=24)).content.decode()
    day = date(2024, 4, 19) + timedelta(days=round(24 * 30.4375))
    for horse in (low, high):
        size = growth_of(horse).at(HEIGHT, day)
        assert size is not None
        said = show(size.quantile(0.5), "height", units_of(yard))
        assert f"<b>{said.removesuffix(' hands')}</b>" in page
    assert "At 24 months High is" in page
    assert "above Low: more than the error." in page
    assert page.count('role="img"') == 2  # for a phone and for a wide screen
    assert "1 reading, at 24 months" in page


def test_horses_within_the_error_are_not_told_apart(viewer: Client, yard: Yard) -> None:
    one, other = measured(yard, "One", 1300.0), measured(yard, "Other", 1304.0)
    page = viewer.get(beside(yard, one, other)).content.decode()
    assert "within the error, so they cannot be told apart yet" in page
    assert "more than the error" not in page


def test_without_an_age_it_is_the_youngests_today(viewer: Client, yard: Yard) -> None:
    today = today_in(yard)
    foal = make_horse(yard, name="Foal", foaled=str(today - timedelta(days=183)))
    other = measured(yard, "Other", 1304.0)
    page = viewer.get(beside(yard, foal, other)).content.decode()
    assert "Withers height at 6 months, in hands" in page
    assert "today" in page
    assert "in Oct 2024" in page  # when the other was six months
    assert "never measured: by type alone" in page


def test_a_grown_horse_has_its_grown_size_only(viewer: Client, yard: Yard) -> None:
    old = measured(yard, "Old", 1422.4, grown=True, foaled="2010")
    young = measured(yard, "Young", 1200.0)
    page = viewer.get(beside(yard, old, young, age=24)).content.decode()
    assert "grown long since" in page
    assert "14.0" in page
    assert "Grown, Old is" in page


def test_grown_horses_alone_need_no_age(viewer: Client, yard: Yard) -> None:
    old = measured(yard, "Old", 1422.4, grown=True, foaled="2010")
    more = measured(yard, "More", 1480.0, grown=True, foaled="2012")
    page = viewer.get(beside(yard, old, more, age=24)).content.decode()
    assert "at 24 months" not in page
    assert 'role="img"' not in page  # nothing goes by age
    assert "what the growth curve cannot know" in page
    assert "above Old: more than the error." in page


def test_a_measure_nobody_took_says_so_and_draws_nothing(
    viewer: Client, yard: Yard
) -> None:
    one, other = make_horse(yard), make_horse(yard)
    answer = viewer.get(beside(yard, one, other, measure="throat_round"))
    assert answer.status_code == 200
    page = answer.content.decode()
    assert "too little is measured" in page
    assert 'role="img"' not in page


def test_what_is_struck_out_counts_for_nothing(viewer: Client, yard: Yard) -> None:
    one, other = measured(yard, "One", 1300.0), make_horse(yard, name="Other")
    make_measurement(other, on=date(2026, 4, 20), value=1500.0, struck="typed wrongly")
    page = viewer.get(beside(yard, one, other, age=24)).content.decode()
    assert "never measured: by type alone" in page
    assert "more than the error" not in page


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"age": "old"}, "An age in months is a number"),
        ({"age": "nan"}, "An age in months is a number"),
        ({"age": "1e999"}, "An age in months is a number"),
        ({"age": "-3"}, "From 0 to 72 months"),
        ({"age": "300"}, "From 0 to 72 months"),
        ({"measure": "wingspan"}, "No such measure is taken."),
    ],
)
def test_what_cannot_be_asked_is_refused_by_its_field(
    viewer: Client, yard: Yard, more: dict[str, str], said: str
) -> None:
    one, other = make_horse(yard), make_horse(yard)
    answer = viewer.get(beside(yard, one, other, **more))
    assert answer.status_code == 422
    page = answer.content.decode()
    assert said in page
    assert page.count("checked") == 2  # the horses stay ticked


def test_horses_of_other_yards_and_too_many_are_refused(
    viewer: Client, yard: Yard
) -> None:
    here = [make_horse(yard) for _ in range(5)]
    elsewhere = make_horse(make_yard(), name="Elsewhere")
    answer = viewer.get(beside(yard, here[0], elsewhere))
    assert answer.status_code == 422
    assert "No horse of that name stands here." in answer.content.decode()
    answer = viewer.get(beside(yard, *here))
    assert answer.status_code == 422
    assert "5 are ticked. At most 4 at once" in answer.content.decode()
    answer = viewer.get(f"{reverse('fitting:beside', args=[yard.slug])}?age=24")
    assert answer.status_code == 422
    assert "Tick two horses at least." in answer.content.decode()


@pytest.mark.parametrize("how_many", [2, 4])
def test_it_asks_as_often_of_four_horses_as_of_two(
    viewer: Client, yard: Yard, how_many: int, django_assert_num_queries: Any
) -> None:
    horses = [measured(yard, f"Horse {n}", 1300.0 + n) for n in range(how_many)]
    for horse in horses:
        for day in range(how_many):
            make_measurement(horse, on=date(2026, 5, 1 + day))
    address = beside(yard, *horses)
    viewer.get(address)
    # horses, measurements, tack, sets, try-ons, what sessions say of tack
    with django_assert_num_queries(SIGNED_IN + 6):
        assert viewer.get(address).status_code == 200
