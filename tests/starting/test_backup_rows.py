"""A row of a backup as its line of text, there and back."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime, time
from decimal import Decimal
from typing import Any
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st

from starting.backup import Digest, read_row, write_row


def test_each_kind_of_value_has_its_text() -> None:
    at = datetime(2026, 11, 25, 9, 30, 0, 123456, tzinfo=UTC)
    row = (
        at, date(2026, 11, 25), time(9, 30), Decimal("1.50"), UUID(int=1),
        memoryview(b"\x00\xff"), None, "¾", True, {"a": [1]},
    )  # fmt: skip
    assert write_row(row) == [
        "2026-11-25T09:30:00.123456+00:00", "2026-11-25", "09:30:00", "1.50",
        "00000000-0000-0000-0000-000000000001", "AP8=", None, "¾", True, {"a": [1]},
    ]  # fmt: skip
    with pytest.raises(TypeError, match="no text for object"):
        write_row((object(),))


PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
    max_leaves=8,
)


@given(st.lists(PLAIN, min_size=1))
def test_a_row_reads_back_as_it_was_and_hashes_the_same(row: list[Any]) -> None:
    line = json.dumps(row)
    first, second = Digest(), Digest()
    first.add(row)
    second.add(read_row(line, len(row)))
    assert first.sha256 == second.sha256
    second.add(row)
    assert first.sha256 != second.sha256


def test_the_order_of_keys_in_a_document_is_no_difference() -> None:
    first, second, third = Digest(), Digest(), Digest()
    first.add([{"a": 1, "b": 2}])
    second.add([{"b": 2, "a": 1}])
    third.add([{"b": 1, "a": 2}])
    assert first.sha256 == second.sha256 != third.sha256
