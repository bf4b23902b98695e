"""A youngster that sessions are written of, and a yard with a bit of everything."""

from __future__ import annotations

import json

import pytest

from fitting.models import Horse, Yard
from starting.yardfile import load_yard
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
