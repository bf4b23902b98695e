"""A yard file's tack becomes rows: items, parts, loans, made-up sets."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from fitting.models import Loan, Part, SetPart, Tack, TackSet
from fitting.writes.touch import free_key
from fitting.yardfile import shapes
from fitting.yardfile.loading import keys_for
from fitting.yardfile.place import Place, shown
from fitting.yardfile.rows import Loading, each_once, find, keep
from fitting.yardfile.sizes import read_size

SIZED: Final = (
    "length", "shortest", "longest", "thickness", "ring", "spacing", "strap_width",
)  # fmt: skip


def load_tack(where: Place, loading: Loading, tack: Sequence[shapes.Tack]) -> None:
    """Make the rows of the tack, its parts and its loans.

    Raises:
        YardFileError: a value may not stand.
    """
    each_once(where, [item.name for item in tack], "name")
    for at, (item, key) in enumerate(zip(tack, keys_for(where, tack), strict=True)):
        loading.tack[item.name] = _item(where / at, loading, key, item)


def _item(where: Place, loading: Loading, key: str, item: shapes.Tack) -> Tack:
    row = Tack(
        yard=loading.yard,
        key=key,
        name=item.name,
        kind=item.kind,
        label_size=item.label_size,
        belongs_to=item.belongs_to,
        bought=loading.maybe_day(where / "bought", item.bought),
        gone=loading.maybe_day(where / "gone", item.gone),
        note=item.note,
    )
    keep(where, row, key="id")
    parts = where / "parts"
    each_once(parts, [part.part for part in item.parts], "part")
    for at, part in enumerate(item.parts):
        keep(parts / at, _part(parts / at, loading, row, part))
    for at, loan in enumerate(item.loans):
        _loan(where / "loans" / at, loading, row, loan)
    return row


def _part(where: Place, loading: Loading, tack: Tack, part: shapes.Part) -> Part:
    row = Part(
        tack=tack,
        part=part.part,
        cheek=part.cheek,
        mouthpiece=part.mouthpiece,
        material=part.material,
        holes=part.holes,
        hole=part.hole,
    )
    for what in SIZED:
        text = getattr(part, what)
        if text is not None:
            size = read_size(where / what, text, "length", loading.units)
            setattr(row, f"{what}_mm", size.value)
            row.written[what] = size.written
    _agrees(where, row)
    return row


def _agrees(where: Place, row: Part) -> None:
    """Check what a part says of itself: its present hole, shortest and longest."""
    if row.hole is not None and row.holes is not None and row.hole > row.holes:
        place = where / "hole"
        raise place.error(f"found {row.hole}", f"one of its holes, 1 to {row.holes}")
    least, most = row.shortest_mm, row.longest_mm
    if least is not None and most is not None and least > most:
        place = where / "shortest"
        raise place.error(shown(row.written["shortest"]), "no longer than the longest")


def _loan(where: Place, loading: Loading, tack: Tack, loan: shapes.Loan) -> None:
    row = Loan(
        tack=tack,
        to=find(where / "to", loan.to, loading.horses),
        start=loading.maybe_day(where / "from", loan.start),
        own_hole=loan.own_hole,
        back_by=loading.maybe_day(where / "back_by", loan.back_by),
        returned=loading.maybe_day(where / "returned", loan.returned),
    )
    keep(where, row)


def load_sets(where: Place, loading: Loading, sets: Sequence[shapes.TackSet]) -> None:
    """Make the rows of the made-up sets.

    Raises:
        YardFileError: a value may not stand.
    """
    each_once(where, [made_up.name for made_up in sets], "name")
    taken: set[str] = set()
    for at, made_up in enumerate(sets):
        key = free_key(made_up.name, taken)
        taken.add(key)
        row = TackSet(yard=loading.yard, key=key, name=made_up.name)
        row.gone = loading.maybe_day(where / at / "gone", made_up.gone)
        loading.sets[made_up.name] = keep(where / at, row)
        for slot in SetPart.Slot.values:
            name = getattr(made_up.parts, slot)
            if name is not None:
                place = where / at / "parts" / slot
                item = find(place, name, loading.tack)
                keep(place, SetPart(made_up=row, slot=slot, tack=item))
