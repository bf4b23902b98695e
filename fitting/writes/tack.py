"""Put tack up, correct it, take it down; make sets up; lend."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from django.db import transaction

from fitting.hangs_on import StillHangsError
from fitting.models import Loan, Part, SetPart, Tack, TackSet
from fitting.reads.hangs_on import hangs_on_item, hangs_on_set
from fitting.writes.touch import free_key, remember_token, touch


@transaction.atomic
def put_up(item: Tack, parts: Iterable[Part], token: str) -> Tack:
    """Save a new item with its parts, and an address of its own."""
    taken = set(item.yard.tack.values_list("key", flat=True))
    item.key = free_key(item.name, taken)
    item.save()
    _save_parts(item, parts)
    remember_token(item.yard, token, item.get_absolute_url())
    touch(item.yard)
    return item


@transaction.atomic
def correct_item(
    item: Tack, parts: Iterable[Part], gone: Iterable[Part], token: str
) -> None:
    """Save a changed item, the parts that changed, and drop those it has no more."""
    item.save()
    for part in gone:
        part.delete()
    _save_parts(item, parts)
    remember_token(item.yard, token, item.get_absolute_url())
    touch(item.yard)


def _save_parts(item: Tack, parts: Iterable[Part]) -> None:
    for part in parts:
        part.tack = item
        part.full_clean(exclude=["tack", "written"])
        part.save()


@transaction.atomic
def take_down(row: Tack | TackSet, on: date | None, token: str = "") -> None:
    """Take an item or a made-up set down on a day; None: put it up again."""
    row.gone = on
    row.save(update_fields=["gone"])
    remember_token(row.yard, token, row.get_absolute_url())
    touch(row.yard)


@transaction.atomic
def delete_item(item: Tack) -> None:
    """Delete an item that was put up by mistake: nothing hangs on it.

    Raises:
        StillHangsError: a try-on, a wearing, a loan, a session or a set names it.
    """
    hangs = hangs_on_item(item)
    if hangs:
        raise StillHangsError(item.name, hangs)
    yard = item.yard
    item.delete()
    touch(yard)


@transaction.atomic
def make_up(made_up: TackSet, chosen: Mapping[str, Tack], token: str) -> TackSet:
    """Save a set, new or changed, with the item of each slot."""
    yard = made_up.yard
    if not made_up.pk:
        taken = set(yard.sets.values_list("key", flat=True))
        made_up.key = free_key(made_up.name, taken)
    made_up.save()
    made_up.parts.all().delete()
    SetPart.objects.bulk_create(
        SetPart(made_up=made_up, slot=slot, tack=item) for slot, item in chosen.items()
    )
    remember_token(yard, token, made_up.get_absolute_url())
    touch(yard)
    return made_up


@transaction.atomic
def take_apart(made_up: TackSet) -> None:
    """Delete a set that nothing hangs on; the items stay on their pegs.

    Raises:
        StillHangsError: a try-on or a session names it.
    """
    hangs = hangs_on_set(made_up)
    if hangs:
        raise StillHangsError(made_up.name, hangs)
    yard = made_up.yard
    made_up.delete()
    touch(yard)


@transaction.atomic
def lend(loan: Loan, lender: str, token: str) -> None:
    """Save a loan, new or corrected, and whose the item is."""
    loan.save()
    if loan.tack.belongs_to != lender:
        loan.tack.belongs_to = lender
        loan.tack.save(update_fields=["belongs_to"])
    remember_token(loan.tack.yard, token, loan.tack.get_absolute_url())
    touch(loan.tack.yard)


@transaction.atomic
def bring_back(loan: Loan, on: date) -> None:
    """Write that a loan is back; what is back already keeps its day."""
    if loan.returned is None:
        loan.returned = on
        loan.save(update_fields=["returned"])
        touch(loan.tack.yard)


@transaction.atomic
def delete_loan(loan: Loan) -> None:
    """Delete a loan that was never one."""
    yard = loan.tack.yard
    loan.delete()
    touch(yard)
