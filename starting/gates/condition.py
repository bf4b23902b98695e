"""The gates of weight and condition: not losing weight, neither thin nor fat."""

from __future__ import annotations

from typing import Final

from fitting.condition import CAUTION as CAUTION_CONDITION
from fitting.condition import Judged, Scored, judged, score_words
from fitting.weight import NEVER_DOSE, Trend, percent
from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer
from starting.gates.words import CAUTION_LAME, say_day

BY_LEVEL: Final = {
    "steady": GateAnswer.MET,
    "down": GateAnswer.CAUTION,
    "far_down": GateAnswer.SHUT,
}
BY_SCORE: Final[dict[Judged, GateAnswer]] = {
    "usual": GateAnswer.MET,
    "near": GateAnswer.CAUTION,
    "vet": GateAnswer.SHUT,
}
BY_METHOD: Final = {
    "weighbridge": "on the weighbridge",
    "weigh_tape": "by the same weigh tape",
    "formula": "by girth and length",
    "eye": "by eye",
}
LEAST_EXPECTED: Final = -0.005  # ours: a winter dip that is worth a sentence
WEIGH_TWICE: Final = (
    "Two weights by the same method, two weeks to two months apart, the later one new"
    " enough to stand."
)
SCORE_SOURCES: Final = ("henneke_1983", "ours")


def weight_trend(ask: Asked) -> Gate:
    """Return whether the weight is not going down, by one method; unknown is no yes.

    Source: the 5 and 10 per cent in 30 days ours.
    """
    found = ask.facts.trend
    if found is None or ask.on > found.until:
        why = (
            f"Can't say whether {ask.name} is losing weight: no two weights by the same"
            " method tell it."
        )
        return _trend_gate(ask, GateAnswer.NOT_KNOWN, why, WEIGH_TWICE)
    answer = BY_LEVEL[found.level]
    met = answer is GateAnswer.MET
    mended = "" if met else f"{ask.name} seen by your vet, and weighed again."
    return _trend_gate(ask, answer, _trend_why(ask, found), mended)


def _trend_why(ask: Asked, found: Trend) -> str:
    moved = percent(found.change)
    said = (
        f"{ask.name}'s weight is {moved} in 30 days {BY_METHOD[found.method]}, from"
        f" {say_day(found.first.on)} to {say_day(found.last.on)}"
    )
    if found.level == "steady":
        return f"{said}."
    if found.expected <= LEAST_EXPECTED:
        dip = f"{-100 * found.expected:.0f} %"
        return f"{said}: ask your vet. Living out in winter explains {dip} (ours)."
    return f"{said}: ask your vet."


def _trend_gate(ask: Asked, answer: GateAnswer, why: str, would_meet: str) -> Gate:
    found = ask.facts.trend
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=answer,
        why=why,
        would_meet=would_meet,
        record="weight:trend",
        rests_on=found.last.on if found else None,
        sources=("ours",),
        caution=f"{CAUTION_LAME} {NEVER_DOSE}",
    )


def condition_score(ask: Asked) -> Gate:
    """Return whether the horse is neither thin nor fat; never scored is a caution.

    Source: Henneke et al. (1983) as quoted, usual range 4 to 6; the cuts ours.
    """
    found = ask.facts.scored
    answer = _condition_answer(ask, found)
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=answer,
        why=_condition_why(ask, found, answer),
        would_meet=_condition_mended(ask, found, answer),
        record="weight:condition",
        rests_on=found.on if found else None,
        sources=SCORE_SOURCES,
        caution=CAUTION_CONDITION,
    )


def _condition_answer(ask: Asked, found: Scored | None) -> GateAnswer:
    if found is None:
        return GateAnswer.CAUTION
    answer = BY_SCORE[judged(found.score)]
    if answer is GateAnswer.MET and ask.on > found.until:
        return GateAnswer.CAUTION
    return answer


def _condition_why(ask: Asked, found: Scored | None, answer: GateAnswer) -> str:
    if found is None:
        return f"{ask.name}'s condition was never scored."
    said = f"{ask.name}'s condition was {score_words(found.score)}"
    said = f"{said}, on {say_day(found.on)}"
    if answer is GateAnswer.SHUT:
        return f"{said}: ask your vet before any work."
    if judged(found.score) == "near":
        return f"{said}; 4 to 6 is usual."
    if answer is GateAnswer.CAUTION:
        return f"{said}, which is too long ago."
    return f"{said}; 4 to 6 is usual."


def _condition_mended(ask: Asked, found: Scored | None, answer: GateAnswer) -> str:
    if answer is GateAnswer.MET:
        return ""
    if found is None or judged(found.score) == "usual":
        return f"Score {ask.hers} condition: six places, by eye and hand."
    return "A score of 4 to 6; ask your vet how to get there."
