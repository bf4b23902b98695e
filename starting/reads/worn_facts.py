"""What sessions and saddle fitters' visits say of tack, and when its sizes changed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from itertools import groupby, pairwise
from typing import Any, Final, Literal, cast

from django.db.models import QuerySet

from fitting.fit.saddle_checks import fitter_visit
from fitting.models import FirstWorn, Horse, Part, SetPart, Yard
from fitting.reads.worn import worn_items
from fitting.signals import tryons_asked, yard_tryons_asked
from fitting.tryons import Seen, Tried, TryOn
from starting.gates import CareDone
from starting.models import CareVisit, SessionWorn

ON_THE_WHOLE: Final[dict[str, Literal["good", "watch", "no"]]] = {
    "sits_right": "good",
    "too_short": "no",
    "too_long": "no",
    "wrong_place": "watch",
    "rubs": "watch",
}
# A part with another of these is not what the horse has worn.
SIZES: Final = (
    "length_mm", "shortest_mm", "longest_mm", "thickness_mm", "cheek", "mouthpiece",
    "ring_mm", "holes", "spacing_mm",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class WornInYard:
    """What sessions say of tack: try-ons by horse, items worn by session."""

    tryons: defaultdict[int, list[TryOn]]
    items: defaultdict[int, list[str]]


def worn_in_yard(yard: Yard) -> WornInYard:
    """Return what a yard's sessions say of tack (3 queries).

    What says how it sat counts as a try-on; of a made-up set every item was worn.
    """
    tryons: defaultdict[int, list[TryOn]] = defaultdict(list)
    items: defaultdict[int, list[str]] = defaultdict(list)
    for row in _rows().filter(session__horse__yard=yard):
        items[row.session_id] += [item.name for item in worn_items(row)]
        if row.seen:
            tryons[row.session.horse_id].append(_worn(row))
    return WornInYard(tryons=tryons, items=items)


def first_worn_by_horse(yard: Yard) -> defaultdict[int, list[tuple[str, date]]]:
    """Return each item noted as worn for the first time, by horse (1 query)."""
    found: defaultdict[int, list[tuple[str, date]]] = defaultdict(list)
    rows = FirstWorn.objects.filter(horse__yard=yard, tack__isnull=False)
    for horse, item, on in rows.values_list("horse_id", "tack__name", "on"):
        found[horse].append((item, on))
    return found


def altered(yard: Yard) -> tuple[tuple[str, date], ...]:
    """Return each item with the last day its sizes were changed (1 query).

    What was changed on the day it was first written down was a slip of the pen.
    """
    rows = Part.history.filter(tack__yard=yard).order_by(
        "id", "history_date", "history_id"
    )
    kept = rows.values_list("id", "tack__name", "history_date", *SIZES)
    found: dict[str, date] = {}
    for _, group in groupby(kept, key=lambda row: row[0]):
        versions = list(group)
        first = versions[0][2].date()
        for before, after in pairwise(versions):
            on = after[2].date()
            if before[3:] != after[3:] and on > first:
                found[after[1]] = max(on, found.get(after[1], on))
    return tuple(sorted(found.items()))


def worn_of(horse: Horse) -> tuple[TryOn, ...]:
    """Return what sessions say of how things sat on one horse (3 queries)."""
    rows = _rows().exclude(seen="").filter(session__horse=horse)
    return tuple(_worn(row) for row in rows)


def _rows() -> QuerySet[SessionWorn]:
    rows = SessionWorn.objects.select_related("session", "tack", "made_up")
    return rows.prefetch_related("made_up__parts__tack")


def fitter_visits(care: Iterable[CareDone]) -> Iterator[TryOn]:
    """Yield each saddle fitter's visit as a word on the saddle the horse wore."""
    for visit in care:
        if visit.kind == CareVisit.Kind.SADDLE_FITTER:
            yield fitter_visit(visit.on, clear=visit.clear)


def fitted_of(horse: Horse) -> tuple[TryOn, ...]:
    """Return what saddle fitters' visits say of one horse's saddle (1 query)."""
    rows = CareVisit.objects.filter(horse=horse, kind=CareVisit.Kind.SADDLE_FITTER)
    return tuple(fitter_visit(row.on, clear=row.clear) for row in rows)


def listen() -> None:
    """Tell what sessions and visits say of tack wherever try-ons are asked for."""
    tryons_asked.connect(_asked, sender=Horse, dispatch_uid="worn-in-sessions")
    yard_tryons_asked.connect(
        _yard_asked, sender=Yard, dispatch_uid="worn-in-sessions-of-a-yard"
    )


def _asked(sender: type[Horse], *, horse: Horse, **_: Any) -> tuple[TryOn, ...]:
    return (*worn_of(horse), *fitted_of(horse))


def _yard_asked(sender: type[Yard], *, yard: Yard, **_: Any) -> dict[int, list[TryOn]]:
    return worn_in_yard(yard).tryons


def _worn(row: SessionWorn) -> TryOn:
    """Return how something sat as a try-on: of one part, or of all of it.

    All of a made-up set is its straps: a word on the bit is a word on the mouthpiece.
    """
    thing = row.tack or row.made_up
    parts: tuple[str, ...] = (row.part,) if row.part else ()
    if row.made_up and not row.part:
        slots = (one.slot for one in row.made_up.parts.all())
        parts = tuple(slot for slot in slots if slot != SetPart.Slot.BIT)
    return TryOn(
        on=row.session.on,
        item=thing.name if thing else "",
        how="worn",
        answer=None if parts or row.made_up else ON_THE_WHOLE[row.seen],
        parts=tuple(
            Tried(part=part, seen=cast("Seen", row.seen), hole=row.hole)
            for part in parts
        ),
        record=f"sessions/{row.session_id}/",
    )
