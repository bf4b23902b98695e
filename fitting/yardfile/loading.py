"""A yard file's yard and bodies become rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from datetime import date
from functools import cache
from typing import Any, Final
from zoneinfo import available_timezones

from fitting.body import UnknownMeasureError, measure_by_key
from fitting.models import (
    FirstWorn,
    Horse,
    Measurement,
    Tack,
    TackSet,
    TryOn,
    TryOnPart,
    Yard,
)
from fitting.models.horse import OWN_EDGES
from fitting.models.yard import WEEKDAYS, YARD_EDGES
from fitting.nose_gap import UnreadableGapError, read_gap
from fitting.reads.units import units_of
from fitting.writes.touch import free_key
from fitting.yardfile import shapes
from fitting.yardfile.days import read_foaling
from fitting.yardfile.edges import check_sound, read_changes
from fitting.yardfile.place import Place, shown
from fitting.yardfile.rows import (
    Loading,
    each_once,
    find,
    keep,
    one_of,
    weekdays,
)
from fitting.yardfile.sizes import ALLOWED as SIZES
from fitting.yardfile.sizes import read_size

ROOM: Final = tuple(Tack.Kind.values)


def clear_bodies(yard: Yard, keys: Sequence[str]) -> None:
    """Delete horses without one of the keys; of the others, body and tack records.

    A kept horse keeps its row, and so its photos.
    """
    yard.horses.exclude(key__in=keys).delete()
    Measurement.objects.of(yard).delete()
    yard.brought_in.all().delete()  # what came with them is gone
    for model in (TryOn, FirstWorn):
        model._default_manager.filter(horse__yard=yard).delete()  # noqa: SLF001
    TackSet.objects.filter(yard=yard).delete()
    yard.tack.all().delete()


@cache
def _zones() -> set[str]:
    return available_timezones()


def fill_yard(where: Place, row: Yard, yard: shapes.Yard, on: date) -> Yard:
    """Write a yard's own values over a row, and save it; ``on``: the day of loading.

    Raises:
        YardFileError: a value may not stand.
    """
    if yard.timezone not in _zones():
        place = where / "timezone"
        raise place.error(shown(yard.timezone), "a zone such as Europe/London")
    row.name, row.timezone, row.hemisphere = yard.name, yard.timezone, yard.hemisphere
    row.free_days = weekdays(where / "free_days", yard.free_days, WEEKDAYS)
    row.helper_days = weekdays(where / "helper_days", yard.helper_days, WEEKDAYS)
    row.sessions_a_day, row.covered_area = yard.sessions_a_day, yard.covered_area
    units = yard.units
    row.height_unit, row.length_unit = units.height, units.length
    row.weight_unit = units.weight
    row.settings = {
        key: kept for key, kept in yard.settings.items() if key != YARD_EDGES
    }
    keep(
        where,
        row,
        height_unit="units.height",
        length_unit="units.length",
        weight_unit="units.weight",
    )
    if YARD_EDGES in yard.settings:
        _settle_edges(where / "settings" / YARD_EDGES, row, yard, on)
    return row


def _settle_edges(where: Place, row: Yard, yard: shapes.Yard, on: date) -> None:
    """Write the yard's own figures in; its units are known to be some by now."""
    kept = read_changes(where, yard.settings[YARD_EDGES], units_of(row), on)
    check_sound(where, kept)
    row.settings[YARD_EDGES] = kept
    row.save()


def load_horses(where: Place, loading: Loading, bodies: Sequence[shapes.Body]) -> None:
    """Make a row of every horse; one with the same key is written over.

    Raises:
        YardFileError: a value may not stand.
    """
    each_once(where, [body.name for body in bodies], "name")
    keys = keys_for(where, bodies)
    here = {horse.key: horse for horse in loading.yard.horses.all()}
    for horse in here.values():  # two horses may change names with each other
        Horse.objects.filter(pk=horse.pk).update(name=f"written over: {horse.pk}")
    for at, (body, key) in enumerate(zip(bodies, keys, strict=True)):
        row = here.get(key) or Horse(yard=loading.yard, key=key)
        loading.horses[body.name] = _horse(where / at, loading, row, body)


def keys_for(where: Place, things: Sequence[shapes.Body | shapes.Tack]) -> list[str]:
    """Return the key of each horse or item: its id, else one made from its name.

    Raises:
        YardFileError: an id stands twice.
    """
    given = [thing.key for thing in things if thing.key]
    each_once(where, [thing.key or at for at, thing in enumerate(things)], "id")
    taken, keys = set(given), []
    for thing in things:
        key = thing.key or free_key(thing.name, taken)
        taken.add(key)
        keys.append(key)
    return keys


def _horse(where: Place, loading: Loading, row: Horse, body: shapes.Body) -> Horse:
    row.name, row.sex, row.horse_type = body.name, body.sex, body.horse_type
    row.foaled = read_foaling(where / "foaled", body.foaled, loading.on)
    row.grown, row.lives_out = body.grown, body.lives_out
    for parent in ("dam_height", "sire_height"):
        text = getattr(body, parent)
        size = None
        if text is not None:
            size = read_size(where / parent, text, "height", loading.units)
        setattr(row, f"{parent}_mm", size.value if size else None)
        setattr(row, f"{parent}_written", size.written if size else "")
    row.clearances = {}
    for kind, said in body.clearances.items():
        _clearance(where / "clearances", loading, row, kind, said)
    return keep(where, row, key="id", horse_type="type")


def _clearance(
    where: Place,
    loading: Loading,
    row: Horse,
    kind: str,
    said: str | list[dict[str, Any]],
) -> None:
    """Write in the room added for a kind of tack, or the horse's own figures."""
    if kind == OWN_EDGES:
        kept = read_changes(where / kind, said, loading.units, loading.on)
        check_sound(where / kind, loading.yard.settings.get(YARD_EDGES, ()), kept)
        row.clearances[kind] = kept
        return
    one_of(where, kind, ROOM)
    if not isinstance(said, str):
        raise (where / kind).error(shown(said), SIZES["length"])
    size = read_size(where / kind, said, "length", loading.units)
    row.clearances[kind] = {"mm": size.value, "written": size.written}


def load_body(where: Place, loading: Loading, body: shapes.Body) -> None:
    """Make the rows of one horse's measurements, try-ons and first days.

    Raises:
        YardFileError: a value may not stand.
    """
    horse = loading.horses[body.name]
    for at, taken in enumerate(body.measurements):
        _measurement(where / "measurements" / at, loading, horse, taken)
    for at, tryon in enumerate(body.tryons):
        _tryon(where / "tryons" / at, loading, horse, tryon)
    first = where / "first_worn"
    each_once(first, [(f.kind, f.item) for f in body.first_worn])
    for at, worn in enumerate(body.first_worn):
        _first_worn(first / at, loading, horse, worn)


def _measurement(
    where: Place, loading: Loading, horse: Horse, taken: shapes.Measurement
) -> None:
    try:
        measure = measure_by_key(taken.measure)
    except UnknownMeasureError as error:
        place = where / "measure"
        raise place.error(shown(taken.measure), ", ".join(error.allowed)) from error
    one_of(where / "method", taken.method, [m.key for m in measure.methods])
    readings = [
        read_size(where / "readings" / at, found, measure.dimension, loading.units)
        for at, found in enumerate(taken.readings)
    ]
    row = Measurement(
        horse=horse,
        measure=measure.key,
        on=loading.day(where / "on", taken.on),
        method=taken.method,
        same_person=taken.same_person,
        who=taken.who,
        shod=taken.shod,
        readings=[asdict(reading) for reading in readings],
        struck=taken.struck,
        note=taken.note,
    )
    keep(where, row)


def _tryon(where: Place, loading: Loading, horse: Horse, tryon: shapes.TryOn) -> None:
    item, made_up = loading.item_or_set(where, tryon.item, tryon.made_up)
    if tryon.stop_sign and not tryon.stop:
        one_of(where / "stop", tryon.stop, TryOn.Stop.values)
    row = keep(
        where,
        TryOn(
            horse=horse,
            on=loading.day(where / "on", tryon.on),
            tack=item,
            made_up=made_up,
            how=tryon.how,
            answer=tryon.answer,
            who=tryon.who,
            stop=tryon.stop,
            stop_sign=tryon.stop_sign,
            struck=tryon.struck,
            note=tryon.note,
        ),
    )
    parts = where / "parts"
    each_once(parts, [part.part for part in tryon.parts], "part")
    for at, part in enumerate(tryon.parts):
        keep(parts / at, _tried_part(parts / at, row, part))


def _tried_part(where: Place, row: TryOn, part: shapes.TriedPart) -> TryOnPart:
    found = TryOnPart(tryon=row, part=part.part, seen=part.seen, hole=part.hole)
    if part.gap is not None:
        try:
            gap = read_gap(part.gap)
        except UnreadableGapError as error:
            said = "a gap such as 18 mm or 2 fingers"
            raise (where / "gap").error(shown(part.gap), said) from error
        found.gap_mm, found.gap_written = gap.mm, gap.written
    return found


def _first_worn(
    where: Place, loading: Loading, horse: Horse, worn: shapes.FirstWorn
) -> None:
    item = find(where / "item", worn.item, loading.tack) if worn.item else None
    row = FirstWorn(
        horse=horse,
        kind=worn.kind,
        tack=item,
        on=loading.day(where / "on", worn.on),
        who=worn.who,
        how_it_went=worn.how_it_went,
    )
    keep(where, row)
