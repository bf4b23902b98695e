"""Who may sit on: by what they come to, never by what is not known."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.sources import SOURCES
from fitting.weight import BestWeight, Weight
from starting.experts import QUESTIONS
from starting.gates import GateAnswer, Somebody
from starting.seats import nobody_ever_light, seat, usable

ON = date(2026, 11, 26)


def weighed(kg: float = 400.0, **fields: Any) -> Weight:
    usual = {"method": "weighbridge", "share": 0.01, "until": date(2026, 12, 26)}
    given: dict[str, Any] = usual | fields
    return Weight(on=date(2026, 11, 1), kg=kg, **given)


def rider(kg: float | None = 60.0, **fields: Any) -> Somebody:
    given: dict[str, Any] = {"name": "Sam", "has_backed_horses": True} | fields
    return Somebody(weight_kg=kg, **given)


# 400 kg by a scale and 10 kg of tack: 12 % is 48 kg, 15 % 60 kg, 20 % 80 kg
@pytest.mark.parametrize(
    ("kg", "months", "answer", "word"),
    [
        (37.0, 40, GateAnswer.MET, "light enough"),
        (
            38.0,
            40,
            GateAnswer.CAUTION,
            "light enough if the weight is right: use a scale",
        ),
        (38.1, 40, GateAnswer.CAUTION, "heavy, still within the limit"),
        (50.0, 40, GateAnswer.CAUTION, "heavy, still within the limit"),
        (50.1, 40, GateAnswer.SHUT, "too heavy"),
        (50.1, 60, GateAnswer.CAUTION, "heavy, still within the limit"),
        (70.1, 60, GateAnswer.SHUT, "too heavy"),
    ],
)
def test_a_rider_is_told_by_what_they_come_to(
    kg: float, months: int, answer: GateAnswer, word: str
) -> None:
    told = seat(rider(kg), 10.0, weighed(), months)
    assert (told.answer, told.word) == (answer, word)
    assert told.share == pytest.approx((kg + 10) / 400)
    assert told.heaviest == pytest.approx((kg + 10) / 396)


def test_one_who_has_not_backed_counts_a_tenth_heavier_and_needs_a_trainer() -> None:
    told = seat(rider(50.0, has_backed_horses=False), 5.0, weighed(), 40)
    assert told.share == pytest.approx(60 / 400)
    assert "only with a trainer there" in told.more


def test_a_child_is_never_the_first_however_light() -> None:
    told = seat(rider(20.0, child=True), 2.0, weighed(), 40)
    assert (told.answer, told.word) == (GateAnswer.SHUT, "a child")
    unknown = seat(rider(None, child=True), None, None, 40)
    assert unknown.answer is GateAnswer.SHUT


def test_what_is_not_known_is_never_light_enough_and_is_named() -> None:
    told = seat(rider(None), None, None, 40, small=True)
    assert (told.answer, told.share) == (GateAnswer.NOT_KNOWN, None)
    assert told.more == (
        "Still to be had: what Sam weighs dressed, what all the tack weighs and what"
        " the horse weighs by a scale (under 100 cm nothing else is sure)."
    )


def test_a_small_pony_is_reckoned_by_a_scale_alone_and_never_by_an_old_weight() -> None:
    tape = weighed(method="weigh_tape")
    for weight, small, found in (
        (tape, True, None),
        (tape, False, tape),
        (weighed(), True, weighed()),
        (weighed(until=date(2026, 11, 25)), False, None),
    ):
        best = BestWeight(weight=weight, why="", small=small, cautions=(), beside=())
        assert usable(best, ON) == found
    assert usable(None, ON) is None


@given(st.floats(20, 120), st.floats(0, 20), st.integers(36, 90))
def test_a_heavier_rider_is_never_told_better(
    kg: float, more: float, months: int
) -> None:
    order = (GateAnswer.MET, GateAnswer.CAUTION, GateAnswer.SHUT)
    one = seat(rider(kg), 10.0, weighed(), months).answer
    other = seat(rider(kg + more), 10.0, weighed(), months).answer
    assert order.index(other) >= order.index(one)


def test_nobody_is_light_enough_only_where_that_is_known() -> None:
    # 180 kg grown: a fifth is 36 kg
    assert nobody_ever_light([rider(60.0)], 5.0, 180.0)
    assert not nobody_ever_light([rider(31.0)], 5.0, 180.0)
    assert nobody_ever_light([rider(31.1)], 5.0, 180.0)
    assert not nobody_ever_light([rider(60.0), rider(None)], 5.0, 180.0)
    assert not nobody_ever_light([rider(60.0)], None, 180.0)
    assert not nobody_ever_light([rider(60.0)], 5.0, None)
    assert not nobody_ever_light([], 5.0, 180.0)
    assert nobody_ever_light([rider(60.0), rider(25.0, child=True)], 5.0, 180.0)


def test_every_question_has_two_sides_and_says_what_is_done_here() -> None:
    assert len(QUESTIONS) >= 3
    for question in QUESTIONS:
        assert len(question.sides) >= 2, question.asked
        assert "ours" in question.here
        for side in question.sides:
            assert side.sources
            assert all(SOURCES[key].kind == "published" for key in side.sources)


@given(
    st.one_of(st.none(), st.floats(20, 120)),
    st.one_of(st.none(), st.floats(0, 20)),
    st.one_of(st.none(), st.floats(80, 700)),
    st.one_of(st.none(), st.floats(80, 700)),
)
def test_where_nobody_is_light_enough_even_grown_no_rider_is_told_otherwise(
    kg: float | None, tack: float | None, now: float | None, grown: float | None
) -> None:
    weight = weighed(now) if now else None
    one = seat(rider(kg), tack, weight, 70, grown_kg=grown)
    if nobody_ever_light([rider(kg)], tack, grown):
        assert (one.answer, one.word) == (GateAnswer.SHUT, "too heavy")
        assert "Even grown" in one.more
    else:
        assert one == seat(rider(kg), tack, weight, 70)


def test_a_pony_never_weighed_is_too_small_for_a_rider_it_can_never_carry() -> None:
    unknown = seat(rider(60.0), 8.0, None, 40, small=True)
    assert unknown.answer is GateAnswer.NOT_KNOWN
    told = seat(rider(60.0), 8.0, None, 40, small=True, grown_kg=210.0)
    assert (told.answer, told.share) == (GateAnswer.SHUT, None)
