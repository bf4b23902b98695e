"""A youngster that the tests of the log write sessions of."""

from __future__ import annotations

import pytest

from fitting.models import Horse, Yard
from tests.starting.making_log import (
    make_youngster,
    not_planned,
)


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    horse = make_youngster(yard)
    not_planned(yard)
    return horse
