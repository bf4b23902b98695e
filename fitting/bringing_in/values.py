"""What bringing readings in works with: what is known, how to read, what comes out."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from fitting.age import Foaled
from fitting.body import HorseType
from fitting.bringing_in.days import Order
from fitting.readings import Reading, Units


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownHorse:
    """A horse of the yard."""

    key: str
    name: str
    she: str
    foaled: Foaled
    horse_type: HorseType


@dataclass(frozen=True, slots=True, kw_only=True)
class Stands:
    """A measurement that stands in the yard already; mm, kg or score."""

    horse: str
    measure: str
    on: date
    method: str
    values: tuple[float, ...]
    struck: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What the yard knows: its horses, what stands, its units, the day it is."""

    horses: tuple[KnownHorse, ...]
    standing: tuple[Stands, ...]
    units: Units
    today: date


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """How a file is read: found by us, changed by the keeper.

    ``roles``: what each column holds. ``horse``: the key of the horse whose name is
    left out. ``methods``: measure and method, where a line names none.
    """

    delimiter: str
    roles: tuple[str, ...]
    order: Order
    units: Units
    horse: str = ""
    methods: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One measurement to write in, and what is doubted of it, in sentences."""

    lines: tuple[int, ...]
    horse: str
    measure: str
    on: date
    method: str
    readings: tuple[Reading, ...]
    who: str = ""
    same_person: bool = False
    shod: bool = False
    note: str = ""
    doubts: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """What a tick beside it stands for: its first line, measure and sizes."""
        written = ",".join(reading.written for reading in self.readings)
        return f"{self.lines[0]}-{self.measure}-{written}"

    @property
    def values(self) -> tuple[float, ...]:
        """The readings in mm, kg or score."""
        return tuple(reading.value for reading in self.readings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Why a line, or one size of it, is not written in."""

    line: int
    said: str
    stands: bool = False  # it is here already: nothing to mend


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a file comes to.

    ``asks``: what must be said before a line can be read. ``methods_asked``: measures
    of which a line names no method.
    """

    lines: int = 0
    asks: tuple[str, ...] = ()
    methods_asked: tuple[str, ...] = ()
    entries: tuple[Entry, ...] = ()
    troubles: tuple[Trouble, ...] = field(default=())

    @property
    def good(self) -> tuple[Entry, ...]:
        """What nothing is doubted of."""
        return tuple(entry for entry in self.entries if not entry.doubts)

    @property
    def doubted(self) -> tuple[Entry, ...]:
        """What is to be looked at."""
        return tuple(entry for entry in self.entries if entry.doubts)

    @property
    def to_mend(self) -> tuple[Trouble, ...]:
        """What cannot be written in."""
        return tuple(trouble for trouble in self.troubles if not trouble.stands)

    @property
    def here_already(self) -> tuple[Trouble, ...]:
        """What stands already, or is said twice."""
        return tuple(trouble for trouble in self.troubles if trouble.stands)
