"""Make a yard, settle its days and units, list its people."""

from __future__ import annotations

from django.contrib.auth.models import User
from django.db import transaction

from fitting.models import Membership, WrittenOnce, Yard
from fitting.writes import remember_token, touch
from fitting.writes.touch import free_key
from starting.models import Person


def made_before(user: User, token: str) -> WrittenOnce | None:
    """Return what a form without a yard led to, if it was saved already."""
    if not token:
        return None
    mine = WrittenOnce.objects.filter(yard__memberships__user=user, token=token[:40])
    return mine.first()


@transaction.atomic
def make_yard(yard: Yard, keeper: User, token: str) -> Yard:
    """Save a new yard with its address; whoever makes it becomes its keeper."""
    taken = set(Yard.objects.values_list("slug", flat=True))
    yard.slug = free_key(yard.name, taken)
    yard.save()
    Membership.objects.create(yard=yard, user=keeper, role=Membership.Role.KEEPER)
    remember_token(yard, token, yard.get_absolute_url())
    touch(yard)
    return yard


@transaction.atomic
def settle_yard(yard: Yard, fields: tuple[str, ...]) -> None:
    """Save what the keeper settled, and nothing that the planning keeps there."""
    yard.save(update_fields=fields)
    touch(yard)


@transaction.atomic
def write_person(person: Person, token: str, led_to: str) -> None:
    """Save somebody of the yard."""
    person.save()
    remember_token(person.yard, token, led_to)
    touch(person.yard)


@transaction.atomic
def delete_person(person: Person) -> None:
    """Take somebody off the list; plans that named them name nobody."""
    yard = person.yard
    person.delete()
    touch(yard)
