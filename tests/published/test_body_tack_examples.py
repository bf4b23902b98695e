"""Girths and rugs by the sizes they are sold in, saddles by when they are seen again.

Where sizes go by twos and threes of inches and how a size between two is chosen is
common practice, no published source; the horses are invented.
Greve, Dyson (2015), The Veterinary Journal 206:39-46: under a saddle that fits, a back
widens by 10 to 15 mm within one ride, so that much is no change.
Society of Master Saddlers, members on rechecks: a young horse's saddle after two to
three months (60 to 90 days), another member after four to six (120 and more).
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from fitting.age import Foaled
from fitting.body import Taken
from fitting.fit import Answer, Finding, Part, Tack, fits
from fitting.fit.girths import girth_size_in, short_girth_in
from fitting.fit.rugs import rug_size_in, size_words
from fitting.fit.saddle_checks import others_ask
from fitting.growth import Subject, fit_growth
from fitting.tryons import TryOn
from tests.fitting.making_fit import ON, make_wearer

INCH = 25.4
US_STEP = 2 * INCH


@pytest.mark.parametrize(
    ("length_mm", "size"),
    [
        (73 * INCH, "6 ft 3 in"),
        (73.1 * INCH, "6 ft 3 in"),  # 6 ft 1 in
        (74 * INCH, "6 ft 3 in"),  # 6 ft 2 in
        (1600, "5 ft 3 in"),
        (1753, "5 ft 9 in"),  # 69.0 in: the next size up would be 6 ft
        (1880, "6 ft 3 in"),
        (72 * INCH, "6 ft"),
    ],
)
def test_a_rug_between_two_sizes_goes_up(length_mm: float, size: str) -> None:
    assert size_words(rug_size_in(length_mm)) == size


def test_a_rug_sold_by_the_even_inch_goes_up_from_the_odd_one() -> None:
    assert rug_size_in(73 * INCH, US_STEP) == 74
    assert rug_size_in(74 * INCH, US_STEP) == 74


@pytest.mark.parametrize(
    ("path_in", "size_in"), [(47, 48), (48, 48), (48.5, 50), (46, 46)]
)
def test_a_girth_goes_up_to_the_even_inch(path_in: float, size_in: int) -> None:
    assert girth_size_in(path_in * INCH) == size_in


def test_a_short_girth_is_twenty_inches_less() -> None:
    assert short_girth_in(48) == 28


def saddle_on(age_months: int, checked_on: date, *taken: Taken) -> Finding:
    born = ON - timedelta(days=round(age_months * 30.4375))
    subject = Subject(horse_type="light", foaled=Foaled(first=born, last=born))
    seen = TryOn(on=checked_on, item="Brown saddle", how="worn", answer="good")
    growth = fit_growth(subject, taken)
    wearer = make_wearer(growth, grown=False, born=born, tryons=(seen,))
    panel = Part(part="panel", length_mm=420)
    item = Tack(name="Brown saddle", kind="saddle", parts=(panel,))
    (found,) = fits(wearer, (item,), (), ON)
    return found


def traced(width_mm: float, on: date) -> Taken:
    return Taken(
        measure="back_width_front", on=on, readings=(width_mm,), method="gauge"
    )


@pytest.mark.parametrize(
    ("wider_mm", "answer"), [(10, Answer.GOOD), (12, Answer.GOOD), (18, Answer.WATCH)]
)
def test_a_back_wider_by_what_one_ride_does_is_no_change(
    wider_mm: float, answer: Answer
) -> None:
    checked = ON - timedelta(days=30)
    widths = (traced(300, checked), traced(300 + wider_mm, ON))
    assert saddle_on(52, checked, *widths).answer is answer


def test_a_saddle_seen_a_hundred_days_ago_is_due_by_one_member_not_by_another() -> None:
    found = saddle_on(54, ON - timedelta(days=100))
    assert (found.answer, found.stale) == (Answer.WATCH, True)
    assert "Past 60 and 90 days, not yet 120" in found.why
    assert "sms_recheck" in found.sources


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (57, "not yet 60 or 90 or 120:"),
        (90, "past 60 days, not yet 90 or 120:"),  # due that day
        (91, "past 60 and 90 days, not yet 120:"),
        (121, "past 60 and 90 and 120 days:"),
    ],
)
def test_every_published_time_is_told_as_past_or_not_yet(days: int, said: str) -> None:
    assert others_ask(days).startswith(said)
