from __future__ import annotations

from datetime import timedelta

import pytest

from fitting.body import Taken, stands_days
from fitting.condition import (
    PLACES,
    SOURCES,
    STEPS,
    judged,
    newest_score,
    score_words,
)
from fitting.sources import SOURCES as CITED
from tests.fitting.making_weights import ON, ago, scored, whom

HORSE = whom(30)


@pytest.mark.parametrize(
    ("score", "said"),
    [
        (1, "vet"), (2, "vet"), (2.5, "vet"), (3, "near"), (3.5, "near"), (4, "usual"),
        (5, "usual"), (6, "usual"), (6.5, "near"), (7, "near"), (7.5, "vet"),
        (8, "vet"), (9, "vet"),
    ],
)  # fmt: skip
def test_half_a_step_counts_away_from_the_middle(score: float, said: str) -> None:
    assert judged(score) == said


@pytest.mark.parametrize("score", [0, 0.5, 9.5, 10, float("nan")])
def test_a_score_off_the_scale_is_refused(score: float) -> None:
    with pytest.raises(ValueError, match="1 to 9"):
        judged(score)


def test_there_are_nine_steps_and_six_places() -> None:
    assert [step.score for step in STEPS] == list(range(1, 10))
    assert len({step.said for step in STEPS}) == 9
    assert len({place.name for place in PLACES}) == 6
    assert set(SOURCES) <= set(CITED)
    assert "second-hand" in CITED["henneke_1983"].text


@pytest.mark.parametrize(
    ("score", "said"),
    [(5, "5, moderate"), (5.5, "5.5, between 5 and 6"), (9, "9, very fat")],
)
def test_a_score_in_words(score: float, said: str) -> None:
    assert score_words(score) == said


def test_the_newest_score_counts_and_says_until_when() -> None:
    found = newest_score((scored(4, 30), scored(5, 2)), HORSE.foaled, ON)
    assert found is not None
    days = stands_days("condition_score", 30, ridden=False)
    assert days is not None
    assert (found.score, found.on) == (5, ago(2))
    assert found.until == ago(2) + timedelta(days=days)


def test_never_scored_or_only_later_is_none() -> None:
    weighed = Taken(measure="weight", on=ON, readings=(5,), method="eye")
    assert newest_score((), HORSE.foaled, ON) is None
    assert newest_score((scored(5, -1), weighed), HORSE.foaled, ON) is None
