"""Heights of Icelandic youngsters, predicted from their first three stick heights.

Source: Sveinsson I (1993) Rit Buvisindadeildar pp. 17-18, and (1994) p. 67: means of
a crop born in May and June 1989, 50 at birth, 31 left in 1992. Ages are taken from
the season of birth. The means are read as one horse, each as one reading by a person
unknown.
"""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from fitting.age import Foaled
from fitting.body import Taken
from fitting.growth import Growth, Subject, fit_growth

YARD = json.loads(
    Path(__file__).with_name("icelandic.json").read_text(encoding="utf-8")
)
HORSE: dict[str, Any] = YARD["horses"][0]
BORN = date.fromisoformat(HORSE["foaled"])


def stick_heights() -> list[Taken]:
    return [
        Taken(
            measure="withers_height",
            on=date.fromisoformat(row["on"]),
            readings=tuple(float(text.split()[0]) * 10 for text in row["readings"]),
            method="stick",
        )
        for row in HORSE["measurements"]
        if (row["measure"], row["method"]) == ("withers_height", "stick")
    ]


def from_first_three() -> Growth:
    subject = Subject(horse_type=HORSE["type"], foaled=Foaled(first=BORN, last=BORN))
    return fit_growth(subject, stick_heights()[:3])


def test_the_first_three_were_taken_at_12_and_18_75_and_24_months() -> None:
    ages = [(row.on - BORN).days / 30.4375 for row in stick_heights()]
    known = [12, 18.75, 24, 30.75, 36, 42.75, 48]
    assert ages == pytest.approx(known, abs=0.02)
    ((_, seen),) = from_first_three().seen
    assert [one.error for one in seen] == pytest.approx([12, 12, 12])


@pytest.mark.parametrize("later", stick_heights()[3:], ids=lambda row: str(row.on))
def test_a_later_height_lies_inside_the_band_foretold(later: Taken) -> None:
    spread = from_first_three().at("withers_height", later.on)
    assert spread is not None
    low, high = spread.quantile(0.05), spread.quantile(0.95)
    assert low <= later.readings[0] <= high
    assert high - low < 100, "a band of 10 cm would hold anything"
