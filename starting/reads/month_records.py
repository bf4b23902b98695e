"""What is written down of horses, as their months show it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from typing import Any, Final

from django.db.models import Count, Min, Q
from django.db.models.functions import TruncMonth

from fitting.models import FirstWorn, Horse, Measurement, Tack, Yard
from starting.gates import back_on
from starting.models import CareVisit, Incident, OffWork, Rest, Session
from starting.models.care import CareRow
from starting.months import Dated, Records, Spell
from starting.reads.care import row_of
from starting.reads.facts import off_fact

REST: Final = "Rest"
OFF_WORK: Final = "Off work"


def records_of(
    yard: Yard, since: date | None = None, horse: Horse | None = None
) -> Mapping[int, Records]:
    """Return what is written of each horse from a day on, by its key (8 queries).

    A step's first session is told however long ago it was; a spell counts while it
    lasts.
    """
    whose = Q(horse=horse) if horse else Q(horse__yard=yard)
    late = Q(on__gte=since) if since else Q()
    sessions, begun = _sessions(whose, late), _begun(whose)
    measured, worn = _measured(whose, late), _first_worn(whose, late)
    care, spells = _care(whose, late), _spells(whose, since)
    return {
        key: Records(
            sessions=sessions.get(key, {}),
            begun=begun.get(key, {}),
            measured=measured.get(key, ()),
            first_worn=worn.get(key, ()),
            care=care.get(key, ()),
            spells=spells.get(key, ()),
        )
        for key in {*sessions, *begun, *measured, *worn, *care, *spells}
    }


def _care(whose: Q, late: Q) -> dict[int, tuple[Dated, ...]]:
    found: dict[int, list[Dated]] = defaultdict(list)
    visits = CareVisit.objects.filter(whose, late)
    incidents = Incident.objects.filter(whose, late)
    rows: list[CareRow] = [*visits, *incidents]
    for row in rows:
        found[row.horse_id].append(_dated(row))
    return {key: tuple(some) for key, some in found.items()}


def _dated(row: CareRow) -> Dated:
    told = row_of(row)
    said = " ".join(part for part in (told.text, told.note) if part)
    return Dated(on=told.on, what=told.title, said=said)


def _sessions(whose: Q, late: Q) -> dict[int, dict[tuple[date, str], int]]:
    rows = (
        Session.objects.filter(whose, late)
        .annotate(month=TruncMonth("on"))
        .order_by("month", "stage")
        .values_list("horse_id", "month", "stage")
        .annotate(many=Count("pk"))
    )
    found: dict[int, dict[tuple[date, str], int]] = defaultdict(dict)
    for horse, month, stage, many in rows:
        found[horse][month, stage] = many
    return found


def _begun(whose: Q) -> dict[int, dict[str, date]]:
    rows = Session.objects.filter(whose).order_by().values_list("horse_id", "stage")
    found: dict[int, dict[str, date]] = defaultdict(dict)
    for horse, stage, first in rows.annotate(first=Min("on")):
        found[horse][stage] = first
    return found


def _measured(whose: Q, late: Q) -> dict[int, tuple[tuple[date, str], ...]]:
    rows = Measurement.objects.filter(whose, late, struck="")
    return _by_horse(rows.order_by().values_list("horse_id", "on", "measure"))


def _by_horse(rows: Iterable[Any]) -> dict[int, tuple[Any, ...]]:
    found: dict[int, list[Any]] = defaultdict(list)
    for horse, *rest in rows:
        found[horse].append(tuple(rest))
    return {key: tuple(some) for key, some in found.items()}


def _first_worn(whose: Q, late: Q) -> dict[int, tuple[Dated, ...]]:
    rows = FirstWorn.objects.filter(whose, late).select_related("tack")
    found: dict[int, list[Dated]] = defaultdict(list)
    for row in rows:
        kind = Tack.Kind(row.kind).label
        what = f"{row.tack.name} ({kind})" if row.tack else f"a {kind}"
        found[row.horse_id].append(Dated(on=row.on, what=what))
    return {key: tuple(some) for key, some in found.items()}


def _spells(whose: Q, since: date | None) -> dict[int, tuple[Spell, ...]]:
    found: dict[int, list[Spell]] = defaultdict(list)
    for rest in Rest.objects.filter(whose):
        found[rest.horse_id].append(Spell(first=rest.start, last=rest.end, what=REST))
    for off in OffWork.objects.filter(whose):
        back = back_on(off_fact(off))
        last = max(off.start, back - timedelta(days=1)) if back else None
        found[off.horse_id].append(Spell(first=off.start, last=last, what=OFF_WORK))
    return {
        key: tuple(s for s in some if not (since and s.last and s.last < since))
        for key, some in found.items()
    }
