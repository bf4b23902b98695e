"""Who belongs to a yard: its people, and those who may sign in."""

from __future__ import annotations

from dataclasses import dataclass

from django.db import transaction

from fitting.models import Membership, Yard
from fitting.units import write_weight
from starting.models import Person


@dataclass(frozen=True, slots=True, kw_only=True)
class MemberRow:
    """One member: the name to sign in with, and what they may do."""

    pk: int
    name: str
    role: str
    may: str
    is_you: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonRow:
    """One person: what they can do, what they weigh dressed."""

    pk: int
    name: str
    can: str
    weight: str
    more: str


MAY = {
    "keeper": "everything, and who else comes in",
    "helper": "reads all; writes sessions, measurements and try-ons",
    "viewer": "reads, writes nothing",
}
CAN = {
    "handle": "handles youngsters",
    "help": "stands by as the second person",
    "ride": "rides",
    "train": "brings on youngsters",
}


def is_last_keeper(member: Membership) -> bool:
    """Return whether nobody else is a keeper; locks the keepers' rows (1 query).

    Inside a transaction two keepers cannot let each other go at once.
    """
    if member.role != Membership.Role.KEEPER:
        return False
    keepers = Membership.objects.filter(
        yard=member.yard_id, role=Membership.Role.KEEPER
    )
    with transaction.atomic():
        locked = {keeper.pk for keeper in keepers.select_for_update()}
    return locked <= {member.pk}


def member_rows(yard: Yard, you: int | None = None) -> list[MemberRow]:
    """Return the members, keepers first (1 query).

    Args:
        yard: the yard.
        you: the account that looks.
    """
    order = list(MAY)
    rows = [
        MemberRow(
            pk=row.pk,
            name=row.user.get_full_name() or row.user.get_username(),
            role=row.role,
            may=MAY[row.role],
            is_you=row.user_id == you,
        )
        for row in yard.memberships.select_related("user")
    ]
    return sorted(rows, key=lambda row: (order.index(row.role), row.name.lower()))


def person_rows(yard: Yard) -> list[PersonRow]:
    """Return the yard's people by name (1 query)."""
    return [person_row(person) for person in yard.people.all()]


def person_row(person: Person) -> PersonRow:
    """Return one person as a page shows them."""
    more = [
        word
        for word, true in (
            ("has backed horses before", person.has_backed_horses),
            ("a child", person.child),
        )
        if true
    ]
    return PersonRow(
        pk=person.pk,
        name=person.name,
        can=", ".join(words for key, words in CAN.items() if key in person.can),
        weight=write_weight(person.weight_kg, person.weight_written)
        if person.weight_kg
        else "",
        more=", ".join(more),
    )


def rides_of(person: Person) -> list[str]:
    """Return the names of the horses whose plans name this person (2 queries)."""
    return sorted(
        {plan.horse.name for plan in person.rides.select_related("horse")}
        | {plan.horse.name for plan in person.trains.select_related("horse")}
    )
