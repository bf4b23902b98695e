"""What may be asked of a body: when it passes a size, and what it is on a day."""

from __future__ import annotations

from datetime import timedelta
from typing import Any
from urllib.parse import urlencode

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from fitting.models import Yard
from fitting.passing import passing
from fitting.reads.growth import growth_of
from fitting.reads.today import today_in
from starting.writes import replan
from tests.fitting.making_youngster import at, text_of, youngster
from tests.make import make_horse, make_measurement


@pytest.fixture
def planned(yard: Yard) -> Yard:
    youngster(yard)
    replan(yard, today_in(yard))
    return yard


def ask(client: Client, status: int = 200, **asked: str) -> str:
    return text_of(client, f"{at('horse', 'pennyroyal')}?{urlencode(asked)}", status)


# When a size is passed


def test_the_page_says_the_chance_today_and_three_days(
    keeper: Client, planned: Yard
) -> None:
    page = ask(keeper, measure="withers_height", limit="12.3½")
    growth = growth_of(planned.horses.get())
    found = passing(growth, "withers_height", 1308.1, today_in(planned))
    assert found is not None
    assert found.likely is not None
    assert "12.3½ hands (130.8\u2009cm), withers height" in page
    assert f"{found.likely.day} {found.likely:%b %Y}" in page
    assert f"about {round(100 * found.today)} in 100" in page
    assert "one in five by then" in page
    assert "A forecast is no promise" in page
    assert "an official measurer" in page


def test_what_was_passed_is_said_to_be_gone_by(keeper: Client, planned: Yard) -> None:
    page = ask(keeper, measure="withers_height", limit="110 cm")
    assert "over 99 in 100" in page
    assert ", gone by" in page


def test_what_is_not_reached_has_no_day(keeper: Client, planned: Yard) -> None:
    page = ask(keeper, measure="withers_height", limit="16")
    assert page.count("not by ") == 3
    assert "under 1 in 100" in page


@pytest.mark.parametrize(
    ("measure", "limit"),
    [("mouth_width", "4 3/4 in"), ("weight", "300"), ("heart_girth", "150 cm")],
)
def test_any_measure_may_be_asked_of_in_its_own_notation(
    keeper: Client, planned: Yard, measure: str, limit: str
) -> None:
    page = ask(keeper, measure=measure, limit=limit)
    assert "Today the chance that she is past it" in page
    assert "an official measurer" not in page


def test_a_measure_nothing_is_known_of_asks_to_be_taken(
    keeper: Client, planned: Yard
) -> None:
    page = ask(keeper, measure="back_length", limit="20 in")
    assert "Nothing is known of this yet: measure the back length once." in page
    assert "one in five by then" not in page


def test_a_limit_that_cannot_be_read_is_refused_with_what_may_be_meant(
    keeper: Client, planned: Yard
) -> None:
    page = ask(keeper, 422, measure="withers_height", limit="14.5")
    assert "14.5 cannot be read." in page
    assert page.count("A hand has") == 1
    assert 'value="14.5|14.2 hands"' in page
    assert 'value="14.5"' in page
    assert "one in five by then" not in page


def test_a_chosen_meaning_stands_for_what_was_typed(
    keeper: Client, planned: Yard
) -> None:
    asked = {
        "measure": "withers_height",
        "limit": "14.5",
        "limit-meant": "14.5|14.2 hands",
    }
    page = text_of(keeper, f"{at('horse', 'pennyroyal')}?{urlencode(asked)}")
    assert "14.5 is read as 14.2 hands" in page
    assert "14.2 hands (147.3" in page
    assert "one in five by then" in page


@pytest.mark.parametrize(
    "asked",
    [
        {"limit": "14.2"},
        {"measure": "withers_height", "limit": ""},
        {"measure": "no_such", "limit": "14.2"},
        {"measure": "withers_height", "limit": "1e999"},
        {"measure": "withers_height", "limit": "nan"},
        {"measure": "withers_height", "limit": "٣"},
        {"measure": "withers_height", "limit": "-3"},
        {"measure": "withers_height", "limit": "1" * 500},
        {"measure": "condition_score", "limit": "5"},
        {"measure": "weight", "limit": "\x00"},
    ],
)
def test_nonsense_is_refused_and_the_page_still_stands(
    keeper: Client, planned: Yard, asked: dict[str, str]
) -> None:
    page = ask(keeper, 422, **asked)
    assert "Today she stands" in page


# On another day


@pytest.mark.parametrize("days", [-900, -400, 0, 365, 3600])
def test_every_known_measure_is_shown_on_a_day(
    keeper: Client, planned: Yard, days: int
) -> None:
    day = today_in(planned) + timedelta(days=days)
    page = ask(keeper, day=day.isoformat())
    assert f"On {day.day} {day:%b %Y}," in page
    table = page[page.index('id="on-day"') :]
    for said in ("Withers height", "Weight", "Mouth width"):
        assert said in table
    assert "Not known until measured once:" in table
    assert ("A forecast is no promise" in table) == (days > 0)


def test_the_sizes_are_those_of_growth_on_that_day(
    keeper: Client, planned: Yard
) -> None:
    day = today_in(planned) + timedelta(days=400)
    size = growth_of(planned.horses.get()).at("weight", day)
    assert size is not None
    page = ask(keeper, day=day.isoformat())
    assert f"<td>{size.quantile(0.5):.0f}\u2009kg</td>" in page


@pytest.mark.parametrize(
    ("day", "said"),
    [
        ("1999-01-01", "On that day she was not foaled yet."),
        ("9999-12-31", "Ten years are looked ahead"),
        ("yesterday", "That is no day. Write"),
        ("", "required"),
    ],
)
def test_a_day_that_cannot_be_shown_is_refused_in_words(
    keeper: Client, planned: Yard, day: str, said: str
) -> None:
    page = ask(keeper, 422, day=day)
    assert said in page
    assert "Today she stands" in page


def test_a_foal_known_only_by_its_year_is_shown_from_its_first_possible_day(
    keeper: Client, yard: Yard
) -> None:
    born = today_in(yard).year - 2
    make_horse(yard, name="Pennyroyal", foaled=str(born))
    replan(yard, today_in(yard))
    for day in (f"{born}-01-01", f"{born}-07-01"):
        assert "Withers height" in ask(keeper, day=day)
    assert "not foaled yet" in ask(keeper, 422, day=f"{born - 1}-12-31")


# Who may, and what it costs


def test_a_viewer_may_ask_too(viewer: Client, planned: Yard) -> None:
    page = ask(viewer, measure="withers_height", limit="14.2", day="2029-01-01")
    assert "one in five by then" in page


def test_a_grown_horse_is_not_asked_when_it_passes_a_size(
    keeper: Client, yard: Yard
) -> None:
    make_measurement(make_horse(yard, name="Pennyroyal", foaled="2012", grown=True))
    replan(yard, today_in(yard))
    assert 'name="limit"' not in ask(keeper)


def test_an_answer_costs_no_query(
    keeper: Client, planned: Yard, django_assert_num_queries: Any
) -> None:
    with CaptureQueriesContext(connection) as plain:
        ask(keeper)
    with django_assert_num_queries(len(plain)):
        ask(keeper, measure="withers_height", limit="14.2", day="2028-03-01")
