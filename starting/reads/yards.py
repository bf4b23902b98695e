"""The yards of one account, and the page that a yard's name leads to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from django.contrib.auth.models import User
from django.db.models import Count

from fitting.models import Membership, Yard

WEEK: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_IN_FULL: Final = (
    "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday",
)  # fmt: skip
_NAMED: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class YardRow:
    """One yard somebody belongs to."""

    slug: str
    name: str
    may: str
    horses: int


@dataclass(frozen=True, slots=True, kw_only=True)
class YardPage:
    """What the yard's name leads to, in a line each."""

    members: str
    people: str
    days: str
    units: str
    place: str
    links: int
    has_other_yards: bool


def my_yards(user: User) -> list[YardRow]:
    """Return the yards an account belongs to, by name (1 query)."""
    rows = (
        Membership.objects.filter(user=user)
        .select_related("yard")
        .annotate(horses=Count("yard__horses"))
        .order_by("yard__name")
    )
    return [
        YardRow(
            slug=row.yard.slug,
            name=row.yard.name,
            may=row.get_role_display(),
            horses=row.horses,
        )
        for row in rows
    ]


def yard_page(yard: Yard, user: User) -> YardPage:
    """Return what the yard's name leads to (4 queries)."""
    roles = list(yard.memberships.values_list("role", flat=True))
    people = list(yard.people.values_list("name", flat=True))
    return YardPage(
        members=_members(roles),
        people=_listed(people),
        days=_days(yard),
        units=_units(yard),
        place=f"{yard.timezone.replace('_', ' ')}, {yard.hemisphere}ern hemisphere",
        links=yard.calendar_keys.filter(revoked_at__isnull=True).count(),
        has_other_yards=user.memberships.exclude(yard=yard).exists(),
    )


def _members(roles: list[str]) -> str:
    """Return how many of each: ``1 keeper, 2 helpers``."""
    counts = ((role, roles.count(role)) for role in Membership.Role.values)
    return ", ".join(f"{n} {role}{'' if n == 1 else 's'}" for role, n in counts if n)


def _listed(names: list[str]) -> str:
    """Return up to three names, and how many others."""
    others = len(names) - _NAMED
    if others > 0:
        return f"{', '.join(names[:_NAMED])} and {others} more"
    return _joined(names)


def _days(yard: Yard) -> str:
    free = days_in_words(yard.free_days)
    free, a_day = f"{free[:1].upper()}{free[1:]}", yard.sessions_a_day
    under = "; a covered place to work" if yard.covered_area else ""
    return f"{free}; {a_day} session{'' if a_day == 1 else 's'} a day{under}"


def days_in_words(days: list[str]) -> str:
    """Return weekdays in words, in the order of the week, as within a sentence."""
    named = [name for key, name in zip(WEEK, _IN_FULL, strict=True) if key in days]
    if len(named) == len(WEEK):
        return "every day"
    return _joined(named) or "no day"


def _joined(names: list[str]) -> str:
    """Return ``a, b and c``."""
    return " and ".join(filter(None, (", ".join(names[:-1]), *names[-1:])))


def _units(yard: Yard) -> str:
    shown = (
        yard.get_height_unit_display(),
        yard.get_length_unit_display(),
        yard.get_weight_unit_display(),
    )
    return ", ".join(dict.fromkeys(shown)).capitalize()
