"""What bringing lists in needs to know, and what came with each."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.db.models import Count, Q

from fitting.body import middle
from fitting.bringing_in import Known, KnownHorse, Stands
from fitting.bringing_in.telling import Size, Sum, sums
from fitting.models import BroughtIn, Measurement, Yard
from fitting.reads.measure import MeasuredRow, measured_row
from fitting.reads.units import units_of

AS_IT_CAME = 1  # the revision of a measurement that nobody corrected


@dataclass(frozen=True, slots=True, kw_only=True)
class BroughtRow:
    """One list that was brought in."""

    pk: int
    name: str
    on: date
    by: str
    came: int
    stands: int
    corrected: int
    left: tuple[str, ...]

    @property
    def gone(self) -> int:
        """How many of its measurements were deleted since."""
        return self.came - self.stands


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectedRow:
    """A measurement that was corrected since it came; what a tick stands for."""

    key: str
    horse: str
    horse_key: str
    on: date
    row: MeasuredRow


def known_of(yard: Yard, today: date) -> Known:
    """Return what a yard knows of its horses and their sizes (2 queries)."""
    rows = Measurement.objects.of(yard).values_list(
        "horse__key", "measure", "on", "method", "readings", "struck"
    )
    return Known(
        horses=tuple(
            KnownHorse(
                key=horse.key,
                name=horse.name,
                she=horse.she,
                foaled=horse.foaled_days,
                horse_type=horse.horse_type,  # type: ignore[arg-type]
            )
            for horse in yard.horses.all()
        ),
        standing=tuple(
            Stands(
                horse=horse,
                measure=measure,
                on=on,
                method=method,
                values=tuple(reading["value"] for reading in readings),
                struck=bool(struck),
            )
            for horse, measure, on, method, readings, struck in rows.order_by()
        ),
        units=units_of(yard),
        today=today,
    )


def all_brought(yard: Yard) -> tuple[BroughtRow, ...]:
    """Return every list that was brought in, newest first (1 query)."""
    rows = yard.brought_in.select_related("by").annotate(
        stands=Count("measurements"),
        corrected=Count(
            "measurements", filter=Q(measurements__revision__gt=AS_IT_CAME)
        ),
    )
    return tuple(
        BroughtRow(
            pk=row.pk,
            name=row.name,
            on=row.on,
            by=row.by.get_username() if row.by else "",
            came=row.came,
            stands=row.stands,
            corrected=row.corrected,
            left=tuple(row.left),
        )
        for row in rows
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class CameWith:
    """What came with one list: sums by horse, and what was corrected since."""

    sums: tuple[Sum, ...]
    count: int
    corrected: tuple[CorrectedRow, ...]

    @property
    def untouched(self) -> int:
        """How many stand as they came."""
        return self.count - len(self.corrected)


def came_with(row: BroughtIn) -> CameWith:
    """Return what came with one list and stands (1 query)."""
    units = units_of(row.yard)
    rows = list(row.measurements.select_related("horse").order_by("horse", "on", "pk"))
    names = {one.horse.key: one.horse.name for one in rows}
    sizes = [
        Size(
            horse=one.horse.key,
            measure=one.measure,
            on=one.on,
            value=middle(one.values),
        )
        for one in rows
    ]
    return CameWith(
        sums=sums(sizes, names, units),
        count=len(rows),
        corrected=tuple(
            CorrectedRow(
                key=f"{one.pk}-{one.revision}",
                horse=one.horse.name,
                horse_key=one.horse.key,
                on=one.on,
                row=measured_row(one, units),
            )
            for one in rows
            if one.revision > AS_IT_CAME
        ),
    )
