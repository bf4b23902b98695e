"""The gap under a noseband, at the front: typed in millimetres or in fingers."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from fitting.units import UnreadableSizeError, read_length, show_off

# The mark for two fingers on the gauge of the International Society for Equitation
# Science is at 20 mm, as is the good edge of a noseband. One, three and four are ours.
FINGER_MM: Final = 10.0
SOURCES: Final = ("ises_noseband", "ours")
PARTS: Final = frozenset({"noseband", "nose"})
MOST_FINGERS: Final = 4
MOST_MM: Final = 60.0  # ours: more is another measure, or another unit

_FINGERS: Final = re.compile(r"(\d{1,2}|no|one|two|three|four)\s*(?:fingers?|f)", re.I)
_INCHES: Final = re.compile(r"(?:ins?|inch|inches|[\"″”])$", re.IGNORECASE)
_COUNTS: Final = {"no": 0, "one": 1, "two": 2, "three": 3, "four": 4}


@dataclass(frozen=True, slots=True, kw_only=True)
class NoseGap:
    """A gap (mm), and the text it was read from."""

    mm: float
    written: str


class UnreadableGapError(ValueError):
    """Typed text that is no gap; says why."""


def read_gap(text: str) -> NoseGap:
    """Return the gap (mm) that a text means: ``18``, ``1.8 cm``, ``2 fingers``.

    Raises:
        UnreadableGapError: it is no gap, or more than a noseband leaves.
    """
    written = " ".join(text.split())
    fingers = _FINGERS.fullmatch(written) if written.isascii() else None
    mm = _of_fingers(fingers[1].lower()) if fingers else _of_length(written)
    if mm > MOST_MM:
        raise UnreadableGapError(
            f"{written} is {mm:g} mm: a noseband leaves {MOST_MM:g} at most."
            " Is it another unit?"
        )
    return NoseGap(mm=mm, written=written)


def write_gap(mm: float, written: str = "") -> str:
    """Return a gap as text that reads back to the same millimetres."""
    try:
        same = read_gap(written).mm == mm
    except UnreadableGapError:
        same = False
    return written if same and not written.isdigit() else f"{mm:g} mm"


def gap_words(mm: float, written: str = "") -> str:
    """Return a gap as it is said: what was typed, and the millimetres it counts as."""
    if _INCHES.search(written):
        return show_off(round(mm, 1), "in", "g")
    said = f"{mm:g} mm"
    if "f" not in written.lower():
        return said
    return f"{written}, taken as {said}"


def _of_fingers(said: str) -> float:
    count = _COUNTS[said] if said in _COUNTS else int(said)
    if count > MOST_FINGERS:
        raise UnreadableGapError(
            f"{count} fingers are a hand: count those that lie flat under the strap."
        )
    return count * FINGER_MM


def _of_length(written: str) -> float:
    if written in {"0", "0 mm"}:  # done up with no gap at all
        return 0.0
    try:
        return read_length(written, unit="mm").mm
    except UnreadableSizeError as error:
        raise UnreadableGapError(f"{error} Or in fingers: 2 fingers.") from error
