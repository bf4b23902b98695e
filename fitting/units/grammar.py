"""What people type, taken apart into a number and a unit: our own plain grammar."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

LONGEST_TEXT: Final = 40  # characters; ours
FRACTIONS: Final = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_RULE_PARTS: Final = frozenset({2, 4, 8, 16, 32})  # how an inch rule is divided
_INCH_MARKS: Final = re.compile("''|’’|′′|[\"″“”]")  # phones curl the straight marks
_SPACES: Final = re.compile("[ \t\u00a0\u2002\u2009\u202f]+")
_ALLOWED: Final = re.compile("[0-9a-z.,/ -]*")
_SIZE: Final = re.compile(r"(?P<number>[0-9.,/ -]*[0-9]) ?(?P<unit>[a-z][a-z ]*)?")
_DECIMAL: Final = re.compile(r"\d+(?:[.,]\d+)?|[.,]\d+", re.ASCII)
_MIXED: Final = re.compile(r"(?:(\d+)[ -])?(\d+)/(\d+)", re.ASCII)
_THOUSANDS: Final = re.compile(r"([1-9]\d{0,2}),(\d{3})", re.ASCII)


class RefusedError(Exception):
    """Why a text is refused, and groups of texts that may have been meant."""

    def __init__(self, why: str, *likely: tuple[str, ...]) -> None:
        super().__init__(why)
        self.why = why
        self.likely = likely


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """A number as it was typed, and the word after it (empty for a bare number)."""

    number: str
    unit: str


def take_apart(text: str) -> Typed:
    """Return the number and the unit of a typed size.

    Raises:
        RefusedError: the text is no number with a unit.
    """
    plain = _plain(text)
    found = _SIZE.fullmatch(plain)
    if found is None:
        raise RefusedError("A size is a number and its unit: 118 mm, 4 7/8 in, 312 kg.")
    number, unit = found["number"].strip(), (found["unit"] or "").strip()
    if number.startswith("-"):
        more = f"{number.lstrip('- ')} {unit}".strip()
        raise RefusedError("A size is never less than nothing.", (more,))
    return Typed(number=number, unit=unit)


def _plain(text: str) -> str:
    """Return the text in small ASCII letters, fractions written out."""
    if len(text) > LONGEST_TEXT:
        raise RefusedError(f"A size takes at most {LONGEST_TEXT} characters.")
    plain = _INCH_MARKS.sub(" in ", text)
    for sign, written in FRACTIONS.items():
        plain = plain.replace(sign, f" {written} ")
    # Only ASCII is lowered: some foreign letters would turn into ours.
    plain = "".join(c.lower() if c.isascii() else c for c in plain)
    plain = _SPACES.sub(" ", plain).strip()
    if not plain:
        raise RefusedError("Nothing is written here.")
    if not _ALLOWED.fullmatch(plain):
        raise RefusedError("Only figures 0 to 9, fractions and a unit are read.")
    return plain


def read_number(number: str, unit: str) -> Fraction:
    """Return the value of a plain, decimal or mixed number, exactly.

    Raises:
        RefusedError: it is no number, or a comma leaves two meanings.
    """
    if found := _THOUSANDS.fullmatch(number):
        whole, rest = found.groups()
        likely = (f"{whole}{rest} {unit}", f"{whole}.{rest} {unit}")
        raise RefusedError("A comma before three figures has two meanings.", likely)
    if _DECIMAL.fullmatch(number):
        return Fraction(number.replace(",", "."))
    if found := _MIXED.fullmatch(number):
        return int(found[1] or 0) + part_of_an_inch(found[2], found[3])
    raise RefusedError("This is not one number: write 118, 11.8 or 4 7/8.")


def is_fraction(number: str) -> bool:
    """Return whether the number is written with a fraction."""
    return "/" in number


def part_of_an_inch(top: str, bottom: str) -> Fraction:
    """Return a fraction smaller than one, in the parts of an inch rule.

    Raises:
        RefusedError: no rule is divided so.
    """
    if int(bottom) not in _RULE_PARTS or not 0 < int(top) < int(bottom):
        raise RefusedError("Parts are halves, quarters, eighths, 16ths or 32nds.")
    return Fraction(int(top), int(bottom))
