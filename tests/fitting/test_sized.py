"""A measure in words: its size, its share, its speed, and what it rests on."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from fitting.looks import Band, Last, MeasureLook
from fitting.readings import Units
from fitting.sized import Read, height_words, rests_words, size_words, speed_words

UNITS = Units(height="hands", length="cm", weight="kg")
LAST = Last(on=date(2026, 11, 1), value=1290.0, text="12.2½", method="stick")
HEIGHT = MeasureLook(
    measure="withers_height",
    name="withers height",
    dimension="height",
    unit="mm",
    last=LAST,
    now=Band(p5=1270.0, p50=1280.0, p95=1290.0),
    grown=Band(p5=1310.0, p50=1330.0, p95=1350.0),
    standing="stands",
    measure_by=None,
    rests_on="readings",
)
WEIGHT = replace(
    HEIGHT,
    measure="weight",
    dimension="weight",
    unit="kg",
    now=Band(p5=240.0, p50=260.0, p95=280.0),
    grown=Band(p5=300.0, p50=325.0, p95=350.0),
)


def test_the_share_is_that_of_the_middles_until_its_own_range_is_known() -> None:
    assert "about 96 % of the height she is likely to reach. Grown" in height_words(
        HEIGHT, "she", UNITS
    )
    done = replace(HEIGHT, done=Band(p5=0.944, p50=0.955, p95=0.981))
    said = height_words(done, "she", UNITS)
    assert "about 96 % of the height she is likely to reach (94 to 98 %). Grown" in said


def test_a_horse_never_measured_stands_by_type_and_age_alone() -> None:
    prior = replace(HEIGHT, last=None, rests_on="type")
    said = height_words(prior, "he", UNITS)
    assert said.startswith("By type and age alone he stands")
    assert "The first measurement narrows this." in said


def test_a_size_says_now_grown_and_its_share() -> None:
    said = size_words(WEIGHT, UNITS, grown=False)
    assert "most likely 260\u2009kg, nine times in ten 240 to 280\u2009kg." in said
    assert "Grown 300 to 350\u2009kg; about 80 % of that is reached." in said


def test_of_a_grown_horse_only_its_size_now_is_said() -> None:
    assert "Grown" not in size_words(WEIGHT, UNITS, grown=True)


def test_what_is_not_known_is_not_said() -> None:
    assert size_words(replace(WEIGHT, now=None), UNITS, grown=False) == ""
    assert height_words(replace(HEIGHT, now=None), "she", UNITS) == ""
    assert speed_words(HEIGHT, UNITS) == ""


@pytest.mark.parametrize(
    ("band", "said"),
    [
        (Band(p5=1.0, p50=3.2, p95=6.0), "3 mm more, nine times in ten 1 mm more to"),
        (Band(p5=-1.4, p50=2.0, p95=6.0), "2 mm more, nine times in ten nothing to 6"),
        (Band(p5=-0.4, p50=0.1, p95=0.3), "less than can be measured."),
    ],
)
def test_a_height_grows_or_stands_and_never_shrinks(band: Band, said: str) -> None:
    words = speed_words(replace(HEIGHT, a_month=band), UNITS)
    assert said in words
    assert "less to" not in words


def test_a_weight_may_fall_with_the_season() -> None:
    falls = replace(WEIGHT, a_month=Band(p5=-8.0, p50=-1.0, p95=6.0))
    said = speed_words(falls, UNITS)
    assert "most likely 1\u2009kg less, nine times in ten 8\u2009kg less" in said
    assert said.endswith("to 6\u2009kg more.")


@pytest.mark.parametrize(
    ("rests_on", "count", "parents", "said"),
    [
        ("type", 0, (), "Rests on no reading: on type and age alone."),
        (
            "type",
            0,
            ("dam", "sire"),
            (
                "Rests on no reading: on type and age alone, and on the height of the"
                " dam and the sire."
            ),
        ),
        ("tryons", 0, (), "Never measured: rests on what was tried on."),
        ("readings", 1, (), "Rests on 1 measurement since 3 May 2026."),
        (
            "both",
            4,
            (),
            "Rests on 4 measurements since 3 May 2026 and on what was tried on.",
        ),
        (
            "both",
            4,
            ("dam",),
            (
                "Rests on 4 measurements since 3 May 2026, on what was tried on and on"
                " the height of the dam."
            ),
        ),
    ],
)
def test_what_a_size_rests_on_is_said(
    rests_on: str, count: int, parents: tuple[str, ...], said: str
) -> None:
    look = replace(HEIGHT, rests_on=rests_on)  # type: ignore[arg-type]
    read = Read(count=count, first=date(2026, 5, 3) if count else None, parents=parents)
    assert rests_words(look, read, "3 May 2026") == said
