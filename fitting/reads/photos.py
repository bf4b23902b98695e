"""What the page of a horse's photos shows."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from fitting.models import Horse, Photo
from fitting.photos import SMALL_EDGE
from fitting.reads.measure import MeasuredRow, measured_row
from fitting.reads.units import day_words, units_of


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoView:
    """One photo: what is to be seen on it, and how large its small print is."""

    pk: int
    said: str
    note: str
    width: int
    height: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoDay:
    """The photos of one day, beside what was measured that day."""

    on: date
    photos: tuple[PhotoView, ...]
    measured: tuple[MeasuredRow, ...]


def photo_days(horse: Horse) -> tuple[PhotoDay, ...]:
    """Return a horse's photos, newest day first (2 queries: photos, measurements)."""
    photos = list(horse.photos.all())
    units = units_of(horse.yard)
    measured: dict[date, list[MeasuredRow]] = defaultdict(list)
    of_days = horse.measurements.filter(on__in={p.on for p in photos}, struck="")
    for row in of_days.order_by("measure", "pk"):
        measured[row.on].append(measured_row(row, units))
    return tuple(
        PhotoDay(
            on=on,
            photos=tuple(photo_view(photo, horse) for photo in of_day),
            measured=tuple(measured[on]),
        )
        for on, of_day in groupby(photos, key=lambda photo: photo.on)
    )


def photo_view(row: Photo, horse: Horse) -> PhotoView:
    """Return one photo as it is shown."""
    longest = max(row.width, row.height, 1)
    shrunk = min(1.0, SMALL_EDGE / longest)
    said = f"{horse.name}, {day_words(row.on)}"
    return PhotoView(
        pk=row.pk,
        said=f"{said}: {row.note}" if row.note else said,
        note=row.note,
        width=max(1, round(row.width * shrunk)),
        height=max(1, round(row.height * shrunk)),
    )
