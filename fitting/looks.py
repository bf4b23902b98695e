"""What the body and the tack of one horse look like on a day; mm and kg."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, Literal

from fitting.body import Dimension, Standing
from fitting.contradictions import Contradiction
from fitting.fit import Finding

ASKED_WITHIN: Final = timedelta(days=365)  # ours


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A size with its spread: nine times in ten between ``p5`` and ``p95``."""

    p5: float
    p50: float
    p95: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Last:
    """The newest measurement: its day, its middle, and the text that was typed."""

    on: date
    value: float
    text: str
    method: str


Rests = Literal["type", "readings", "tryons", "both"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureLook:
    """One measure: last taken, now, grown, and whether it still stands.

    ``done`` is the share of the grown size reached (0 to 1), ``a_month`` the growth of
    the 30 days to come, ``rests_on`` what the answer rests on beside type and age.
    """

    measure: str
    name: str
    dimension: Dimension
    unit: Literal["mm", "kg", "score"]
    last: Last | None
    now: Band | None
    grown: Band | None
    standing: Standing
    measure_by: date | None
    done: Band | None = None
    a_month: Band | None = None
    rests_on: Rests = "type"

    def is_asked(self, on: date) -> bool:
        """Whether a measure never taken is asked for soon enough to be told of."""
        return self.measure_by is not None and self.measure_by <= on + ASKED_WITHIN


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuringLook:
    """One measuring day of this horse."""

    on: date
    measures: tuple[str, ...]
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AgeMark:
    """An age from which a kind of step may begin, and its words."""

    months: float
    said: str
    said_shortly: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """The body and the tack of one horse: this side's part of its outlook."""

    horse: str
    key: str
    on: date
    age_months: int
    measures: tuple[MeasureLook, ...]
    fits: tuple[Finding, ...]
    measuring_days: tuple[MeasuringLook, ...]
    age_marks: tuple[AgeMark, ...] = ()
    tooth_change: date | None = None
    contradictions: tuple[Contradiction, ...] = ()

    def measure(self, key: str) -> MeasureLook | None:
        """Return what is known of one measure."""
        return next((m for m in self.measures if m.measure == key), None)

    def leaves_out(self, key: str, on: date) -> bool:
        """Whether a measure was never taken, and is not asked for this year."""
        look = self.measure(key)
        return look is not None and look.last is None and not look.is_asked(on)
