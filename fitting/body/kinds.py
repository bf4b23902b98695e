"""Measures, methods and measurements as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

Dimension = Literal["height", "length", "weight", "score"]
Standing = Literal["stands", "stale", "never"]
HorseType = Literal["small_pony", "pony", "light", "warmblood", "heavy"]


class UnknownMeasureError(KeyError):
    """A measure, or a method of a measure, that nobody takes; says which there are."""

    def __init__(self, what: str, asked: str, allowed: tuple[str, ...]) -> None:
        super().__init__(f"{what} {asked!r} is not one of {', '.join(allowed)}")
        self.asked = asked
        self.allowed = allowed


@dataclass(frozen=True, slots=True, kw_only=True)
class Method:
    """One way of taking a measure; ``error`` is one SD (mm), or a share if relative.

    ``family`` names methods whose readings of one day belong together; ``reads_over``
    is what the method reads too much, mm; ``source`` where the error comes from.
    """

    key: str
    name: str
    error: float
    error_unknown_person: float
    relative: bool = False
    family: str = ""
    reads_over: float = 0.0
    source: str = "ours"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One measure of the body."""

    key: str
    name: str
    how: str
    dimension: Dimension
    methods: tuple[Method, ...]
    group: str
    grows: bool = True

    def method(self, key: str) -> Method:
        """Return the method called ``key``.

        Raises:
            UnknownMeasureError: This measure is not taken so.
        """
        for method in self.methods:
            if method.key == key:
                return method
        allowed = tuple(method.key for method in self.methods)
        raise UnknownMeasureError(f"Method of {self.name}", key, allowed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """One measurement: one measure, one day, one method; mm, kg or score.

    Struck-out measurements never become a ``Taken``. ``who`` empty: not written down.
    """

    measure: str
    on: date
    readings: tuple[float, ...]
    method: str
    same_person: bool = False
    shod: bool = False
    who: str = ""
