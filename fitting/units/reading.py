"""Typed text becomes a height, a length or a weight, or is refused in words."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final, Generic, Literal, TypeVar

from fitting.units.grammar import (
    RefusedError,
    Typed,
    is_fraction,
    read_number,
    take_apart,
)
from fitting.units.hands import hands_in_inches
from fitting.units.showing import (
    understood_height,
    understood_length,
    understood_weight,
)
from fitting.units.sizes import (
    HeightUnit,
    Length,
    LengthUnit,
    Unit,
    UnreadableSizeError,
    Weight,
    WeightUnit,
    exact,
    factor,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

S = TypeVar("S", Length, Weight)
AnyUnit = Unit | Literal["hands"]

# What a horse, its tack and its people can measure at all; ours.
LEAST_HEIGHT_MM: Final = 300.0
MOST_HEIGHT_MM: Final = 2_500.0
LEAST_LENGTH_MM: Final = 1.0
MOST_LENGTH_MM: Final = 5_000.0
LEAST_WEIGHT_KG: Final = 5.0
MOST_WEIGHT_KG: Final = 2_000.0

_LENGTH_WORDS: Final[dict[str, AnyUnit]] = {
    **dict.fromkeys(("in", "ins", "inch", "inches"), "in"),
    **dict.fromkeys(("cm", "cms"), "cm"),
    "mm": "mm",
    "m": "m",
}
_HEIGHT_WORDS: Final[dict[str, AnyUnit]] = {
    **dict.fromkeys(("hands", "hand", "hh", "h", "hands high"), "hands"),
    **_LENGTH_WORDS,
}
_WEIGHT_WORDS: Final[dict[str, AnyUnit]] = {
    **dict.fromkeys(("kg", "kgs", "kilo", "kilos"), "kg"),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), "lb"),
}
_ECHOED_CHARACTERS: Final = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kind(Generic[S]):
    """What is read: its units, its limits, and how to make and show it."""

    words: Mapping[str, AnyUnit]
    base: Literal["mm", "kg"]
    least: float
    most: float
    in_units: str
    range_in_words: str
    make: Callable[[float, str], S]
    say: Callable[[S], str]


def read_height(text: str, *, unit: HeightUnit) -> Length:
    """Return the height that ``text`` means; a bare number is in ``unit``.

    Raises:
        UnreadableSizeError: it is no height; ``meant`` holds what may be.
    """
    kind = _Kind(
        words=_HEIGHT_WORDS,
        base="mm",
        least=LEAST_HEIGHT_MM,
        most=MOST_HEIGHT_MM,
        in_units="A height is written in hands, inches, cm, mm or m.",
        range_in_words="Horses stand between 30 cm and 2.5 m high.",
        make=_length,
        say=lambda size: understood_height(size.mm, unit),
    )
    return _read(text, kind, unit)


def read_length(text: str, *, unit: LengthUnit) -> Length:
    """Return the length that ``text`` means; a bare number is in ``unit``.

    Raises:
        UnreadableSizeError: it is no length; ``meant`` holds what may be.
    """
    kind = _Kind(
        words=_LENGTH_WORDS,
        base="mm",
        least=LEAST_LENGTH_MM,
        most=MOST_LENGTH_MM,
        in_units="A length is written in inches, cm, mm or m.",
        range_in_words="Lengths here run from 1 mm to 5 m.",
        make=_length,
        say=lambda size: understood_length(size.mm, unit),
    )
    return _read(text, kind, unit)


def read_weight(
    text: str, *, unit: WeightUnit, least_kg: float = LEAST_WEIGHT_KG
) -> Weight:
    """Return the weight that ``text`` means; a bare number is in ``unit``.

    Args:
        text: what was typed.
        unit: the unit of a bare number.
        least_kg: the lightest weight that is believed; light tack needs a lower one.

    Raises:
        UnreadableSizeError: it is no weight; ``meant`` holds what may be.
    """
    kind = _Kind(
        words=_WEIGHT_WORDS,
        base="kg",
        least=least_kg,
        most=MOST_WEIGHT_KG,
        in_units="A weight is written in kg or lb.",
        range_in_words=f"Weights here run from {least_kg:g} kg to 2000 kg.",
        make=_weight,
        say=lambda size: understood_weight(size.kg, unit),
    )
    return _read(text, kind, unit)


def _length(mm: float, written: str) -> Length:
    return Length(mm=mm, written=written)


def _weight(kg: float, written: str) -> Weight:
    return Weight(kg=kg, written=written)


def _read(text: str, kind: _Kind[S], bare: AnyUnit) -> S:
    """Return the size, or raise the refusal with what was likely meant."""
    try:
        return kind.make(_value(text, kind, bare), text.strip())
    except RefusedError as refused:
        meant = _meant(refused, kind, bare)
        message = f"{_echo(text)}{refused.why}"
        if meant:
            message += f" Did you mean {' or '.join(kind.say(m) for m in meant)}?"
        raise UnreadableSizeError(message, meant=meant, why=refused.why) from None


def _value(text: str, kind: _Kind[S], bare: AnyUnit) -> float:
    """Return the size in the kind's base unit."""
    typed = take_apart(text)
    unit = kind.words.get(typed.unit) if typed.unit else bare
    if unit is None:
        raise RefusedError(kind.in_units, (f"{typed.number} {bare}",))
    if unit == "hands":
        value = _hands(typed, kind) * factor("in", "mm")
    else:
        value = _number(typed, kind, unit) * factor(unit, kind.base)
    if value <= 0:
        raise RefusedError("A size is more than nothing.")
    if not exact(kind.least) <= value <= exact(kind.most):
        raise RefusedError(kind.range_in_words, _in_other_units(typed, kind, unit))
    return float(value)


def _hands(typed: Typed, kind: _Kind[S]) -> Fraction:
    """Return inches; a number that is no hands may be another unit's."""
    try:
        return hands_in_inches(typed.number)
    except RefusedError as refused:
        others = _in_other_units(typed, kind, "hands")
        raise RefusedError(refused.why, *refused.likely, others) from None


def _number(typed: Typed, kind: _Kind[S], unit: Unit) -> Fraction:
    """Return a plain number; a bare fraction belongs to inches alone."""
    if is_fraction(typed.number) and not typed.unit and unit != "in":
        why = f"Fractions are the way of inches: write the unit, in or {unit}."
        likely = (f"{typed.number} {other}" for other in ("hands", "in", unit))
        raise RefusedError(why, tuple(likely))
    try:
        return read_number(typed.number, unit)
    except RefusedError as refused:
        others = () if typed.unit else _in_other_units(typed, kind, unit)
        raise RefusedError(refused.why, *refused.likely, others) from None


def _in_other_units(typed: Typed, kind: _Kind[S], unit: AnyUnit) -> tuple[str, ...]:
    """Return the number as it would be in each other unit."""
    others = dict.fromkeys(u for u in kind.words.values() if u != unit)
    return tuple(f"{typed.number} {other}" for other in others)


def _meant(refused: RefusedError, kind: _Kind[S], bare: AnyUnit) -> tuple[S, ...]:
    """Return the sizes of the first group of likely texts that holds any."""
    for group in refused.likely:
        meant: dict[float, S] = {}
        for text in group:
            written = text if text[-1].isalpha() else f"{text} {bare}"
            try:
                value = _value(written, kind, bare)
            except RefusedError:
                continue
            meant.setdefault(value, kind.make(value, written))
        if meant:
            return tuple(meant.values())
    return ()


def _echo(text: str) -> str:
    """Return what was typed, safe to show, as the opening of a refusal."""
    shown = "".join(c if c.isprintable() else "\ufffd" for c in text).strip()
    if not shown:
        return ""
    cut = shown[:_ECHOED_CHARACTERS]
    return f"{cut}{'…' if cut != shown else ''} cannot be read. "
