"""Let people into a yard, change what they may do, let them go.

No plan rests on who may sign in, so the yard is not planned again.
"""

from __future__ import annotations

import secrets
from typing import Final

from django.contrib.auth.models import User
from django.db import transaction

from fitting.models import Membership, Yard
from fitting.writes import remember_token
from starting.reads.members import is_last_keeper

# Letters that are told apart when read out over a gate: no i, l, o; no digits.
_LETTERS: Final = "abcdefghjkmnpqrstuvwxyz"
_GROUPS: Final = 4
_GROUP_LETTERS: Final = 4


class LastKeeperError(ValueError):
    """A yard is never left without a keeper."""


def first_password() -> str:
    """Return a password to hand over: four groups of four letters, drawn by lot."""
    groups = (
        "".join(secrets.choice(_LETTERS) for _ in range(_GROUP_LETTERS))
        for _ in range(_GROUPS)
    )
    return "-".join(groups)


def make_account(username: str, email: str = "") -> tuple[User, str]:
    """Return a new account and its first password, which is kept nowhere."""
    password = first_password()
    return User.objects.create_user(username, email or None, password), password


@transaction.atomic
def let_in(yard: Yard, user: User, role: str, token: str, led_to: str) -> Membership:
    """Make an account a member of the yard."""
    remember_token(yard, token, led_to)
    return Membership.objects.create(yard=yard, user=user, role=role)


@transaction.atomic
def let_in_new(
    yard: Yard, *, username: str, email: str, role: str, token: str, led_to: str
) -> str:
    """Make an account and let it in; return its first password."""
    user, password = make_account(username, email)
    let_in(yard, user, role, token, led_to)
    return password


@transaction.atomic
def change_role(member: Membership, role: str) -> None:
    """Change what a member may do.

    Raises:
        LastKeeperError: the yard would be left without a keeper.
    """
    if role != Membership.Role.KEEPER and is_last_keeper(member):
        raise LastKeeperError
    member.role = role
    member.save(update_fields=["role"])


@transaction.atomic
def let_go(member: Membership) -> None:
    """End a membership; the account stays, and what it wrote.

    Raises:
        LastKeeperError: the yard would be left without a keeper.
    """
    if is_last_keeper(member):
        raise LastKeeperError
    member.delete()
