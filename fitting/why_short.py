"""Why an item is a no, or only just, on one horse: in as few words as a list has."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from fitting.fit.answers import Answer, Finding
from fitting.listed import listed
from fitting.pieces import part_word

TOLD: Final = frozenset({Answer.NO, Answer.WATCH})
MOST_NAMED: Final = 2  # parts; of more, the first is named


def why_short(parts: Sequence[Finding], answer: Answer) -> str:
    """Return why an item is so, of the parts it is told of: ``browband too short``.

    A part is named where the item has others; nothing, where no short reason is known.
    """
    if answer not in TOLD:
        return ""
    against = [one for one in parts if one.answer is answer and one.short]
    by_word: dict[str, list[str]] = {}
    for one in against:
        by_word.setdefault(one.short, []).append(part_word(one.part))
    if len(by_word) == 1 and len(against) == len(parts):
        return against[0].short
    if len(against) <= MOST_NAMED:
        return ", ".join(f"{listed(of)} {word}" for word, of in by_word.items())
    first, more = against[0], len(against) - 1
    return f"{part_word(first.part)} {first.short}, and {more} parts more"
