"""The families of sign, their words, and the string of phases.

Fit is a strap in a buckle, permission a field gate, progress a string with knots, a
day's entry a leaf of the diary; the shapes alone tell them apart. A sign never stands
without its word.
"""

from __future__ import annotations

from html import escape
from typing import Final

from fitting.drawings.sign_art import GATES, KNOTS, LEAVES, STRAPS

_FAMILIES: Final = (
    ("fit", STRAPS, "0 0 36 24"),
    ("gate", GATES, "0 0 36 24"),
    ("knot", KNOTS, "0 0 24 36"),
    ("diary", LEAVES, "0 0 24 24"),
)
WORDS: Final[dict[str, str]] = {
    "fit-good": "good",
    "fit-watch": "only just",
    "fit-no": "no",
    "fit-unknown": "can't say",
    "gate-met": "yes",
    "gate-caution": "yes, but",
    "gate-shut": "not yet",
    "gate-unknown": "can't say",
    "knot-waiting": "waiting",
    "knot-open": "open",
    "knot-underway": "under way",
    "knot-settled": "established",
    "knot-refresh": "go over again",
    "knot-aside": "left out",
    "diary-likely": "likely",
    "diary-set": "day set",
    "diary-due": "due",
    "diary-overdue": "overdue",
    "diary-done": "done",
    "diary-went": "gone",
}
SIGN_OF: Final[dict[str, str]] = {
    "good": "fit-good",
    "watch": "fit-watch",
    "no": "fit-no",
    "met": "gate-met",
    "caution": "gate-caution",
    "shut": "gate-shut",
    "waiting": "knot-waiting",
    "open": "knot-open",
    "under_way": "knot-underway",
    "established": "knot-settled",
    "go_over_again": "knot-refresh",
    "left_out": "knot-aside",
}
NOT_KNOWN: Final = "not_known"


def sign_of(answer: str, *, gate: bool = False) -> str:
    """Return the id of an answer's sign; ``gate``: a step needs it, no strap.

    Only ``not_known`` is answered by straps and gates alike.

    Raises:
        KeyError: no sign is drawn for this answer.
    """
    if answer == NOT_KNOWN:
        return "gate-unknown" if gate else "fit-unknown"
    return SIGN_OF[answer]


def word_of(answer: str) -> str:
    """Return an answer as it is said on a page.

    Raises:
        KeyError: no word is kept for this answer.
    """
    return WORDS[sign_of(answer)]


def sprite() -> str:
    """Return every sign once, as symbols that a page refers to."""
    symbols = "".join(
        f'<symbol id="{family}-{name}" viewBox="{box}">{art}</symbol>'
        for family, arts, box in _FAMILIES
        for name, art in arts.items()
    )
    return (
        '<svg width="0" height="0" class="sprite" aria-hidden="true"'
        f' focusable="false">{symbols}</svg>'
    )


def sign(name: str) -> str:
    """Return one sign, a reference into the sprite.

    Raises:
        KeyError: there is no such sign.
    """
    if name not in WORDS:
        raise KeyError(name)
    family = name.partition("-")[0]
    return (
        f'<svg class="sign {family} {name}" aria-hidden="true" focusable="false">'
        f'<use href="#{name}"/></svg>'
    )


def phases(states: tuple[str, ...], said: str) -> str:
    """Return a horse's place in the programme: one knot a phase, along a string.

    Args:
        states: waiting, open, under_way, established, ... one a phase, in order.
        said: the same in words.

    Raises:
        KeyError: no knot is drawn for a state.
    """
    step, first = 26, 14
    knots = "".join(
        f'<g transform="translate({step * i} 24) rotate(-90)">'
        f'<use href="#{sign_of(state)}" width="20" height="30"/></g>'
        for i, state in enumerate(states)
    )
    width = step * len(states) + first - 2
    return (
        f'<svg viewBox="-2 0 {width} 28" role="img" aria-label="{escape(said)}"'
        f' fill="none">{knots}</svg>'
    )
