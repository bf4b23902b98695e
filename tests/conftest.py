"""What the tests share."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import count

import hypothesis
import pytest
from django.db import connection
from django.test import Client
from pytest_django import DjangoDbBlocker

from fitting.models import Yard
from tests.make import make_member, make_user, make_yard
from tests.starting.reading_feed import Watch, watched

# A test says what is right; how long it takes is for the benchmark to say. The same
# examples each time: to look for new ones, --hypothesis-profile=search.
too_slow = [hypothesis.HealthCheck.too_slow]
hypothesis.settings.register_profile(
    "search",
    deadline=None,
    derandomize=False,
    suppress_health_check=too_slow,
    print_blob=True,
)
hypothesis.settings.register_profile(
    "yard", hypothesis.settings.get_profile("search"), derandomize=True, database=None
)
hypothesis.settings.load_profile("yard")


@pytest.fixture(scope="session")
def django_db_setup(
    django_db_setup: None, django_db_blocker: DjangoDbBlocker
) -> Iterator[None]:
    """Hang up for a browser that left its server's connection open at the end."""
    yield
    if connection.vendor == "postgresql":
        with django_db_blocker.unblock(), connection.cursor() as cursor:
            cursor.execute(
                "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
                " WHERE datname = current_database() AND pid <> pg_backend_pid()"
            )


@pytest.fixture(autouse=True)
def names_begin_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    """Number names anew in each test, all as long: pages put them in order."""
    monkeypatch.setattr("tests.make.NUMBERS", count(101))


@pytest.fixture(scope="session")
def every_feed() -> Iterator[Watch]:
    with watched() as watch:
        yield watch


@pytest.fixture(autouse=True)
def feeds_are_sound(every_feed: Watch) -> Iterator[None]:
    """Fail a test that makes a calendar file which the strict checker faults."""
    every_feed.faults.clear()
    yield
    assert not every_feed.faults, "\n".join(every_feed.faults[:20])


@pytest.fixture
def yard(db: None) -> Yard:
    return make_yard(name="Sallow End", slug="sallow-end")


@pytest.fixture
def signed_in(yard: Yard) -> Callable[[str], Client]:
    """Return a client signed in as a member with a role, or as a stranger."""

    def sign_in(role: str) -> Client:
        client = Client()
        user = make_user() if role == "stranger" else make_member(yard, role)
        client.force_login(user)
        return client

    return sign_in


@pytest.fixture
def keeper(signed_in: Callable[[str], Client]) -> Client:
    return signed_in("keeper")


@pytest.fixture
def helper(signed_in: Callable[[str], Client]) -> Client:
    return signed_in("helper")


@pytest.fixture
def viewer(signed_in: Callable[[str], Client]) -> Client:
    return signed_in("viewer")


@pytest.fixture
def stranger(signed_in: Callable[[str], Client]) -> Client:
    return signed_in("stranger")
