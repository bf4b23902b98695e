"""Heights in hands: hands, a point, whole inches from 0 to 3, parts of an inch.

Source: encyclopedia article on the hand as a unit. A hyphen for the point, and parts
of an inch, are common practice, no published source.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from fitting.units.grammar import RefusedError, part_of_an_inch
from fitting.units.sizes import INCHES_A_HAND

if TYPE_CHECKING:
    from collections.abc import Callable

_POINT: Final = "[.,-]"  # a comma is all that some phones' number keys offer
_HANDS: Final = re.compile(rf"(\d{{1,3}})(?:{_POINT}([0-3])(?: (\d+)/(\d+))?)?")


def hands_in_inches(number: str) -> Fraction:
    """Return a height in hands, ``15.1`` or ``15.1 1/2``, in inches.

    Raises:
        RefusedError: it is no height in hands; carries the nearest that are.
    """
    found = _HANDS.fullmatch(number)
    if found is None:
        raise _refusal(number)
    hands, inches, top, bottom = found.groups()
    part = part_of_an_inch(top, bottom) if top else Fraction(0)
    return int(hands) * INCHES_A_HAND + int(inches or 0) + part


def hands_text(inches: Fraction) -> str:
    """Return a height in hands as plain text: ``15.1`` or ``15.1 1/2``."""
    hands, rest = divmod(inches, INCHES_A_HAND)
    whole, part = divmod(rest, 1)
    return f"{hands}.{whole} {part}" if part else f"{hands}.{whole}"


def _refusal(number: str) -> RefusedError:
    """Return why this is no height in hands, with the nearest that are."""
    for pattern, why, nearest in _SLIPS:
        if found := pattern.fullmatch(number):
            meant = sorted(set(nearest(*found.groups())))
            return RefusedError(why, tuple(f"{hands_text(m)} hands" for m in meant))
    return RefusedError("Hands are written 15.1 or 15.1½: hands, point, inches.")


def _past_three(hands: str, inches: str) -> list[Fraction]:
    """Return the last inch of that hand, and the inches carried into the next."""
    bottom = int(hands) * INCHES_A_HAND
    half_a_hand = inches == "5"
    return [
        Fraction(bottom + (2 if half_a_hand else 3)),
        Fraction(bottom + int(inches)),
    ]


def _two_figures(hands: str, first: str, rest: str) -> list[Fraction]:
    """Return the slip, the half inch and the decimal hand that may be meant."""
    bottom, inches = int(hands) * INCHES_A_HAND, int(first)
    nearest = []
    if inches < INCHES_A_HAND:
        part = Fraction(1, 2) if rest == "5" else Fraction(0)
        nearest.append(bottom + inches + part)
    decimal = Fraction(f"0.{first}{rest}") * INCHES_A_HAND
    if decimal.denominator == 1:
        nearest.append(bottom + decimal)
    return nearest


def _second_point(hands: str, inches: str, rest: str) -> list[Fraction]:
    """Return the height without, and with, the part of an inch."""
    bottom = Fraction(int(hands) * INCHES_A_HAND + int(inches))
    decimal = Fraction(f"0.{rest}")
    return [bottom, bottom + decimal] if (decimal * 4).denominator == 1 else [bottom]


def _fraction_of_a_hand(hands: str, top: str, bottom: str) -> list[Fraction]:
    """Return the fraction taken as inches, and as hands."""
    part, whole = part_of_an_inch(top, bottom), int(hands) * INCHES_A_HAND
    as_hands = part * INCHES_A_HAND
    return [whole + part, *([whole + as_hands] if as_hands.denominator == 1 else [])]


def _spaced(hands: str, inches: str) -> list[Fraction]:
    """Return the height whose point was left out."""
    return [Fraction(int(hands) * INCHES_A_HAND + int(inches))]


# What people write instead: its shape, the fact that speaks against it, its meanings.
_SLIPS: Final[
    tuple[tuple[re.Pattern[str], str, Callable[..., list[Fraction]]], ...]
] = (
    (
        re.compile(rf"(\d{{1,3}}){_POINT}([4-9])(?: \d+/\d+)?"),
        "A hand has four inches, so the figure after the point stops at 3.",
        _past_three,
    ),
    (
        re.compile(rf"(\d{{1,3}}){_POINT}(\d)(\d+)(?: \d+/\d+)?"),
        "One figure stands after the point: whole inches, 0 to 3.",
        _two_figures,
    ),
    (
        re.compile(rf"(\d{{1,3}}){_POINT}([0-3]){_POINT}(\d+)"),
        "A part of an inch is written ¼, ½ or ¾, without a second point.",
        _second_point,
    ),
    (
        re.compile(r"(\d{1,3})[ -](\d+)/(\d+)"),
        "Whole inches stand between the hands and a fraction.",
        _fraction_of_a_hand,
    ),
    (
        re.compile(r"(\d{1,3}) ([0-3])"),
        "A point stands between hands and inches.",
        _spaced,
    ),
)
