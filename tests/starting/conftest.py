"""A youngster that sessions are written of, and a yard with a bit of everything."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
from playwright.sync_api import Page
from pytest_django.live_server_helper import LiveServer

from fitting.models import Horse, Yard
from starting.yardfile import load_yard
from tests.browser import phone_of
from tests.make import make_member
from tests.starting.making_commands import ON
from tests.starting.making_log import make_youngster, not_planned
from tests.starting.rich_yard import rich


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    horse = make_youngster(yard)
    not_planned(yard)
    return horse


@pytest.fixture
def fallow(db: None) -> Yard:
    return load_yard(json.dumps(rich()).encode(), ON)


@pytest.fixture
def phone(live_server: LiveServer, tansy: Horse) -> Iterator[Page]:
    """Open a phone on which a keeper of her yard is signed in."""
    with phone_of(make_member(tansy.yard, "keeper"), live_server.url) as opened:
        yield opened
