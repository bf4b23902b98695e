from __future__ import annotations

from datetime import date

import pytest

from fitting.fit import Answer, Finding
from starting.gates import Gate, GateAnswer
from starting.kit import kit_of

UNTIL = {"cheekpieces": date(2027, 5, 1), "mouthpiece": date(2026, 12, 1)}
KINDS = {"cheekpieces": "bridle", "mouthpiece": "bit"}


def part(word: str, item: str = "Her bridle") -> Finding:
    return Finding(
        item=item,
        kind=KINDS[word],
        part=word,
        answer=Answer.GOOD,
        why="It sits right.",
        good_until=UNTIL[word],
        hole=4 if word == "cheekpieces" else None,
    )


def gate(kind: str, answer: GateAnswer = GateAnswer.MET) -> Gate:
    return Gate(
        stage="bridle",
        gate=f"fit:{kind}",
        kind="to_do",
        answer=answer,
        why="It fits.",
        record="set:Her bridle",
    )


MADE_UP = (part("cheekpieces"), part("mouthpiece"))


def test_a_step_that_asks_for_no_bit_wears_the_set_without_it() -> None:
    (kit,) = kit_of((gate("bridle"),), MADE_UP)
    assert kit.words == "Her bridle without its bit on hole 4"
    assert kit.until == UNTIL["cheekpieces"]  # the bit's own end does not count


def test_a_step_that_asks_for_a_bit_wears_the_set_as_it_is() -> None:
    bridle, bit = kit_of((gate("bridle"), gate("bit")), MADE_UP)
    assert bridle.words == bit.words == "Her bridle on hole 4"
    assert bridle.until == UNTIL["mouthpiece"]


def test_a_bridle_that_has_no_bit_is_not_said_to_be_without() -> None:
    (kit,) = kit_of((gate("bridle"),), MADE_UP[:1])
    assert kit.words == "Her bridle on hole 4"


@pytest.mark.parametrize(
    "answer", [GateAnswer.CAUTION, GateAnswer.SHUT, GateAnswer.NOT_KNOWN]
)
def test_only_what_is_met_fits(answer: GateAnswer) -> None:
    (kit,) = kit_of((gate("bridle", answer),), MADE_UP)
    assert not kit.fits
