"""Who may sit on a horse: riders by what they would come to, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.listed import listed
from fitting.weight import BestWeight, Weight
from starting.gates.facts import GateAnswer, Somebody
from starting.gates.load import HAIR, LIMIT, Level, Load, counted_kg, load_of

SCALE: Final = "weighbridge"
EVEN_GROWN: Final = (
    "Even grown, at the most it may weigh: over a fifth of its weight with all tack."
)
WORDS: Final[dict[Level, tuple[GateAnswer, str]]] = {
    "light": (GateAnswer.MET, "light enough"),
    "unsure": (GateAnswer.CAUTION, "light enough if the weight is right: use a scale"),
    "heavy": (GateAnswer.CAUTION, "heavy, still within the limit"),
    "too_heavy": (GateAnswer.SHUT, "too heavy"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """One rider on one horse; ``share`` of its weight, 0.1 for a tenth."""

    rider: str
    answer: GateAnswer
    word: str
    more: str = ""
    share: float | None = None
    heaviest: float | None = None


def usable(best: BestWeight | None, on: date) -> Weight | None:
    """Return the weight a load is reckoned by; under 100 cm only one by a scale."""
    found = best.weight if best else None
    if best is None or found is None or on > found.until:
        return None
    return None if best.small and found.method != SCALE else found


def seat(
    rider: Somebody,
    tack_kg: float | None,
    weight: Weight | None,
    months: int,
    *,
    small: bool = False,
    grown_kg: float | None = None,
) -> Seat:
    """Return what a rider with all tack (kg) is on a horse of an age in months.

    A child is never the first to sit on a youngster, however light; what is not known
    is never light enough. One too heavy for the horse at the most it may weigh grown
    (``grown_kg``) is too heavy, whatever it weighs now.

    Source: the shares as in ``starting/gates/load.py``; the rule for a child ours.
    """
    load = load_of(rider, tack_kg, weight, months)
    if rider.child:
        more = "Never the first to sit on a youngster, however light (ours)."
        return _seat(rider, GateAnswer.SHUT, "a child", more, load)
    if _never_light(rider, tack_kg, grown_kg):
        return _seat(rider, GateAnswer.SHUT, "too heavy", EVEN_GROWN, load)
    if load is None:
        missing = listed(tuple(_missing(rider, tack_kg, weight, small=small)))
        more = f"Still to be had: {missing}."
        return _seat(rider, GateAnswer.NOT_KNOWN, "can't say", more, None)
    answer, word = WORDS[load.level]
    return _seat(rider, answer, word, _more(rider), load)


def nobody_ever_light(
    riders: Iterable[Somebody], tack_kg: float | None, grown_kg: float | None
) -> bool:
    """Return whether even the grown horse (kg) is too light for every grown rider.

    Only if it is known: a rider without a weight may be light enough.

    Source: 20 % with all tack, as federations have it for grown horses.
    """
    grown_ups = [rider for rider in riders if not rider.child]
    return bool(grown_ups) and all(
        _never_light(rider, tack_kg, grown_kg) for rider in grown_ups
    )


def _never_light(
    rider: Somebody, tack_kg: float | None, grown_kg: float | None
) -> bool:
    counted = counted_kg(rider)
    if counted is None or tack_kg is None or grown_kg is None:
        return False
    return counted + tack_kg > (LIMIT + HAIR) * grown_kg


def _seat(
    rider: Somebody, answer: GateAnswer, word: str, more: str, load: Load | None
) -> Seat:
    return Seat(
        rider=rider.name,
        answer=answer,
        word=word,
        more=more,
        share=load.share if load else None,
        heaviest=load.heaviest if load else None,
    )


def _more(rider: Somebody) -> str:
    if rider.has_backed_horses:
        return ""
    return (
        "Has not backed horses: counted a tenth heavier, and only with a trainer there."
    )


def _missing(
    rider: Somebody, tack_kg: float | None, weight: Weight | None, *, small: bool
) -> Iterator[str]:
    if rider.weight_kg is None:
        yield f"what {rider.name} weighs dressed"
    if tack_kg is None:
        yield "what all the tack weighs"
    if weight is None:
        scale = " by a scale (under 100 cm nothing else is sure)" if small else " now"
        yield f"what the horse weighs{scale}"
