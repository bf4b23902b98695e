"""Why a part is a no, or only just, in two or three words: for lists of many."""

from __future__ import annotations

from typing import Final

from fitting.fit.answers import Answer
from fitting.tryons import Verdict

NOT_SURE: Final = "not sure"
LOOK_AGAIN: Final = "look again"
_SEEN: Final[dict[Verdict, str]] = {
    "too_short": "too short when put on",
    "too_long": "too long when put on",
    "wrong_place": "in the wrong place",
    "rubs": "rubs",
    "no": "did not fit when put on",
}


def seen_short(verdict: Verdict) -> str:
    """Return what was seen when it was put on; nothing where it is the answer."""
    return _SEEN.get(verdict, "")


def too_short(meaning: str) -> str:
    """Return how a no begins: ``too tight`` of ``too tight, it would pinch``.

    ``meaning``: ``too`` or ``so``, then the word.
    """
    return f"too {meaning.split()[1].rstrip(',')}"


def just_short(at_middle: Answer, *, small: bool) -> str:
    """Return why it is only just: by its room on the middle size, or by not knowing."""
    if at_middle is not Answer.WATCH:
        return NOT_SURE
    return "snug" if small else "roomy"


def holes_short(holes: float, *, small: bool) -> str:
    """Return how many holes are missing at the end of a strap, at least one."""
    many = max(round(holes), 1)
    return f"{many} hole{'' if many == 1 else 's'} too {'short' if small else 'long'}"
