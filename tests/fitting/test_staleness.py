"""How old the size is that an answer goes by, in words."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from fitting.fit import Answer, Finding
from fitting.fit.staleness import days_since, stale_words
from tests.fitting.making_fit import ON, bit_on, make_bit, make_wearer, steady

FRESH = Finding(
    item="Hazel", kind="bridle", part="browband", answer=Answer.GOOD, why=""
)
OLD = replace(
    FRESH, stale=True, stale_days=93, rests_on="brow, measured, some time ago"
)


def test_the_oldest_size_that_is_too_old_is_told() -> None:
    older = replace(OLD, stale_days=120)
    assert stale_words([FRESH, OLD, older]) == "measured 120 days ago, measure again"
    assert stale_words([older, OLD]) == "measured 120 days ago, measure again"
    one = replace(OLD, stale_days=1)
    assert stale_words([one]) == "measured 1 day ago, measure again"


def test_nothing_is_said_of_what_stands() -> None:
    standing = replace(FRESH, stale_days=120)
    assert stale_words([FRESH, standing]) == ""
    assert stale_words([]) == ""


def test_what_was_seen_is_looked_at_again_and_no_day_is_guessed() -> None:
    seen = replace(OLD, stale_days=100, rests_on="saddle fitter 3 May 2026")
    assert stale_words([seen]) == "looked at 100 days ago, look again"
    assert stale_words([replace(OLD, stale_days=None)]) == (
        "measured too long ago, measure again"
    )


def test_the_last_day_it_was_measured_by_then_counts() -> None:
    days = (ON - timedelta(days=200), ON - timedelta(days=90), ON + timedelta(days=3))
    taken = tuple((day, 118.0) for day in days)
    growth = steady(mouth_width=118.0, taken={"mouth_width": taken})
    wearer = make_wearer(growth, stale=("mouth_width",))
    assert days_since(wearer, "mouth_width", ON) == 90
    assert days_since(wearer, "mouth_width", ON - timedelta(days=100)) == 100
    assert days_since(wearer, "mouth_width", ON - timedelta(days=300)) is None
    found = bit_on(wearer, make_bit(127.0))
    assert (found.stale, found.stale_days) == (True, 90)
