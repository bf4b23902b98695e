"""The gap at the front of the nose, as people say it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.fit.answers import Answer
from fitting.fit.clearances import GAPS
from fitting.nose_gap import UnreadableGapError, gap_words, read_gap, write_gap
from fitting.units.showing import THIN_SPACE


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("18", 18.0),
        ("18 mm", 18.0),
        ("1.8 cm", 18.0),
        ("3/4 in", 19.05),
        ("0", 0.0),
        ("no fingers", 0.0),
        ("1 finger", 10.0),
        ("  two   fingers ", 20.0),
        ("2 Fingers", 20.0),
        ("3 f", 30.0),
    ],
)
def test_a_gap_is_read_in_millimetres_or_fingers(typed: str, mm: float) -> None:
    assert read_gap(typed).mm == pytest.approx(mm)


def test_two_fingers_are_the_good_edge_of_a_noseband_and_one_is_too_tight() -> None:
    """Two: 20 mm, the mark on the gauge of the society for equitation science."""
    gap = GAPS["noseband"]
    assert read_gap("2 fingers").mm == gap.good_from == 20
    assert gap.answer(read_gap("2 fingers").mm) is Answer.GOOD
    assert gap.answer(read_gap("1 finger").mm) is Answer.NO


def test_a_finger_is_the_good_edge_of_a_cavesson() -> None:
    assert read_gap("1 finger").mm == GAPS["cavesson"].good_from
    assert read_gap("2 fingers").mm == GAPS["headcollar"].good_from


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("5 fingers", "5 fingers are a hand"),
        ("99 fingers", "99 fingers are a hand"),
        ("8 cm", "8 cm is 80 mm: a noseband leaves 60 at most"),
        ("a thumb", "Or in fingers: 2 fingers."),
        ("", "Or in fingers: 2 fingers."),
        ("-4", "Or in fingers: 2 fingers."),
        ("nan", "Or in fingers: 2 fingers."),
        ("٢ fingers", "Or in fingers: 2 fingers."),
    ],
)
def test_what_is_no_gap_is_refused_in_words(typed: str, why: str) -> None:
    with pytest.raises(UnreadableGapError, match=why):
        read_gap(typed)


@given(
    st.just(0.0) | st.floats(1, 60),
    st.sampled_from(["", "18", "2 fingers", "1.8 cm", "odd"]),
)
def test_a_gap_written_down_reads_back_to_the_same(mm: float, written: str) -> None:
    mm = round(mm, 2)
    text = write_gap(mm, written)
    assert read_gap(text).mm == pytest.approx(mm, rel=1e-5)


def test_a_written_gap_keeps_its_words_only_while_they_are_true() -> None:
    assert write_gap(20.0, "2 fingers") == "2 fingers"
    assert write_gap(17.5, "2 fingers") == "17.5 mm"
    assert write_gap(18.0, "18") == "18 mm"


def test_fingers_are_said_with_what_they_count_as() -> None:
    assert gap_words(20.0, "2 fingers") == "2 fingers, taken as 20 mm"
    assert gap_words(18.0, "18") == "18 mm"


@pytest.mark.parametrize("written", ["3/4 in", '3/4"', "¾ inch"])
def test_a_gap_typed_in_inches_is_said_in_inches(written: str) -> None:
    assert gap_words(read_gap(written).mm, written) == f"¾{THIN_SPACE}in (19.1 mm)"
