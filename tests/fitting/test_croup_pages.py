"""Croup and withers on the body page: said, drawn and in figures."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from django.test import Client
from pytest_django import DjangoAssertNumQueries

from fitting.drawings.croup import CroupChart, CroupMark, croup_chart
from fitting.models import Horse, Measurement, Yard
from fitting.reads.croup import NEVER, croup_view
from fitting.reads.today import today_in
from tests.fitting.making_measured import at, pennyroyal

HIGH_TWICE = ((100, 25), (12, 66), (4, 68))


def measured(horse: Horse, *pairs: tuple[int, float], method: str = "stick") -> None:
    """Write down withers and croup so many days ago, the croup so far over."""
    for ago, over in pairs:
        for measure, mm in (
            ("withers_height", 1300.0),
            ("croup_height", 1300.0 + over),
        ):
            Measurement.objects.create(
                horse=horse,
                measure=measure,
                on=today_in(horse.yard) - timedelta(days=ago),
                method=method,
                who="Jo",
                same_person=True,
                readings=[{"written": f"{mm / 10} cm", "value": mm}],
            )


@pytest.fixture
def filly(yard: Yard) -> Horse:
    yard.height_unit = "cm"
    yard.save()
    return pennyroyal(yard)


def section(client: Client) -> str:
    page = client.get(at("horse")).content.decode().replace("\u2009", " ")
    return str(page.partition('id="croup"')[2].partition("</section>")[0])


def test_a_usual_croup_is_said_beside_what_is_usual(
    keeper: Client, filly: Horse
) -> None:
    measured(filly, (60, 26), (2, 31))
    page = section(keeper)
    assert "Croup 3.1 cm over the withers; usual for her 2.6 cm." in page
    assert "Not high, as read last." in page
    assert 'class="said' not in page
    assert "ring your vet" in page
    assert "No study found measured that croup and withers rise in turn" in page


def test_high_twice_running_says_until_when_and_rings_both(
    keeper: Client, filly: Horse
) -> None:
    measured(filly, *HIGH_TWICE)
    page = section(keeper)
    ends = today_in(filly.yard) + timedelta(days=24)
    assert f"a growth pause until {ends.day} {ends:%b %Y}" in page
    assert 'class="said is-no"' in page
    assert page.count("<b>high</b>") == 2
    assert "growth pause</span>" in page


def test_one_high_reading_says_from_when_to_take_both_again(
    keeper: Client, filly: Horse
) -> None:
    measured(filly, (100, 25), (2, 66))
    again = today_in(filly.yard) + timedelta(days=5)
    page = section(keeper)
    assert f"take both again from {again.day} {again:%b %Y}" in page
    assert 'class="said is-watch"' in page


def test_what_is_struck_out_no_longer_counts(keeper: Client, filly: Horse) -> None:
    measured(filly, *HIGH_TWICE)
    last = filly.measurements.filter(measure="croup_height").first()
    assert last is not None
    last.struck = "Misread"
    last.save()
    assert "twice running" not in section(keeper)


def test_never_on_one_day_says_so_and_draws_nothing(
    keeper: Client, filly: Horse
) -> None:
    measured(filly, (2, 30))
    filly.measurements.filter(measure="croup_height").update(method="tape")
    page = section(keeper)
    assert NEVER in page
    assert "<svg" not in page


def test_nothing_measured_and_a_grown_horse_show_no_section(
    keeper: Client, filly: Horse
) -> None:
    assert section(keeper) == ""
    measured(filly, *HIGH_TWICE)
    filly.grown = True
    filly.save()
    assert section(keeper) == ""


def test_tape_and_stick_are_told_apart_in_figures(keeper: Client, filly: Horse) -> None:
    measured(filly, (60, 26))
    measured(filly, (2, 31), method="tape")
    page = section(keeper)
    assert "stick or laser</small>" in page
    assert "tape</small>" in page
    assert "usual for her" not in page


def test_the_view_asks_the_database_for_nothing(
    filly: Horse, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    measured(filly, *HIGH_TWICE)
    rows = list(filly.measurements.all())
    today = today_in(filly.yard)
    with django_assert_num_queries(0):
        view = croup_view(filly, rows, today)
    assert view is not None
    assert view.rows[0].over.startswith("6.8")


def test_in_inches_where_heights_are_in_hands(keeper: Client, filly: Horse) -> None:
    filly.yard.height_unit = "hands"
    filly.yard.save()
    measured(filly, (2, 25.4))
    assert "Croup 1 in over the withers." in section(keeper)


CHART = CroupChart(
    uid="croup",
    title="Tansy & croup",
    desc="Croup 3.1 cm over the withers.",
    unit="cm",
    born=date(2024, 4, 24),
    today=date(2026, 11, 25),
    pairs=(
        CroupMark(
            on=date(2026, 11, 1), over_mm=31, half_width_mm=16, mark="stick", high=False
        ),
    ),
    edge_mm=50,
)


@pytest.mark.parametrize("narrow", [True, False])
def test_the_drawing_names_itself_and_its_lines(narrow: bool) -> None:
    drawn = croup_chart(CHART, narrow=narrow)
    assert 'role="img"' in drawn
    assert "Tansy &amp; croup" in drawn
    assert "high from 5.0" in drawn
    assert ">level" in drawn
    assert "usual" not in drawn
    assert ' r="9"' not in drawn


def test_the_drawing_shows_the_usual_pauses_and_rings() -> None:
    high = replace(CHART.pairs[0], high=True)
    start = date(2026, 11, 1)
    shown = replace(
        CHART,
        pairs=(high,),
        usual_mm=24,
        pauses=((start, start + timedelta(days=28)),),
    )
    drawn = croup_chart(shown)
    assert "usual 2.4" in drawn
    assert drawn.count(' r="9"') == 1
    assert '<rect class="f-band"' in drawn


def test_a_drawing_without_a_pair_is_refused() -> None:
    with pytest.raises(ValueError, match="needs one pair"):
        croup_chart(replace(CHART, pairs=()))
