"""A sheet for others: what is written down of a horse, for who takes her on."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from fitting.age import say_age
from fitting.models import Horse, Measurement, Part, Tack, TryOnPart
from fitting.readings import show
from fitting.reads.horses import HorseHead, horse_head
from fitting.reads.units import day_words, units_of
from fitting.reads.worn import wore_of
from fitting.wearing import worn_by_kind
from starting.care import off_words
from starting.models import CareVisit, SessionWorn
from starting.outlook import Outlook
from starting.reads.care import row_of
from starting.reads.facts import off_fact
from starting.reads.outlook import outlook_of
from starting.reads.steps import shown_state

PARTS: Final = (
    ("who", "Who it is, and true age"),
    ("sizes", "Sizes, as last measured"),
    ("teeth", "Teeth"),
    ("tack", "Tack first worn, and its hole"),
    ("steps", "Steps established"),
    ("incidents", "Incidents"),
    ("off_work", "Off work"),
)
EMPTY: Final = {
    "sizes": "Nothing has been measured.",
    "teeth": "No look at the teeth is written down.",
    "tack": "Nothing is written down as worn.",
    "steps": "No step is established.",
    "incidents": "No incident is written down.",
    "off_work": "No time off work is written down.",
}
_THING: Final = ("on", "tack__name", "made_up__name")
TEETH: Final = (CareVisit.Kind.TEETH, CareVisit.Kind.TOOTH_CHANGE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One fact: its day, what it is, and what is said of it."""

    what: str
    said: str = ""
    on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPart:
    """One part of the sheet; ``empty``: what is said where nothing is written."""

    key: str
    title: str
    empty: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPage:
    """The sheet of one horse, and which parts were left out of it."""

    head: HorseHead
    she: str
    parts: tuple[SheetPart, ...]
    left_out: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Of:
    horse: Horse
    outlook: Outlook | None
    on: date


def sheet_page(horse: Horse, on: date, chosen: frozenset[str]) -> SheetPage:
    """Return the sheet with the chosen parts (14 queries with all of them).

    Outlook, visits, incidents, off work; what was worn, and in which holes.
    """
    told = _Of(horse=horse, outlook=outlook_of(horse), on=on)
    return SheetPage(
        head=horse_head(horse, on),
        she=horse.she,
        parts=tuple(
            SheetPart(
                key=key,
                title=title,
                empty=EMPTY.get(key, ""),
                lines=tuple(_LINES[key](told)),
            )
            for key, title in PARTS
            if key in chosen
        ),
        left_out=tuple(title for key, title in PARTS if key not in chosen),
    )


def _who(told: _Of) -> Iterator[Line]:
    horse, foaled = told.horse, told.horse.foaled_days
    kind = f"{horse.get_sex_display()}, {horse.get_horse_type_display()}"
    yield Line(what="Name", said=horse.name)
    yield Line(what="What", said=f"{kind[:1].upper()}{kind[1:]}")
    yield Line(what="Foaled", said=_foaled(horse))
    age = say_age(foaled, told.on)
    yield Line(what="True age", said=f"{age}, counted from the day of foaling")
    for what, height in (
        ("Dam's height", horse.dam_height_mm),
        ("Sire's height", horse.sire_height_mm),
    ):
        if height:
            shown = show(height, "height", units_of(horse.yard))
            yield Line(what=what, said=f"{shown}, as it was told")


def _foaled(horse: Horse) -> str:
    first, last = horse.foaled_days.first, horse.foaled_days.last
    if first == last:
        return day_words(first)
    return f"Between {day_words(first)} and {day_words(last)}; the day is not known"


def _sizes(told: _Of) -> Iterator[Line]:
    units = units_of(told.horse.yard)
    for look in told.outlook.measures if told.outlook else ():
        if look.last is None:
            continue
        size = show(look.last.value, look.dimension, units)
        method = Measurement(method=look.last.method).get_method_display()
        name = f"{look.name[:1].upper()}{look.name[1:]}"
        stale = "" if look.standing == "stands" else "; long ago for a growing horse"
        stale = "" if told.horse.grown else stale
        yield Line(what=name, said=f"{size}, by {method}{stale}", on=look.last.on)


def _teeth(told: _Of) -> Iterator[Line]:
    for visit in told.horse.care.filter(kind__in=TEETH):
        row = row_of(visit)
        said = " ".join(part for part in (row.text, row.note) if part)
        yield Line(what=row.title, said=said, on=row.on)


def _tack(told: _Of) -> Iterator[Line]:
    holes = _holes(told.horse)
    for kind in worn_by_kind(wore_of(told.horse)):
        name = Tack.Kind(kind.kind).label
        for item in kind.items:
            days = "once" if item.days == 1 else f"on {item.days} days"
            hole = holes.pop(item.item, {})
            said = "; ".join((f"worn {days}, last {day_words(item.last)}", *_in(hole)))
            what = f"{name[:1].upper()}{name[1:]}"
            what = f"{what}: {item.item}" if item.item else what
            yield Line(what=what, said=said, on=item.first.on)
    for thing, hole in holes.items():
        on = max(day for day, _ in hole.values())
        yield Line(what=f"Made up: {thing}", said="; ".join(_in(hole)), on=on)


def _in(holes: dict[str, tuple[date, int]]) -> Iterator[str]:
    for part, (on, hole) in holes.items():
        yield f"{Part.Name(part).label} in hole {hole} on {day_words(on)}"


def _holes(horse: Horse) -> dict[str, dict[str, tuple[date, int]]]:
    """Return the newest hole of each part of each thing put on (2 queries)."""
    tried = TryOnPart.objects.filter(
        tryon__horse=horse, tryon__struck="", tryon__how="worn", hole__isnull=False
    ).values_list(*(f"tryon__{name}" for name in _THING), "part", "hole")
    worn = SessionWorn.objects.filter(session__horse=horse, hole__isnull=False)
    worn = worn.exclude(part="")
    rows: list[Any] = [
        *tried,
        *worn.values_list("session__on", *_THING[1:], "part", "hole"),
    ]
    found: dict[str, dict[str, tuple[date, int]]] = {}
    for on, item, made_up, part, hole in sorted(rows, key=lambda row: row[0]):
        found.setdefault(item or made_up, {})[part] = (on, hole)
    return found


def _steps(told: _Of) -> Iterator[Line]:
    looks = told.outlook.stages if told.outlook else ()
    true = next((look for look in looks if look.last_true_level), None)
    if true:
        yield Line(what=f"Last level that was truly good: {true.name}", on=true.last_on)
    for look in looks:
        state = shown_state(look)
        if state == "established":
            yield Line(what=look.name, on=look.established_on)
        elif state == "go_over_again":
            last = f", last done {day_words(look.last_on)}" if look.last_on else ""
            yield Line(
                what=look.name,
                said=f"To be gone over again{last}",
                on=look.established_on,
            )


def _incidents(told: _Of) -> Iterator[Line]:
    for row in told.horse.incidents.all():
        what = row.get_what_display()
        yield Line(what=f"{what[:1].upper()}{what[1:]}", said=row.note, on=row.on)


def _off_work(told: _Of) -> Iterator[Line]:
    for row in told.horse.off_work.all():
        words = off_words(off_fact(row))
        yield Line(what=row.why, said=f"off work {words}", on=row.start)


_LINES: Final[dict[str, Callable[[_Of], Iterator[Line]]]] = {
    "who": _who,
    "sizes": _sizes,
    "teeth": _teeth,
    "tack": _tack,
    "steps": _steps,
    "incidents": _incidents,
    "off_work": _off_work,
}
