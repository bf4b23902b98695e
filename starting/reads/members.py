"""Who belongs to a yard: its people, and those who may sign in."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace

from django.db import transaction
from django.db.models import Q, QuerySet

from fitting.models import Membership, Yard
from fitting.units import write_weight
from starting.models import Person, Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class MemberRow:
    """One member: the name to sign in with, and what they may do."""

    pk: int
    name: str
    role: str
    may: str
    is_you: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedIn:
    """A plan that names a person: as what, and for which horse."""

    horse: str
    key: str
    what: str  # rider, trainer, rider and trainer


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonRow:
    """One person: what they can do, what they weigh dressed."""

    pk: int
    name: str
    can: str
    weight: str
    more: str
    named: tuple[NamedIn, ...] = ()


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
    """Return the yard's people by name, and where each is named (2 queries)."""
    named = _named(Plan.objects.filter(horse__yard=yard))
    return [
        replace(person_row(person), named=tuple(named[person.pk]))
        for person in yard.people.all()
    ]


def _named(plans: QuerySet[Plan]) -> defaultdict[int, list[NamedIn]]:
    """Return by person the plans that name them (1 query)."""
    found: defaultdict[int, list[NamedIn]] = defaultdict(list)
    for plan in plans.select_related("horse").order_by("horse__name"):
        as_what: defaultdict[int, list[str]] = defaultdict(list)
        for pk, what in ((plan.rider_id, "rider"), (plan.trainer_id, "trainer")):
            if pk is not None:
                as_what[pk].append(what)
        for pk, words in as_what.items():
            horse = plan.horse
            what = " and ".join(words)
            found[pk].append(NamedIn(horse=horse.name, key=horse.key, what=what))
    return found


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


def named_in(person: Person) -> list[NamedIn]:
    """Return the plans that name this person, by the horse (1 query)."""
    plans = Plan.objects.filter(Q(rider=person) | Q(trainer=person))
    return _named(plans)[person.pk]
