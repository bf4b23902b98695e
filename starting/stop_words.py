"""What a stop sign in somebody's own words asks for, and the signs of every step."""

from __future__ import annotations

import re
from typing import Final

from starting.programme import StopLevel

# Ours: words that ask for more than an end for today. The keeper sees what they were
# read as and may choose another; of two, the one that asks for more goes.
VET_WORDS: Final = (
    r"\b(?:vet|blood\w*|bleed\w*|bled|lame\w*|uneven|unlevel|stiff\w*|swollen|swell\w*"
    r"|filled|flinch\w*|colic\w*|scour\w*|wound\w*|off (?:its|her|his) feed"
    r"|not (?:eating|suckling)|nods|coughs?|losing (?:weight|condition)"
    r"|dropping weight)\b"
)
BACK_WORDS: Final = (
    r"\b(?:(?:go|goes|gone|going|went) back (?:to|a step)|buck(?:s|ed|ing)?"
    r"|bolt(?:s|ed|ing)?|bronc\w*|plung(?:es|ed|ing))\b"
)
WORDS: Final[tuple[tuple[StopLevel, str], ...]] = (
    ("ring_vet", VET_WORDS),
    ("go_back", BACK_WORDS),
)

# Source: visser_2009 for a tight body, a high head, restless lips and grinding teeth;
# the others are ours.
EVERY_STEP: Final = (
    "Lame, or blood anywhere: ring the vet.",
    "Breath not settled within two minutes, shaking, freezing: end for today.",
    "Head high, body tight throughout, teeth grinding, lips restless: end for today.",
    "Whoever handles is angry or tired: end for today.",
)
SOURCES: Final = ("visser_2009", "ours")


def level_of(text: str) -> StopLevel | None:
    """Return what a stop sign in own words asks for; None: its words do not say."""
    for level, words in WORDS:
        if re.search(words, text, re.IGNORECASE):
            return level
    return None
