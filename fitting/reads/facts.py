"""Rows become the plain facts that the computation starts from."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import Any, Final, Literal, cast

from fitting import fit
from fitting.body import Taken
from fitting.fit.edge_text import changes_of
from fitting.fit.edges import Change, Edges
from fitting.fit.sound import edges_of
from fitting.lending import Lent
from fitting.models import (
    Horse,
    Loan,
    Measurement,
    Part,
    Tack,
    TackSet,
    TryOn,
    Yard,
)
from fitting.models.horse import OWN_EDGES
from fitting.models.yard import YARD_EDGES
from fitting.reads.units import units_of
from fitting.tryons import Seen, Tried
from fitting.tryons import TryOn as TryOnFact
from fitting.wanted import Peg

OverallAnswer = Literal["good", "watch", "no"]

# The columns a measurement is told from, where many rows are read.
TAKEN_FROM: Final = (
    "measure", "on", "readings", "method", "same_person", "shod", "who",
)  # fmt: skip


def tack_facts(yard: Yard) -> tuple[tuple[fit.Tack, ...], tuple[fit.MadeUp, ...]]:
    """Return the items on the pegs and the made-up sets (4 queries)."""
    rows = yard.tack.filter(gone__isnull=True).prefetch_related("parts")
    items = {row.pk: tack_fact(row) for row in rows}
    sets = TackSet.objects.filter(yard=yard, gone__isnull=True).prefetch_related(
        "parts"
    )
    made_up = (
        fit.MadeUp(
            name=row.name,
            parts=tuple(
                (part.slot, items[part.tack_id])
                for part in row.parts.all()
                if part.tack_id in items
            ),
        )
        for row in sets
    )
    return tuple(items.values()), tuple(made_up)


def made_up_fact(row: TackSet) -> fit.MadeUp:
    """Return one set as a plain fact, without what was taken down (3 queries)."""
    lent = row.parts.select_related("tack").prefetch_related("tack__parts")
    parts = ((part.slot, tack_fact(part.tack)) for part in lent if not part.tack.gone)
    return fit.MadeUp(name=row.name, parts=tuple(parts))


def tack_fact(row: Tack) -> fit.Tack:
    """Return one item as a plain fact; its parts are read already."""
    return fit.Tack(
        name=row.name,
        kind=row.kind,
        parts=tuple(part_fact(part) for part in row.parts.all()),
    )


def part_fact(row: Part) -> fit.Part:
    """Return one part as a plain fact."""
    return fit.Part(
        part=row.part,
        length_mm=row.length_mm,
        shortest_mm=row.shortest_mm,
        longest_mm=row.longest_mm,
        thickness_mm=row.thickness_mm,
        cheek=cast("fit.Cheek", row.cheek) if row.cheek else None,
        mouthpiece=row.mouthpiece,
        material=row.material,
        ring_mm=row.ring_mm,
        holes=row.holes,
        spacing_mm=row.spacing_mm,
        strap_width_mm=row.strap_width_mm,
        hole=row.hole,
    )


def taken_by_horse(yard: Yard) -> dict[int, list[tuple[Taken, str]]]:
    """Return what was measured, with its typed text, by horse (1 query)."""
    found: dict[int, list[tuple[Taken, str]]] = defaultdict(list)
    for row in Measurement.objects.of(yard).standing().order_by("on", "pk"):
        found[row.horse_id].append((taken_fact(row), row.written))
    return found


def taken_fact(row: Any) -> Taken:
    """Return one measurement, or a row of ``TAKEN_FROM``, as a plain fact."""
    return Taken(
        measure=row.measure,
        on=row.on,
        readings=tuple(reading["value"] for reading in row.readings),
        method=row.method,
        same_person=row.same_person,
        shod=row.shod,
        who=row.who,
    )


def tryons_by_horse(yard: Yard) -> dict[int, list[TryOnFact]]:
    """Return every try-on that is not struck out, by horse (2 queries)."""
    found: dict[int, list[TryOnFact]] = defaultdict(list)
    rows = (
        TryOn.objects.filter(horse__yard=yard, struck="")
        .select_related("tack", "made_up")
        .prefetch_related("parts")
        .order_by("on", "pk")
    )
    for row in rows:
        found[row.horse_id].append(tryon_fact(row))
    return found


def tryon_fact(row: TryOn) -> TryOnFact:
    """Return one try-on as a plain fact."""
    return TryOnFact(
        on=row.on,
        item=row.item_name,
        how="worn" if row.how == TryOn.How.WORN else "held",
        answer=cast("OverallAnswer", row.answer) if row.answer else None,
        parts=tuple(
            Tried(
                part=part.part,
                seen=cast("Seen", part.seen),
                hole=part.hole,
                gap_mm=part.gap_mm,
            )
            for part in row.parts.all()
        ),
        record=f"tried/{row.pk}/",
    )


def lent_by_horse(yard: Yard) -> dict[int, list[Lent]]:
    """Return what is lent or was, by the horse it is lent to (1 query).

    What was taken down is not asked back any more.
    """
    found: dict[int, list[Lent]] = defaultdict(list)
    rows = Loan.objects.filter(tack__yard=yard, tack__gone__isnull=True)
    for row in rows.select_related("tack").order_by("pk"):
        before = sum(lent.key == row.tack.key for lent in found[row.to_id])
        found[row.to_id].append(replace(lent_fact(row), time=before + 1))
    return found


def pegs(yard: Yard) -> tuple[Peg, ...]:
    """Return whose each item is, and to which horse it is lent (2 queries)."""
    out = Loan.objects.filter(tack__yard=yard, returned__isnull=True)
    lent = {loan.tack_id: loan for loan in out.select_related("to")}
    rows = yard.tack.filter(gone__isnull=True).values_list("pk", "name", "belongs_to")
    return tuple(_peg(name, owner, lent.get(pk)) for pk, name, owner in rows)


def _peg(item: str, owner: str, loan: Loan | None) -> Peg:
    if loan is None:
        return Peg(item=item, owner=owner)
    return Peg(item=item, owner=owner, lent_to=loan.to.name, back_by=loan.back_by)


def lent_fact(row: Loan) -> Lent:
    """Return one loan as a plain fact; its item is read already."""
    return Lent(
        item=row.tack.name,
        key=row.tack.key,
        kind=row.tack.kind,
        lender=row.tack.belongs_to,
        start=row.start,
        own_hole=row.own_hole,
        back_by=row.back_by,
        returned=row.returned,
    )


def clearances(horse: Horse) -> tuple[tuple[str, float], ...]:
    """Return the room that is added for this horse, in all, by kind of tack (mm)."""
    kept = horse.clearances.items()
    return tuple(sorted((kind, room["mm"]) for kind, room in kept if kind != OWN_EDGES))


def edges_for(horse: Horse) -> Edges:
    """Return the figures that tack on a horse is judged by; its yard is read."""
    yard = horse.yard
    told_in = units_of(yard).length
    return edges_of(yard_changes(yard), horse_changes(horse), told_in)


def yard_changes(yard: Yard) -> tuple[Change, ...]:
    """Return what was ever changed of the figures for the whole yard, in order."""
    return changes_of(yard.settings.get(YARD_EDGES, ()))


def horse_changes(horse: Horse) -> tuple[Change, ...]:
    """Return what was ever changed of the figures for one horse, in order."""
    return changes_of(horse.clearances.get(OWN_EDGES, ()), horse.name)
