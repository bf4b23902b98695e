"""What is due this week, gathered where there is much of it."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from starting.dated import DiaryRow
from starting.diary import EntryKind
from starting.week import FEW, gathered

ON = date(2026, 11, 26)


def entry(horse: str = "Tansy", what: str = "teeth", **fields: Any) -> DiaryRow:
    kind: EntryKind = fields.pop("kind", "care")
    act = {"care": "", "measure": "measure ", "try_on": "try on "}[kind]
    fields.setdefault("title", f"{horse}: {act}{what}")
    fields.setdefault("on", ON)
    return DiaryRow(
        kind=kind,
        horse=horse,
        horse_key="",
        short="",
        reason="",
        standing="due",
        words="",
        href="",
        **fields,
    )


@pytest.mark.parametrize(
    ("one", "what"),
    [
        (entry(), "Teeth"),
        (entry("Tansy: the Younger"), "Teeth"),
        (entry(kind="measure", what="brow, weight"), "Measure"),
        (
            entry(kind="try_on", what="a bit: the small one"),
            "Try on a bit: the small one",
        ),
        (entry(title="Anything else"), "Anything else"),
    ],
)
def test_what_is_to_be_done_is_said_without_the_horse(one: DiaryRow, what: str) -> None:
    assert one.what == what


def test_a_few_entries_have_a_row_each_and_many_share_one_a_day_and_task() -> None:
    few = [entry(f"Horse {n}") for n in range(FEW)]
    assert [row.one for row in gathered(few)] == few
    later = date(2026, 11, 28)
    many = [*few, entry("Rue", kind="measure", what="brow"), entry("Rue", on=later)]
    many += [entry("Sorrel", kind="measure", what="weight")]
    rows = gathered(many)
    assert [(row.what, row.on, len(row.entries)) for row in rows] == [
        ("Teeth", ON, FEW), ("Measure", ON, 2), ("Teeth", later, 1),
    ]  # fmt: skip
    assert rows[0].one is None


@given(st.lists(st.tuples(st.integers(1, 28), st.sampled_from("abc"))))
def test_nothing_is_lost_and_nothing_stands_twice(
    given_: list[tuple[int, str]],
) -> None:
    entries = [
        entry(f"Horse {n}", what=what, on=date(2026, 11, day))
        for n, (day, what) in enumerate(given_)
    ]
    kept = [one for row in gathered(entries) for one in row.entries]
    assert sorted(kept, key=lambda one: one.horse) == sorted(
        entries, key=lambda one: one.horse
    )
    for row in gathered(entries):
        assert {one.on for one in row.entries} == {row.on}
