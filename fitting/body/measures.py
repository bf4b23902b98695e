"""The measures: how each is taken, by which methods, and how well each repeats."""

from __future__ import annotations

from dataclasses import replace
from statistics import median
from typing import Final

from fitting.body.kinds import Dimension, Measure, Method, UnknownMeasureError

STANCE: Final = (
    "Stand the horse square on hard, level ground, head no lower than its withers."
)
# One SD of a single reading, mm. Stick, one person again and other people: Lamas et al.
# (2007) Vet Record 160:691. Laser over stick: Curtis et al. (2010) Vet Record 167:127.
# The rest ours: nothing is published on how well these repeat.
_STICK_MM: Final = 7.0
_STICK_OTHERS_MM: Final = 12.0
_LASER_READS_OVER_MM: Final = 10.0
_TAPE_MM: Final = 7.0
_GIRTH_MM: Final = 20.0
_CANNON_MM: Final = 3.0
_MOUTH_MM: Final = 3.0
_CALLIPER_MM: Final = 2.0
# One SD as a share of the weight. Weigh tape, formula, eye: Ellis, Hollands (1998)
# Vet Record 143:335; weighbridge ours.
_WEIGHBRIDGE_SHARE: Final = 0.01
_WEIGH_TAPE_SHARE: Final = 0.06
_FORMULA_SHARE: Final = 0.10
_EYE_SHARE: Final = 0.20
_ELLIS: Final = "ellis_hollands_1998"
_SCORE: Final = 0.5  # ours, in points of the nine-point scale


def _method(
    key: str, name: str, error: float, *, family: str = "", source: str = "ours"
) -> Method:
    return Method(
        key=key,
        name=name,
        error=error,
        error_unknown_person=error,
        family=family or key,
        source=source,
    )


def _share(key: str, name: str, error: float, source: str = _ELLIS) -> Method:
    return replace(_method(key, name, error, source=source), relative=True)


def _height(key: str, name: str, *, reads_over: float = 0.0) -> Method:
    return Method(
        key=key,
        name=name,
        error=_STICK_MM,
        error_unknown_person=_STICK_OTHERS_MM,
        family="tape" if key == "tape" else "level",
        reads_over=reads_over,
        source="lamas_2007",
    )


def _tape(error: float) -> tuple[Method, ...]:
    return (
        _method("tape", "tape", error),
        _method("string", "string, laid along a rule", error),
    )


def _back(error: float) -> tuple[Method, ...]:
    return (*_tape(error), _method("gauge", "flexible curve", error))


_HEIGHT = (
    _height("stick", "measuring stick"),
    _height("laser", "laser", reads_over=_LASER_READS_OVER_MM),
    _height("tape", "tape over the shoulder"),
)
_CALLIPER = _method("calliper", "calliper", _CALLIPER_MM)
_MOUTH = (
    _method("string", "string, laid along a rule", _MOUTH_MM, family="marked"),
    _method("dowel", "dowel, marked at the lips", _MOUTH_MM, family="marked"),
    _CALLIPER,
    _method("trial_bit", "bit of known length", _MOUTH_MM, family="bit"),
    _method("gauge", "mouth gauge", _MOUTH_MM, family="bit"),
)
_JAW = (_CALLIPER, _method("gauge", "gauge", _MOUTH_MM))
_WEIGHT = (
    _share("weighbridge", "weighbridge", _WEIGHBRIDGE_SHARE, "ours"),
    _share("weigh_tape", "weigh tape", _WEIGH_TAPE_SHARE),
    _share("formula", "from girth and length", _FORMULA_SHARE),
    _share("eye", "by eye", _EYE_SHARE),
)


def _measure(
    key: str,
    group: str,
    how: str,
    methods: tuple[Method, ...],
    *,
    name: str = "",
    dimension: Dimension = "length",
) -> Measure:
    return Measure(
        key=key,
        name=name or key.replace("_", " "),
        how=how,
        dimension=dimension,
        methods=methods,
        group=group,
        grows=key not in ("nose_gap", "condition_score"),
    )


MEASURES: tuple[Measure, ...] = (
    _measure(
        "withers_height",
        "height",
        f"{STANCE} Measure straight up from the ground to the highest point of the "
        "withers, bubble level. Write down which method: a tape over the shoulder "
        "reads 5 to 10 cm more than a stick.",
        _HEIGHT,
        dimension="height",
    ),
    _measure(
        "croup_height",
        "height",
        f"{STANCE} Measure straight up from the ground to the highest point of the "
        "croup. Take withers and croup on the same day, by the same method.",
        _HEIGHT,
        dimension="height",
    ),
    _measure(
        "heart_girth",
        "girth",
        f"{STANCE} Pass the tape round the barrel just behind the elbows and over the "
        "back of the withers. Read it snug, as the horse breathes out.",
        _tape(_GIRTH_MM),
    ),
    _measure(
        "body_length",
        "back",
        f"{STANCE} Measure in a straight line from the point of the shoulder to the "
        "point of the buttock. Take the same side each time.",
        (*_tape(_TAPE_MM), replace(_HEIGHT[0], source="ours")),
    ),
    _measure(
        "cannon_round",
        "height",
        "Let the horse stand with its weight on the left foreleg. Measure round it "
        "midway between knee and fetlock, tendons and all. Pull the tape only snug.",
        _tape(_CANNON_MM),
        name="cannon",
    ),
    _measure(
        "head_length",
        "head",
        "Start at one corner of the mouth, where the bit lies. Run the tape up the "
        "cheek, over the poll behind the ears, and down to the other corner. Keep the "
        "head where the horse carries it.",
        _tape(_TAPE_MM),
    ),
    _measure(
        "brow",
        "head",
        "Find where the browband meets the strap, just under the base of the ear. "
        "Measure across the forehead to the same place on the other side. Lay the "
        "tape on the hair without pressing.",
        _tape(_TAPE_MM),
    ),
    _measure(
        "nose_round",
        "head",
        "Find the end of the facial crest and go two fingers below it. Measure right "
        "round the nose there, on bone and never on the soft nose. Lay the tape snug, "
        "mouth shut and quiet.",
        _tape(_TAPE_MM),
        name="round the nose",
    ),
    _measure(
        "throat_round",
        "head",
        "Start at the base of one ear. Run the tape round the throat to the base of "
        "the other. Let it lie without pressing.",
        _tape(_TAPE_MM),
        name="round the throat",
    ),
    _measure(
        "mouth_width",
        "head",
        "Lay the dowel or string where the bit will lie. Wait for the lips to loosen, "
        "then mark just outside each corner. Take three and write all three down.",
        _MOUTH,
    ),
    _measure(
        "jaw_gap",
        "head",
        "Leave this to the vet or the qualified dental technician at a visit. They "
        "measure between the jaws where the bit lies. Ask for it in millimetres.",
        _JAW,
    ),
    _measure(
        "tongue_thickness",
        "head",
        "Leave this to the vet or the qualified dental technician at a visit. They "
        "measure the tongue at rest where the bit lies. Ask for it in millimetres.",
        _JAW,
    ),
    _measure(
        "back_length",
        "back",
        f"{STANCE} Mark two fingers behind the shoulder blade, and where the last rib "
        "meets the back. Measure along the back between the marks, before work.",
        _back(_TAPE_MM),
    ),
    _measure(
        "back_width_front",
        "back",
        f"{STANCE} Lay the flexible curve over the back two fingers behind the "
        "shoulder blade. Keep its shape on paper and measure across it a hand below "
        "the top, before work.",
        _back(_TAPE_MM),
        name="back width, front",
    ),
    _measure(
        "back_width_last_rib",
        "back",
        f"{STANCE} Lay the flexible curve over the back at the last rib. Keep its "
        "shape on paper and measure across it a hand below the top, before work.",
        _back(_TAPE_MM),
        name="back width, last rib",
    ),
    _measure(
        "girth_path",
        "girth",
        "Put the saddle or roller and its pad where they lie. Measure from middle hole "
        "to middle hole, under the belly a hand behind the elbow. Read it as the horse "
        "breathes out.",
        _tape(_GIRTH_MM),
    ),
    _measure(
        "rug_length",
        "back",
        f"{STANCE} Start at the centre of the chest. Run the tape along the side to "
        "the point of the buttock, not round the tail.",
        _tape(_TAPE_MM),
    ),
    _measure(
        "nose_gap",
        "head",
        "Do the noseband up on its usual hole. Slide the gauge under it at the front, "
        "on the middle of the nose. Read how much room there is, without forcing it.",
        (_method("gauge", "gauge under the noseband", _CALLIPER_MM),),
    ),
    _measure(
        "weight",
        "girth",
        "Use a scale when you can, at the same time of day. Put a weigh tape where the "
        "heart girth is taken, snug. Below 100 cm a weigh tape cannot be trusted.",
        _WEIGHT,
        dimension="weight",
    ),
    _measure(
        "condition_score",
        "girth",
        "Look and feel along neck, withers, shoulder, ribs, loin and tail head. Score "
        "from 1, very thin, to 9, very fat. Ask the vet about anything under 4 or "
        "over 6.",
        (_method("eye", "eye and hand", _SCORE),),
        dimension="score",
    ),
)

_BY_KEY: Final = {measure.key: measure for measure in MEASURES}


def measure_by_key(key: str) -> Measure:
    """Return the measure called ``key``.

    Raises:
        UnknownMeasureError: There is no such measure.
    """
    try:
        return _BY_KEY[key]
    except KeyError:
        raise UnknownMeasureError("Measure", key, tuple(_BY_KEY)) from None


def middle(readings: tuple[float, ...]) -> float:
    """Return the middle (median) of a day's readings, in their own unit.

    Raises:
        ValueError: There are no readings.
    """
    if not readings:
        raise ValueError("A measurement needs at least one reading")
    return float(median(readings))
