"""What the pages of the horses show."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import msgspec
from django.db.models import F

from fitting.age import rising_words, say_age
from fitting.looks import MeasureLook
from fitting.models import Horse, Yard
from fitting.readings import Units, show, show_between
from fitting.reads.units import near_words, units_of

ONE_LINE_FROM: Final = 9  # horses
SOON: Final = timedelta(days=60)  # ours: what is due later is not said in the list


def horse_words(row: Horse, on: date) -> str:
    """Return what a horse is: sex, age, rising, type."""
    words = [f"{row.get_sex_display()}, {say_age(row.foaled_days, on)}"]
    if not row.grown:
        words.append(rising_words(row.foaled_days, on, row.yard.hemisphere))
    words.append(row.get_horse_type_display())
    return " ".join(f"{word[:1].upper()}{word[1:]}." for word in words if word)


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseHead:
    """The head of every page of one horse."""

    name: str
    key: str
    kind: str


def horse_head(row: Horse, on: date) -> HorseHead:
    """Return the head of a horse's pages; the yard is read already."""
    return HorseHead(name=row.name, key=row.key, kind=horse_words(row, on))


@dataclass(frozen=True, slots=True, kw_only=True)
class HeightNow:
    """What the list shows of a stored outlook."""

    key: str
    height: MeasureLook | None
    off_work: str
    resting: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HorseRow:
    """One horse of the list: its height now, and what keeps it from work."""

    name: str
    key: str
    kind: str
    height: str
    measured: bool
    again: str
    away: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HorsesPage:
    """The yard's horses, grown ones apart; one line each when there are many."""

    young: tuple[HorseRow, ...]
    grown: tuple[HorseRow, ...]

    @property
    def short(self) -> bool:
        """Whether each has only one line."""
        return len(self.young) + len(self.grown) >= ONE_LINE_FROM


_BRIEF: Final = msgspec.json.Decoder(HeightNow)


def horses_page(yard: Yard, on: date) -> HorsesPage:
    """Return the yard's horses (1 query: horses with the brief of their outlook)."""
    horses = list(yard.horses.select_related("yard").annotate(b=F("outlook__brief")))
    rows = [(horse.grown, _row(horse, _brief(horse.b), on)) for horse in horses]
    return HorsesPage(
        young=tuple(row for grown, row in rows if not grown),
        grown=tuple(row for grown, row in rows if grown),
    )


def _brief(stored: bytes | None) -> HeightNow | None:
    return _BRIEF.decode(stored) if stored else None


def _row(horse: Horse, brief: HeightNow | None, on: date) -> HorseRow:
    height = brief.height if brief else None
    return HorseRow(
        name=horse.name,
        key=horse.key,
        kind=horse_words(horse, on),
        height=_height_words(height, units_of(horse.yard)) if height else "",
        measured=bool(height and height.last),
        again=_again_words(height, on) if height else "",
        away=(brief.off_work or brief.resting) if brief else "",
    )


def _height_words(look: MeasureLook, units: Units) -> str:
    """Return the height now, or the range it may have if it was never measured."""
    now = look.now
    if now is None:
        return ""
    if look.last is None:
        between = show_between(now.p5, now.p95, "height", units)
        return f"{between} by type and age"
    return show(now.p50, "height", units)


def _again_words(look: MeasureLook, on: date) -> str:
    if look.measure_by is None or look.measure_by > on + SOON:
        return ""
    if look.measure_by <= on:
        return "Measure the height: due."
    return f"Measure the height by {near_words(look.measure_by, on)}."


# What goes with a horse, by the name it hangs on the horse; the rest is computed.
_GOES: Final = {
    "measurements": ("measurement", "measurements"),
    "tryons": ("try-on", "try-ons"),
    "photos": ("photo", "photos"),
    "first_worn": ("first wearing", "first wearings"),
    "sessions": ("session", "sessions"),
    "care": ("visit", "visits"),
    "incidents": ("incident", "incidents"),
    "off_work": ("time off work", "times off work"),
    "rests": ("rest", "rests"),
    "went_ahead": ("written reason", "written reasons"),
}


def goes_with(row: Horse) -> tuple[str, ...]:
    """Return what is deleted with a horse, in words (1 query a kind of record)."""
    counts = ((getattr(row, name).count(), words) for name, words in _GOES.items())
    return tuple(f"{n} {one if n == 1 else many}" for n, (one, many) in counts if n)
