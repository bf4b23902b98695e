"""Whether the rider with all the tack is light enough for the horse.

The rider's own weight is kept for the keepers: a gate says the share, and no kilograms
of anybody.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitting.age import completed_months
from fitting.listed import listed
from fitting.weight import Weight
from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer, Somebody
from starting.gates.load import AIM, LIMIT, Level, Load, load_of, most_kg
from starting.gates.words import CAUTION_LOAD

ANSWERS: Final[dict[Level, GateAnswer]] = {
    "light": GateAnswer.MET,
    "unsure": GateAnswer.CAUTION,
    "heavy": GateAnswer.CAUTION,
    "too_heavy": GateAnswer.SHUT,
}
SOURCES: Final = (
    "dyson_load_2020", "equestrian_australia_load", "british_dressage_2023",
    "abrs_load", "ours",
)  # fmt: skip
SCALE: Final = "weighbridge"


def rider_load(ask: Asked) -> Gate:
    """Return whether the rider with all tack is light enough; unknown is no yes.

    Source: 12 and 15 % ours, inside Dyson et al. (2019/20); 20 % as federations have
    it; a tenth more for a novice by the Association of British Riding Schools.
    """
    missing = tuple(_missing(ask))
    rider, tack = ask.facts.rider, ask.facts.tack_kg
    weight = _weight(ask)
    months = completed_months(ask.facts.foaled, ask.on)
    load = load_of(rider, tack, weight, months) if rider else None
    if missing or rider is None or tack is None or load is None:
        return _unknown(ask, missing)
    answer = ANSWERS[load.level]
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=answer,
        why=_why(ask, rider, load),
        would_meet=_would_meet(ask, rider, tack, load),
        record="weight:load",
        rests_on=load.weight.on,
        sources=SOURCES,
        caution=CAUTION_LOAD,
    )


def _weight(ask: Asked) -> Weight | None:
    """Return the weight to go by on the day; under 100 cm only one by a scale."""
    best = ask.facts.weight
    found = best.weight if best else None
    if best is None or found is None or ask.on > found.until:
        return None
    return None if best.small and found.method != SCALE else found


def _missing(ask: Asked) -> Iterator[tuple[str, str]]:
    """Yield the record and the words of each fact that is not there."""
    rider = ask.facts.rider
    if rider is None:
        yield "plan:people", "who rides"
    elif rider.weight_kg is None:
        yield "people:weight", f"what {rider.name} weighs dressed"
    if ask.facts.tack_kg is None:
        yield "plan:tack", "what all the tack weighs"
    if _weight(ask) is None:
        best = ask.facts.weight
        small = best is not None and best.small
        by = " by a scale (under 100 cm nothing else is sure)" if small else " now"
        yield "weight:load", f"what {ask.name} weighs{by}"


def _unknown(ask: Asked, missing: tuple[tuple[str, str], ...]) -> Gate:
    wanted = listed(tuple(words for _, words in missing))
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=GateAnswer.NOT_KNOWN,
        why=f"Can't say what {ask.name} would carry: still to be had is {wanted}.",
        would_meet=f"Written down: {wanted}.",
        record=missing[0][0],
        sources=SOURCES,
        caution=CAUTION_LOAD,
    )


def _why(ask: Asked, rider: Somebody, load: Load) -> str:
    novice = "" if rider.has_backed_horses else ", counted a tenth heavier as a novice,"
    said = f"{rider.name}{novice} with all the tack is {_percent(load.share)}"
    said = f"{said} of {ask.name}'s weight"
    edge = (
        f"{_percent(load.heaviest)} if {ask.name} is as light as the weight's error"
        " allows: use a scale"
    )
    if load.level == "light":
        return f"{said}; up to {_percent(AIM)} is light (ours)."
    if load.level == "unsure":
        return f"{said}, but {edge}; up to {_percent(AIM)} is light (ours)."
    limit = f"{_percent(load.limit)} is the most {_at_this_age(load)}"
    if load.level == "too_heavy":
        return f"{said}: {limit}."
    over = f" It is {edge}." if load.heaviest > load.limit else ""
    return f"{said}: over {_percent(AIM)} (ours); {limit}.{over}"


def _at_this_age(load: Load) -> str:
    if load.limit == LIMIT:
        return "from five years on, as federations have it"
    return "under five years (ours)"


def _would_meet(ask: Asked, rider: Somebody, tack: float, load: Load) -> str:
    if load.level == "light":
        return ""
    by_edge = most_kg(rider, tack, load.weight.low_kg, AIM)
    if not by_edge:
        return f"Less tack: this alone is more than {_percent(AIM)}."
    scale = "" if load.weight.method == SCALE else f", or {ask.name} on a scale"
    return f"A rider of {by_edge:.0f} kg at most, dressed, with this tack{scale}."


def _percent(share: float) -> str:
    """Return a share in words, to a tenth of a per cent, so that limits are told."""
    return f"{100 * share:.1f}".removesuffix(".0") + " %"
