"""Make a yard, settle its days and units, list its people."""

from __future__ import annotations

from django.contrib.auth.models import User
from django.db import transaction

from fitting.models import (
    Horse,
    Measurement,
    Membership,
    Part,
    Tack,
    TryOn,
    WrittenOnce,
    Yard,
)
from fitting.writes import remember_token, touch
from fitting.writes.touch import free_key
from starting.models import (
    CareVisit,
    Incident,
    OffWork,
    Person,
    Plan,
    Rest,
    Session,
    WentAhead,
)

OF_A_HORSE = (
    Measurement, TryOn, Session, CareVisit, Incident, OffWork, Rest, WentAhead, Plan,
)  # fmt: skip


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
def delete_yard(yard: Yard) -> None:
    """Delete a yard with all that was ever written down there, old edits too."""
    horses = list(yard.horses.values_list("pk", flat=True))
    tack = list(yard.tack.values_list("pk", flat=True))
    key = yard.pk
    yard.delete()  # writes a last edit of each record, which goes with the others
    for row in OF_A_HORSE:
        row.history.filter(horse_id__in=horses).delete()
    Part.history.filter(tack_id__in=tack).delete()
    Tack.history.filter(yard_id=key).delete()
    Horse.history.filter(yard_id=key).delete()


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
