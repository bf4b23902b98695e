"""The drawings are whole, said in words, and safe to put on a page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from xml.etree import ElementTree as ET

import pytest

from fitting.body import MEASURES
from fitting.drawings.charts import BandPoint, Parent, Reading, figures, growth_chart
from fitting.drawings.horse import Build, horse
from fitting.drawings.how_to import how_to
from fitting.drawings.marks import at_age
from fitting.drawings.scale import NARROW, Plot, Unit, multiples
from fitting.drawings.signs import (
    SIGN_OF,
    WORDS,
    phases,
    sign,
    sign_of,
    sprite,
    word_of,
)
from tests.fitting.making_charts import CHART, parsed

DRAWN_MEASURES = tuple(measure.key for measure in MEASURES)


def every_drawing() -> Iterator[str]:
    yield sprite()
    yield from (sign(name) for name in WORDS)
    yield from (how_to(measure) for measure in DRAWN_MEASURES)
    yield from (growth_chart(CHART, narrow=narrow) for narrow in (True, False))
    yield phases(("established", "under_way", "waiting"), "one of three")


def test_every_sign_of_the_sprite_has_a_word_and_every_word_a_sign() -> None:
    drawn = [symbol.get("id") for symbol in parsed(sprite()).iter("symbol")]
    assert sorted(map(str, drawn)) == sorted(WORDS)
    assert all(WORDS.values())


def test_no_two_signs_of_one_family_share_a_word_or_a_shape() -> None:
    shapes = {s.get("id", ""): ET.tostring(s) for s in parsed(sprite()).iter("symbol")}
    for family in ("fit", "gate", "knot"):
        names = [name for name in WORDS if name.startswith(family)]
        assert len({WORDS[name] for name in names}) == len(names)
        assert len({shapes[name].partition(b">")[2] for name in names}) == len(names)


@pytest.mark.parametrize("answer", [*SIGN_OF, "not_known"])
def test_every_answer_has_a_sign_and_a_word(answer: str) -> None:
    assert sign_of(answer) in WORDS
    assert word_of(answer)


def test_not_known_is_never_drawn_as_good_nor_as_met() -> None:
    assert sign_of("not_known") == "fit-unknown"
    assert sign_of("not_known", gate=True) == "gate-unknown"
    assert word_of("not_known") == "can't say"


def test_an_unknown_sign_is_refused() -> None:
    with pytest.raises(KeyError):
        sign("fit-perhaps")
    with pytest.raises(KeyError):
        sign_of("perhaps")


def test_every_drawing_is_well_formed() -> None:
    for svg in every_drawing():
        assert parsed(svg).tag == "svg"


def test_no_drawing_holds_style_script_or_an_address() -> None:
    for svg in every_drawing():
        for element in parsed(svg).iter():
            assert element.tag not in {"style", "script", "image", "foreignObject"}
            for name, value in element.attrib.items():
                assert name != "style"
                assert not name.startswith("on")
                assert "http" not in value


def test_ids_are_unique_when_all_stand_on_one_page() -> None:
    ids = [
        element.get("id")
        for svg in every_drawing()
        for element in parsed(svg).iter()
        if element.get("id")
    ]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("narrow", [True, False])
def test_a_chart_says_what_it_shows(narrow: bool) -> None:
    svg = parsed(growth_chart(CHART, narrow=narrow))
    assert svg.get("role") == "img"
    title, desc = svg.find("title"), svg.find("desc")
    assert title is not None
    assert desc is not None
    assert svg.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"
    assert (title.text, desc.text) == (CHART.title, CHART.desc)


@pytest.mark.parametrize("narrow", [True, False])
@pytest.mark.parametrize("unit", ["hands", "cm", "in", "mm"])
def test_every_mark_of_a_chart_lies_inside_it(unit: Unit, narrow: bool) -> None:
    svg = parsed(growth_chart(replace(CHART, unit=unit), narrow=narrow))
    width, height = map(float, svg.get("viewBox", "").split()[2:])
    for element in svg.iter():
        for across, down in (("x", "y"), ("cx", "cy")):
            if element.get(across) is not None:
                assert 0 <= float(element.get(across, "")) <= width
                assert 0 <= float(element.get(down, "")) <= height


def test_no_words_of_a_chart_are_smaller_than_twelve() -> None:
    for narrow in (True, False):
        svg = parsed(growth_chart(CHART, narrow=narrow))
        assert min(float(t.get("font-size", "0")) for t in svg.iter("text")) >= 12


def test_a_chart_shows_every_reading_of_the_shown_ages() -> None:
    bare = growth_chart(replace(CHART, readings=(), bounds=()))
    full = growth_chart(CHART)
    marks = full.count("<rect") + full.count("<circle")
    assert marks - bare.count("<rect") - bare.count("<circle") == len(CHART.readings)


def test_the_median_lies_where_its_size_lies() -> None:
    plot = Plot(frame=NARROW, ages=(0, 48), sizes=(1000, 1400), unit="cm")
    assert plot.y(1000) == NARROW.bottom
    assert plot.y(1400) == NARROW.top
    assert plot.x(24) == (NARROW.left + NARROW.right) / 2


def test_the_band_is_read_between_its_points_and_never_beyond_them() -> None:
    between = at_age(CHART.band, 7)
    assert between is not None
    assert between.p50 == 1148
    assert at_age(CHART.band, 5) is None
    assert at_age(CHART.band, 90) is None


def test_a_stick_in_hands_counts_hands_and_a_short_piece_of_it_inches() -> None:
    tall = Plot(frame=NARROW, ages=(0, 48), sizes=(1000, 1400), unit="hands")
    short = Plot(frame=NARROW, ages=(0, 48), sizes=(1400, 1500), unit="hands")
    assert tall.ruling() == pytest.approx((101.6, 25.4))
    assert short.ruling() == pytest.approx((25.4, 12.7))
    assert list(multiples(101.6, (1000, 1130))) == pytest.approx([1016, 1117.6])


def test_the_same_in_figures_gives_today_birthdays_and_grown() -> None:
    rows = figures(CHART)
    assert [row.age for row in rows] == ["today", "3 years", "4 years", "grown"]
    assert rows[-1].middle == "13.0¼"
    assert rows[-1].between == "12.3¼ to 13.1½"


def test_a_chart_of_nothing_is_refused() -> None:
    empty = replace(
        CHART, band=(), readings=(), bounds=(), parents=(), grown=None, floors=()
    )
    with pytest.raises(ValueError, match="shows nothing"):
        growth_chart(empty)


def test_a_horse_never_measured_still_shows_its_wide_band() -> None:
    svg = growth_chart(replace(CHART, readings=(), bounds=()))
    assert 'class="f-band"' in svg


def test_an_older_horse_is_not_shown_from_birth() -> None:
    old = replace(
        CHART,
        born=date(2012, 5, 3),
        band=(
            BandPoint(age_months=140, p5=1400, p50=1420, p95=1440),
            BandPoint(age_months=200, p5=1400, p50=1420, p95=1440),
        ),
        readings=(Reading(age_months=150, value=1421),),
        floors=(),
    )
    svg = growth_chart(old)
    assert ">born<" not in svg
    assert ">12 years<" in svg


def test_typed_words_are_escaped_in_a_drawing() -> None:
    svg = growth_chart(replace(CHART, parents=(Parent(name="<b>dam</b>", value=1372),)))
    assert "<b>" not in svg
    assert "<b>" not in phases(("open",), "<b>")


@pytest.mark.parametrize("measure", DRAWN_MEASURES)
def test_every_measure_has_a_picture_with_what_to_measure_in_leather(
    measure: str,
) -> None:
    svg = parsed(how_to(measure))
    lines = [e for e in svg.iter() if e.get("class") == "c-leather"]
    # A width of the back: where, the curve, across it. A weight: scale and tape.
    several = {"back_width_front": 3, "back_width_last_rib": 3, "weight": 2}
    assert len(lines) == {**several, "condition_score": 6}.get(measure, 1)
    assert svg.get("aria-hidden") == "true"


def test_no_two_measures_share_a_picture() -> None:
    assert len({how_to(measure) for measure in DRAWN_MEASURES}) == len(MEASURES)


@pytest.mark.parametrize("measure", DRAWN_MEASURES)
def test_a_picture_on_a_page_that_shares_the_horse_does_not_draw_it_again(
    measure: str,
) -> None:
    if "mouth" in measure or measure in {"jaw_gap", "tongue_thickness"}:
        return
    shared = how_to(measure, shared=True)
    assert '<use href="#art-' in shared
    assert len(shared) < len(how_to(measure)) / 2


def test_what_is_no_measure_has_no_picture() -> None:
    assert how_to("tail_length") == ""


def test_a_youngster_is_drawn_shorter_in_the_back_and_lighter_in_the_trunk() -> None:
    grown, young = Build(), Build(young=1)
    assert young.moves(290, 140)[0] < grown.moves(290, 140)[0]
    assert young.moves(160, 155)[1] < grown.moves(160, 155)[1]
    assert Build(croup=5).moves(240, 60)[1] == grown.moves(240, 60)[1] - 5
    assert horse(young) != horse(grown)
