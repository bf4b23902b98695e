"""Where experts disagree about backing: both sides, with what each rests on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """What one side holds, and the sources it names."""

    says: str
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question that has no one answer; ``here``: what this book does about it."""

    asked: str
    sides: tuple[Side, ...]
    here: str


QUESTIONS: Final = (
    Question(
        asked="How old before a rider?",
        sides=(
            Side(
                says="Early work is no harm: a review finds horses grown in the bone by"
                " about two years, in all breeds much alike; another finds that"
                " racehorses started early were hurt no more often and raced longer,"
                " and that standing still harms more than steady exercise.",
                sources=("rogers_2021", "logan_nielsen_2021"),
            ),
            Side(
                says="Wait: in 36 Thoroughbreds the growth plates of the spine before"
                " the pelvis closed at 4.9 to 6.7 years. A ministry's guideline lets"
                " training for use begin at 30 months, a federation has horses first"
                " ridden at about three, and English law lets none under three be"
                " hired out for riding.",
                sources=("haussler_1997", "bml_2020", "fn_backing", "hire_2018"),
            ),
        ),
        here="No rider before 36 months of true age, and most between 36 and 42: ours."
        " It is the earliest, not a target.",
    ),
    Question(
        asked="How much weight?",
        sides=(
            Side(
                says="A fifth is well carried: horses were little different at 15 and"
                " 20 %, sorer and with a faster heart at 25 and 30 %; riders made up to"
                " a quarter heavier changed nothing in a short, easy test. Two"
                " federations hold 20 % with all tack.",
                sources=(
                    "powell_2008", "christensen_2020", "british_dressage_2023",
                    "equestrian_australia_load",
                ),
            ),
            Side(
                says="Less: in a pilot on six horses every test with a rider over 15 %"
                " was broken off, one of twelve at 12.8 to 15 %, none at 10 to 11.7 %."
                " One federation asks less of young horses, without a number.",
                sources=("dyson_load_2020", "equestrian_australia_load"),
            ),
            Side(
                says="Neither: a review finds no limit that studies agree on.",
                sources=("load_review_2021",),
            ),
        ),
        here="Up to 12 % is light, 15 % the most under five years, 20 % later: ours."
        " No study sets a limit for a horse being backed.",
    ),
    Question(
        asked="How often must somebody look at the teeth?",
        sides=(
            Side(
                says="Every six months in a young horse; until five by some, longer by"
                " others. The milk cheek teeth go between 2½ and 4 years.",
                sources=("teeth_six_months", "caps_30_48"),
            ),
            Side(
                says="Once a year at least, for any horse.",
                sources=("teeth_six_months",),
            ),
        ),
        here="For steps with a bit 180 days is a yes and 365 a caution: ours.",
    ),
)  # fmt: skip
