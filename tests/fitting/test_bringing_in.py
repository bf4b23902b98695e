"""Lines of a keeper's list become measurements, or sentences that say why not."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.body import MEASURES, measure_by_key
from fitting.bringing_in import DELIMITERS, Entry, UnreadableFileError
from fitting.readings import Units, read_reading
from tests.fitting.making_brought import (
    METRIC,
    PENNYROYAL,
    TODAY,
    as_list,
    found_in,
    known,
    line,
    said,
)


@pytest.mark.parametrize(
    ("measure", "typed", "units", "mm"),
    [
        ("withers height", "13.1", Units(), 53 * 25.4),
        ("Withers", "13.1½", Units(), 53.5 * 25.4),
        ("withers_height", "132,5", METRIC, 1325.0),
        ("withers height", "132.5 cm", Units(), 1325.0),
        ("mouth width", "4 7/8", Units(), 4.875 * 25.4),
        ("mouth width", '"4¾"""', METRIC, 4.75 * 25.4),
        ("mouth width", "123 mm", Units(), 123.0),
        ("weight", "600 lb", METRIC, 600 * 0.45359237),
        ("weight", "287,5", METRIC, 287.5),
        ("condition score", "5,5", METRIC, 5.5),
    ],
)
def test_a_reading_is_read_in_the_yards_units_or_as_written(
    measure: str, typed: str, units: Units, mm: float
) -> None:
    methods = {"withers": "stick", "mouth": "string", "weight": "weighbridge"}
    method = methods.get(measure.casefold().replace("_", " ").split()[0], "")
    headings = "Horse;Day;Measure;Reading;Method"
    text = f"{headings}\nPennyroyal;2026-11-01;{measure};{typed};{method}"
    (entry,) = found_in(text, known(units)).entries
    assert entry.values == pytest.approx((mm,))


def test_a_column_for_each_measure_gives_each_its_readings() -> None:
    text = (
        "Horse;Day;Withers 1 (cm);Withers 2 (cm);Girth (in);Condition;Method;Shod\n"
        "pennyroyal;1/11/2026;132,0;132,5;60;5;stick;yes\n"
        "Old Marl;13/11/2026;;;64;;tape;\n"
    )
    outcome = found_in(text, known(Units()), methods=(("heart_girth", "tape"),))
    assert said(outcome) == []
    withers, girth, score, marl = outcome.entries
    assert (withers.values, withers.method) == ((1320.0, 1325.0), "stick")
    assert withers.readings[0].written == "132,0 cm"
    assert (withers.on, withers.shod) == (date(2026, 11, 1), True)
    # A stick is no way to take a girth: what was said below counts.
    assert girth.values == pytest.approx((1524.0,))
    assert girth.method == "tape"
    assert (score.values, score.method) == ((5.0,), "eye")
    assert (marl.horse, marl.lines) == ("old-marl", (3,))
    assert outcome.methods_asked == ("heart_girth",)


def test_a_unit_column_goes_with_bare_numbers_only() -> None:
    text = (
        "Horse,Day,Measure,Reading,Unit,Method\n"
        "Pennyroyal,2026-11-01,mouth,4.5,in,string\n"
        "Pennyroyal,2026-11-02,mouth,114 mm,in,string\n"
        "Pennyroyal,2026-11-02,condition,5,points,\n"
        "Pennyroyal,2026-11-03,mouth,114,furlongs,string\n"
    )
    outcome = found_in(text, known())
    assert [entry.values for entry in outcome.entries] == [(114.3,), (114.0,), (5.0,)]
    assert "5: Mouth width: 114 furlongs cannot be read" in said(outcome)[0]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("Pennyroyle,2026-11-01,withers,132,stick", "Pennyroyal may be meant."),
        ("=HYPERLINK(A1),2026-11-01,withers,132,stick", "No horse here is called =HYP"),
        (",2026-11-01,withers,132,stick", "No horse is named."),
        ("Pennyroyal,,withers,132,stick", "No day is written."),
        ("Pennyroyal,2026-11-26,withers,132,stick", "still to come"),
        ("Pennyroyal,2024-04-18,withers,132,stick", "Pennyroyal was not foaled yet"),
        ("Pennyroyal,soon,withers,132,stick", "soon is no day"),
        ("Pennyroyal,2026-11-01,wethers height,132,stick", "Withers height may be"),
        ("Pennyroyal,2026-11-01,tail,132,stick", "no measure called tail."),
        ("Pennyroyal,2026-11-01,,132,stick", "No measure is named"),
        ("Pennyroyal,2026-11-01,withers,,stick", "No reading is written."),
        ("Pennyroyal,2026-11-01,withers,132,", "No method is written."),
        ("Pennyroyal,2026-11-01,withers,132,guess", "guess is not how it is taken"),
        ("Pennyroyal,2026-11-01,girth,132,stick", "stick is not how it is taken: tape"),
        ("Pennyroyal,2026-11-01,withers,-132,stick", "never less than nothing"),
        ("Pennyroyal,2026-11-01,withers,9e99,stick", "cannot be read"),
        (f"Pennyroyal,2026-11-01,withers,{'9' * 280},stick", "cannot be read"),
        ("Pennyroyal,2026-11-01,withers,nan,stick", "cannot be read"),
        ("Pennyroyal,2026-11-01,withers,=1+1,stick", "=1+1 cannot be read"),
        ("Pennyroyal,2026-11-01,withers,132,stick,x", "6 cells under 5 headings"),
        (f"Pennyroyal,2026-11-01,{'w' * 301},132,stick", "at most 300 characters"),
    ],
)
def test_a_line_that_cannot_be_read_says_why_by_its_number(text: str, why: str) -> None:
    outcome = line(f"Old Marl,2026-11-01,withers,145,stick\n{text}")
    assert len(outcome.entries) == 1
    (sentence,) = said(outcome)
    assert sentence.startswith("3: ")
    assert why in sentence


def test_what_may_be_meant_is_said_in_both_units() -> None:
    (sentence,) = said(line("Pennyroyal,2026-11-01,withers,13.4,stick", known(Units())))
    assert "13.4 cannot be read. A hand has four inches" in sentence
    assert "It may mean 13.3 hands (139.7\u2009cm) or 14.0" in sentence


def test_two_horses_that_differ_by_capitals_are_told_apart_or_asked() -> None:
    yard = known()
    twin = replace(PENNYROYAL, key="twin", name="PENNYROYAL")
    yard = replace(yard, horses=(*yard.horses, twin))
    first = line("PENNYROYAL,2026-11-01,withers,132,stick", yard)
    assert first.entries[0].horse == "twin"
    unclear = line("pennyroyal,2026-11-01,withers,132,stick", yard)
    assert said(unclear) == ["2: pennyroyal may be Pennyroyal or PENNYROYAL."]


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("Day,Withers\n2026-11-01,132", "No column names the horse"),
        ("Horse,Withers\nPennyroyal,132", "No column names the day"),
        ("Horse,Day\nPennyroyal,2026-11-01", "No column holds readings"),
        ("Horse,Day,Measure\nPennyroyal,2026-11-01,withers", "needs one with readings"),
        ("Horse,Day,Withers\nPennyroyal,3/4/2026,132", "3/4/2026 may mean two days"),
        (
            "Horse,Day,Withers\nPennyroyal,13/4/2026,132\nPennyroyal,4/13/2026,132",
            "Some days have the month first",
        ),
    ],
)
def test_what_must_be_said_first_is_asked_and_nothing_is_read(
    text: str, asked: str
) -> None:
    outcome = found_in(text, known())
    assert not outcome.entries
    assert asked in outcome.asks[0]


def test_an_order_that_was_asked_for_is_read_as_answered() -> None:
    text = "Horse,Day,Withers,Method\nPennyroyal,3/4/2026,132,stick"
    assert found_in(text, known(), order="day").entries[0].on == date(2026, 4, 3)
    assert found_in(text, known(), order="month").entries[0].on == date(2026, 3, 4)


def test_two_columns_for_the_horse_are_asked_about() -> None:
    outcome = line(
        "Ash,2026-11-01,withers,1,stick", roles=("horse", "horse", "", "", "")
    )
    assert "2 columns are taken for the horse" in outcome.asks[0]


def test_lines_that_name_no_horse_are_of_the_one_that_was_said() -> None:
    text = "Day,Withers,Method\n2026-11-01,132,stick"
    (entry,) = found_in(text, known(), horse="old-marl").entries
    assert entry.horse == "old-marl"


WORDS = st.text(
    st.characters(blacklist_categories=("Cc", "Cs", "Zs", "Zl", "Zp")), max_size=12
)


@st.composite
def entries(draw: st.DrawFn) -> list[Entry]:
    """Draw measurements, one at most of each horse, measure and day."""
    seen: dict[tuple[object, ...], Entry] = {}
    for number in range(draw(st.integers(1, 6))):
        measure = draw(st.sampled_from(MEASURES))
        on = TODAY - timedelta(days=draw(st.integers(0, 500)))
        horse = draw(st.sampled_from(("pennyroyal", "old-marl")))
        typed = [sizes(draw, measure.key) for _ in range(draw(st.integers(1, 3)))]
        entry = Entry(
            lines=(number + 2,),
            horse=horse,
            measure=measure.key,
            on=on,
            method=draw(st.sampled_from(measure.methods)).key,
            readings=tuple(
                read_reading(text, measure.dimension, METRIC) for text in typed
            ),
            who=draw(WORDS),
            same_person=draw(st.booleans()),
            shod=draw(st.booleans()),
            note=draw(WORDS),
        )
        seen.setdefault((horse, measure.key, on), entry)
    return list(seen.values())


def sizes(draw: st.DrawFn, measure: str) -> str:
    """Draw a typed size, whole or with a decimal comma or point."""
    tenths = draw(st.integers(0, 9))
    sign = draw(st.sampled_from(".,"))
    match measure_by_key(measure).dimension:
        case "height":
            return f"{draw(st.integers(90, 180))}{sign}{tenths} cm"
        case "weight":
            return f"{draw(st.integers(90, 700))} kg"
        case "score":
            return f"{draw(st.integers(1, 8))}{sign}{tenths}"
        case _:
            return f"{draw(st.integers(10, 200))}{sign}{tenths}"


@given(entries(), st.sampled_from(sorted(DELIMITERS)))
def test_a_list_of_measurements_comes_back_as_it_was(
    written: list[Entry], delimiter: str
) -> None:
    text = as_list(written, DELIMITERS[delimiter])
    outcome = found_in(text, known())
    assert said(outcome) == []
    lines = range(2, len(written) + 2)
    back = [replace(entry, doubts=()) for entry in outcome.entries]
    assert back == [
        replace(entry, lines=(number,))
        for number, entry in zip(lines, written, strict=True)
    ]


SIGNS = (*',;\n"\t=-', "\n\n", '""', "\u2028", "½", "٣", "1e999", "13.4")
WRITTEN = ("Pennyroyal", "Old Marl", "2026-11-01", "3/4/2026", "132 cm", "stick")
PIECES = st.sampled_from((*SIGNS, *WRITTEN))


@given(st.lists(PIECES | st.text(max_size=4), max_size=40).map("".join))
def test_every_line_of_any_text_is_read_or_told_about(text: str) -> None:
    try:
        outcome = found_in(f"Horse,Day,Withers,Method\n{text}", known())
    except UnreadableFileError:
        return
    told = {trouble.line for trouble in outcome.troubles}
    read = {number for entry in outcome.entries for number in entry.lines}
    assert outcome.asks or len(told | read) == outcome.lines
