"""What a list comes to: put together, held against what stands, looked at."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from fitting.body import MEASURES
from fitting.bringing_in import Stands
from tests.fitting.making_brought import METRIC, found_in, known, line, said

TAKEN_BY = [(measure.key, measure.methods[0].key) for measure in MEASURES]


def test_readings_of_one_day_by_one_method_are_one_measurement() -> None:
    outcome = line(
        "Pennyroyal,2026-11-01,withers,132,stick\n"
        "Pennyroyal,2026-11-01,withers,132.4 | 132.2,stick\n"
        "Pennyroyal,2026-11-01,withers,133,laser\n"
        "Pennyroyal,2026-11-01,withers,132,stick\n"
    )
    stick, laser = outcome.entries
    assert (stick.values, stick.lines) == ((1320.0, 1324.0, 1322.0), (2, 3))
    assert laser.method == "laser"
    assert said(outcome) == ["5: The same as line 2, word for word: it is read once."]
    assert [t.line for t in outcome.here_already] == [5]


def test_a_cell_of_more_readings_than_anybody_takes_is_refused() -> None:
    outcome = line(f"Pennyroyal,2026-11-01,withers,{'132|' * 13},stick")
    assert said(outcome) == ["2: A cell holds at most 12 readings."]


def test_a_file_of_more_readings_than_allowed_is_refused_as_a_whole() -> None:
    wide = ",".join(["Note,Horse,Day,Method", *(m.key for m in MEASURES)])
    row = ",".join(["Pennyroyal,2026-11-01,stick", *("50" for _ in MEASURES)])
    text = "\n".join([wide, *(f"{number},{row}" for number in range(5000))])
    outcome = found_in(text, known(), methods=tuple(TAKEN_BY))
    assert outcome.asks == ("There are more than 5000 readings. Part the file.",)
    assert not outcome.entries


def test_more_readings_than_anybody_takes_are_refused() -> None:
    outcome = line(
        "\n".join(
            f"Pennyroyal,2026-11-01,withers,{1300 + n} mm,stick" for n in range(13)
        )
    )
    assert not outcome.entries
    assert len(outcome.to_mend) == 13


STANDING = Stands(
    horse="pennyroyal",
    measure="withers_height",
    on=date(2026, 11, 1),
    method="stick",
    values=(1320.0, 1325.0),
)


@pytest.mark.parametrize(
    ("reading", "here", "doubts"),
    [
        ("132", True, 0),
        ("132.5 | 132", True, 0),
        ("132 | 132", False, 1),
        ("132.7", False, 1),
    ],
)
def test_what_stands_already_is_left_and_another_size_is_to_be_looked_at(
    reading: str, here: bool, doubts: int
) -> None:
    yard = known(METRIC, STANDING)
    outcome = line(f"Pennyroyal,2026-11-01,withers,{reading},stick", yard)
    assert bool(outcome.here_already) == here
    assert len(outcome.doubted) == doubts
    if doubts:
        (said_of_it,) = outcome.doubted[0].doubts
        assert said_of_it.startswith("132.3\u2009cm stands here already for that day")


def test_what_was_struck_out_does_not_come_back_unasked() -> None:
    yard = known(METRIC, replace(STANDING, struck=True))
    outcome = line("Pennyroyal,2026-11-01,withers,132,stick", yard)
    assert said(outcome) == [
        "2: Withers height of Pennyroyal: this stands here already, struck out."
    ]
    assert not line("Pennyroyal,2026-11-01,withers,133,stick", yard).doubted


def test_what_is_hard_to_believe_is_to_be_looked_at_and_not_refused() -> None:
    outcome = line(
        "Pennyroyal,2026-11-01,withers,190,stick\n"
        "Pennyroyal,2026-11-02,withers,132 | 140,stick\n"
        "Pennyroyal,2026-11-03,withers,132,stick"
    )
    far, apart = outcome.doubted
    assert "Far from what is usual of this type at that age" in far.doubts[0]
    assert "The readings lie 8.0\u2009cm apart. A measuring stick" in apart.doubts[0]
    assert [entry.lines for entry in outcome.good] == [(4,)]


def test_a_tick_stands_for_the_very_reading_it_stood_beside() -> None:
    (one,) = line("Pennyroyal,2026-11-01,withers,190,stick").doubted
    (other,) = line("Pennyroyal,2026-11-01,withers,191,stick").doubted
    assert one.key != other.key
