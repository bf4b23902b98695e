"""The condition of a horse, in nine steps by eye and hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from fitting.age import Foaled
from fitting.body import Taken, middle, stands_until

SCORE: Final = "condition_score"
# The usual range is the scale's as quoted second-hand; what lies next to it and what is
# for the vet are ours. Half a step counts to the side away from the middle.
USUAL: Final = (4.0, 6.0)
NEAR: Final = (3.0, 7.0)
SOURCES: Final[tuple[str, ...]] = ("henneke_1983", "giles_2015", "ours")

CAUTION: Final = (
    "Score with your hands, not only your eyes, and in daylight. A very thin, very fat"
    " or quickly changing horse needs a vet; change the feed of a growing horse slowly."
)
CREST: Final = (
    "A thick, firm crest is a sign of its own, in ponies above all, even where the ribs"
    " are easily felt: ask your vet about it."
)

Judged = Literal["usual", "near", "vet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One of the nine steps."""

    score: int
    name: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One of the six places to look and feel."""

    name: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Scored:
    """A score of one day, and the last day on which it stands."""

    score: float
    on: date
    until: date


# Source: Henneke et al. (1983), the scale as quoted by others; the words are ours.
STEPS: Final = (
    Step(
        score=1,
        name="Poor",
        said="No fat anywhere; every point of bone stands out.",
    ),
    Step(
        score=2,
        name="Very thin",
        said="Bones still stand out, with a trace of cover along the spine.",
    ),
    Step(
        score=3,
        name="Thin",
        said="Ribs easily seen; some cover on the spine; the tail head sticks up.",
    ),
    Step(
        score=4,
        name="A little thin",
        said="A slight ridge down the back and a hint of ribs; nothing else is lean.",
    ),
    Step(
        score=5,
        name="Moderate",
        said="Back level; ribs not seen but easily felt; neck and shoulder run smoothly"
        " into the body.",
    ),
    Step(
        score=6,
        name="A little fleshy",
        said="Soft over ribs and tail head; the first fat beside withers and neck.",
    ),
    Step(
        score=7,
        name="Fleshy",
        said="Ribs felt only by pressing; fat along neck and withers; perhaps a gutter"
        " down the back.",
    ),
    Step(
        score=8,
        name="Fat",
        said="Ribs hard to find; a thick neck; the hollow behind the shoulder filled.",
    ),
    Step(
        score=9,
        name="Very fat",
        said="Bulging pads of fat; a deep gutter down the back.",
    ),
)
PLACES: Final = (
    Place(name="Neck", how="Take the crest in your hand: bone, muscle or a roll?"),
    Place(name="Withers", how="Feel both sides: sharp, rounded or filled in?"),
    Place(name="Behind the shoulder", how="A hollow, level, or a pad?"),
    Place(name="Ribs", how="Flat hand along them: seen, felt at once, or by pressing?"),
    Place(name="Loin", how="Across the back behind the ribs: ridge, level or gutter?"),
    Place(name="Tail head", how="Round the root of the tail: bone, cover or soft fat?"),
)


def judged(score: float) -> Judged:
    """Return whether a score is usual, next to it, or for the vet to see.

    Raises:
        ValueError: the score is not 1 to 9.

    Source: usual range Henneke et al. (1983), quoted; the rest ours.
    """
    if not STEPS[0].score <= score <= STEPS[-1].score:
        raise ValueError(f"Condition is scored from 1 to 9, not {score}")
    if USUAL[0] <= score <= USUAL[1]:
        return "usual"
    return "near" if NEAR[0] <= score <= NEAR[1] else "vet"


def score_words(score: float) -> str:
    """Return a score in words: ``5, moderate``, ``5.5, between 5 and 6``.

    Raises:
        ValueError: the score is not 1 to 9.
    """
    judged(score)
    below = STEPS[int(score) - 1]
    if score == below.score:
        return f"{score:g}, {below.name.lower()}"
    return f"{score:g}, between {below.score} and {below.score + 1}"


def newest_score(
    taken: Sequence[Taken], foaled: Foaled, on: date, *, ridden: bool = False
) -> Scored | None:
    """Return the newest score up to a day; None: never scored.

    Source: standing ours.
    """
    scores = [one for one in taken if one.measure == SCORE and one.on <= on]
    if not scores:
        return None
    day = max(one.on for one in scores)
    of_day = [one for one in scores if one.on == day]
    readings = tuple(reading for one in of_day for reading in one.readings)
    until = stands_until(of_day[0], foaled.last, ridden=ridden)
    return Scored(score=middle(readings), on=day, until=until)
