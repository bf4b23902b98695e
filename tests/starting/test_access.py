"""Who may read and write where: tested address by address."""

from __future__ import annotations

import pytest
from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction
from django.test import Client
from django.urls import reverse

from fitting.models import Yard
from starting.writes import replan, today_in
from tests.make import make_member, make_user, make_yard
from tests.starting.addresses import (
    HELP,
    KEEP,
    OPEN,
    OWN,
    POST_ONLY,
    READ,
    READ_ONLY,
    WHO_MAY,
    Rows,
    addresses,
    make_rows,
)

MISSING, SHUT, NOT_SO = 404, 403, 405
SIGN_IN = "sign-in first"
WORKS = frozenset({200})
WRITES = frozenset({200, 302, 422})
MAY_WRITE = {READ: frozenset[str](), HELP: {"keeper", "helper"}, KEEP: {"keeper"}}


@pytest.fixture
def rows(yard: Yard) -> Rows:
    made = make_rows(yard)
    assert replan(yard, today_in(yard))
    return made


@pytest.fixture
def people(yard: Yard) -> dict[str, str]:
    """Return everybody's sign-in cookie; empty: signed out."""
    users = {role: make_member(yard, role) for role in ("viewer", "helper", "keeper")}
    users["stranger"] = make_user()
    return {"signed-out": "", **{who: signed_in(user) for who, user in users.items()}}


def signed_in(user: User) -> str:
    client = Client()
    client.force_login(user)
    return client.cookies[settings.SESSION_COOKIE_NAME].value


def ask(cookie: str, method: str, address: str) -> int | str:
    """Ask for an address, take back what that wrote, return what was answered."""
    with transaction.atomic():
        client = Client(raise_request_exception=False)
        client.cookies[settings.SESSION_COOKIE_NAME] = cookie
        answer = client.generic(method, address)
        transaction.set_rollback(True)
    if answer.headers.get("Location", "").startswith(f"{reverse('sign-in')}?next="):
        return SIGN_IN
    return answer.status_code


def methods(name: str) -> tuple[str, ...]:
    """Return the ways in which an address is asked for."""
    return ("POST",) if name in POST_ONLY else ("GET", "POST")


def is_right(name: str, who: str, method: str, got: int | str) -> bool:
    """Say whether an answer is the one that the table asks for."""
    rule = WHO_MAY[name]
    if rule in {OPEN, OWN}:
        if who == "signed-out" and rule == OWN:
            return got == SIGN_IN
        return got in WRITES | {NOT_SO}
    if who == "signed-out":
        return got == SIGN_IN
    if who == "stranger":
        return got == MISSING
    return is_right_for_member(name, who, method, got)


def is_right_for_member(name: str, role: str, method: str, got: int | str) -> bool:
    """Say whether a member gets what their role may get."""
    rule = WHO_MAY[name]
    if rule == READ:
        wrong = NOT_SO if role == "keeper" else SHUT
        return got in WORKS if method == "GET" else got == wrong
    if role not in MAY_WRITE[rule]:
        return got == SHUT
    if method == "POST" and name in READ_ONLY:
        return got == NOT_SO
    return got in (WORKS if method == "GET" else WRITES)


def test_every_address_has_its_line_in_the_table() -> None:
    assert set(WHO_MAY) == set(addresses())


def test_everybody_gets_at_every_address_what_the_table_says(
    rows: Rows, people: dict[str, str]
) -> None:
    problems = []
    for name, parts in addresses().items():
        if name not in WHO_MAY:
            problems.append(f"{name}: not in the table")
            continue
        address = reverse(name, kwargs=rows.parts(name, parts))
        for who, cookie in people.items():
            for method in methods(name):
                got = ask(cookie, method, address)
                if not is_right(name, who, method, got):
                    problems.append(
                        f"{name}: {method} as {who} ({WHO_MAY[name]}): {got}"
                    )
    assert not problems, "\n".join(problems)


def swapped(name: str, rows: Rows, other: Rows) -> list[str]:
    """Return the address with each part in turn taken from elsewhere."""
    parts = addresses()[name]
    own, theirs = rows.parts(name, parts), other.parts(name, parts)
    foreign = [
        {**own, part: theirs[part]}
        for part in sorted(parts & {"horse", "tack", "made_up", "pk", "entry"})
    ]
    if {"horse", "pk"} <= parts:
        foreign.append({**own, "horse": rows.other_horse.key})
    return [reverse(name, kwargs=made) for made in foreign]


def test_nothing_of_another_yard_or_another_horse_is_found(
    rows: Rows, people: dict[str, str]
) -> None:
    other = make_rows(make_yard())
    problems = []
    for name in addresses():
        for address in swapped(name, rows, other):
            for method in methods(name):
                got = ask(people["keeper"], method, address)
                may = {MISSING, NOT_SO} if method == "POST" else {MISSING}
                if got not in may:
                    problems.append(f"{name}: {method} {address}: {got}")
    assert not problems, "\n".join(problems)


def test_the_admin_is_shut_to_a_yards_keeper(keeper: Client) -> None:
    for client in (Client(), keeper):
        answer = client.get(reverse("admin:index"))
        assert answer.headers["Location"].startswith(reverse("admin:login"))
