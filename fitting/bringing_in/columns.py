"""Which column holds what: matched from its heading, changed by the keeper."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from fitting.body import MEASURES

# What a column may hold beside the sizes of one measure.
ROLES: Final = {
    "horse": "the horse",
    "day": "the day",
    "measure": "which measure",
    "reading": "the reading",
    "unit": "the unit",
    "method": "the method",
    "who": "who measured",
    "same_person": "the usual person",
    "shod": "shod in front",
    "note": "a note",
}
UNITS_IN_HEADINGS: Final = {
    **dict.fromkeys(("in", "inch", "inches"), "in"),
    **dict.fromkeys(("hands", "hand", "hh"), "hands"),
    **dict.fromkeys(("lb", "lbs", "pounds"), "lb"),
    **{unit: unit for unit in ("mm", "cm", "m", "kg")},
}
# How headings and measures are called, beside their own names; ours.
_CALLED: Final = {
    "horse": ("name", "pony", "youngster", "animal"),
    "day": ("date", "on", "when", "measured on", "date measured"),
    "measure": ("what", "what was measured", "measurement", "body part", "part"),
    "reading": ("readings", "value", "size", "result"),
    "unit": ("units",),
    "method": ("how", "with", "measured with", "taken with", "tool"),
    "who": ("by", "measured by", "person"),
    "same_person": ("same person", "usual person", "same person as usual"),
    "shod": ("shoes",),
    "note": ("notes", "remark", "remarks", "comment", "comments"),
    "withers_height": ("height", "withers", "height at the withers", "wither height"),
    "croup_height": ("croup", "height at the croup"),
    "heart_girth": ("girth", "chest"),
    "body_length": ("body", "length of body"),
    "cannon_round": ("cannon bone", "round the cannon"),
    "head_length": ("head",),
    "nose_round": ("nose",),
    "throat_round": ("throat",),
    "mouth_width": ("mouth", "width of mouth"),
    "tongue_thickness": ("tongue",),
    "rug_length": ("rug",),
    "weight": ("body weight", "bodyweight"),
    "condition_score": ("condition", "body condition", "score"),
}
_IN_BRACKETS: Final = re.compile(r"[(\[]([^)\]]*)[)\]]")
_NO_LETTERS: Final = re.compile(r"[\W_]+")
_NUMBERED: Final = re.compile(r" \d{1,2}$")
_NEVER_BARE: Final = frozenset({"in", "m"})  # words of their own in a heading


def _names() -> dict[str, str]:
    """Return every name of a role or measure, as headings are compared."""
    names: dict[str, str] = {}
    for measure in MEASURES:
        names |= {bare(measure.key): measure.key, bare(measure.name): measure.key}
    for role, called in _CALLED.items():
        names |= dict.fromkeys((bare(role), *called), role)
    return names


def bare(text: str) -> str:
    """Return a heading or a word in small letters, without signs."""
    return _NO_LETTERS.sub(" ", text.casefold()).strip()


_NAMES: Final = _names()
_MEASURE_KEYS: Final = frozenset(measure.key for measure in MEASURES)


def measure_named(text: str) -> str:
    """Return the key of the measure that a word means; empty: none."""
    found = _role(text)
    return found if found in _MEASURE_KEYS else ""


def unit_in(heading: str) -> str:
    """Return the unit that a heading names, ``Withers (cm)``; empty: none."""
    for inside in _IN_BRACKETS.findall(heading):
        if unit := UNITS_IN_HEADINGS.get(bare(inside), ""):
            return unit
    last = bare(heading).rpartition(" ")[2]
    return "" if last in _NEVER_BARE else UNITS_IN_HEADINGS.get(last, "")


def match_headings(headings: Sequence[str]) -> tuple[str, ...]:
    """Return what each column holds: a role, a measure's key, or empty for neither.

    A measure may have several columns, its readings; of anything else, the first.
    """
    roles: list[str] = []
    for heading in headings:
        role = _role(heading)
        roles.append("" if role in ROLES and role in roles else role)
    return tuple(roles)


def _role(heading: str) -> str:
    """Return what a heading names, with or without its unit or number."""
    whole = bare(heading)
    outside = bare(_IN_BRACKETS.sub(" ", heading))
    first, _, last = outside.rpartition(" ")
    without_unit = first if last in UNITS_IN_HEADINGS else outside
    for tried in (whole, outside, without_unit, _NUMBERED.sub("", without_unit)):
        if tried in _NAMES:
            return _NAMES[tried]
    return ""
