"""What a horse has worn and when: every record counted, no day twice."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from fitting.wearing import Told, Wore, worn_by_kind

ON = date(2026, 3, 2)
KINDS = ("bit", "bridle", "roller")
TOLD: tuple[Told, ...] = ("written", "tried", "session")


def wore(days: int, kind: str = "bit", item: str = "Eggbutt", **more: Any) -> Wore:
    more.setdefault("told", "tried")
    return Wore(on=ON + timedelta(days=days), kind=kind, item=item, **more)


def test_one_day_told_three_times_is_one_day() -> None:
    written = wore(0, told="written", how_it_went="Chewed.", record="worn/1/")
    (kind,) = worn_by_kind([wore(0, told="session"), wore(0), written])
    (item,) = kind.items
    assert (item.days, item.first, item.written) == (1, written, None)


def test_the_first_is_the_earliest_and_what_was_written_later_is_pointed_at() -> None:
    written, earlier = wore(9, told="written"), wore(2, told="session")
    (kind,) = worn_by_kind([written, earlier, wore(9), wore(30)])
    (item,) = kind.items
    assert (item.first, item.written) == (earlier, written)
    assert (item.days, item.last) == (3, ON + timedelta(days=30))


def test_kinds_and_items_stand_in_the_order_of_their_first_day() -> None:
    found = worn_by_kind(
        [
            wore(5, "roller", "Canvas"),
            wore(9, item="Loose ring"),
            wore(1, "bridle", "Brown"),
            wore(3),
        ]
    )
    assert [kind.kind for kind in found] == ["bridle", "bit", "roller"]
    assert [item.item for item in found[1].items] == ["Eggbutt", "Loose ring"]


def test_which_item_is_not_known_stands_unless_that_day_names_one() -> None:
    (kind,) = worn_by_kind([wore(0, item="", told="written"), wore(0)])
    assert [item.item for item in kind.items] == ["Eggbutt"]
    (kind,) = worn_by_kind([wore(0, item="", told="written"), wore(4)])
    assert [item.item for item in kind.items] == ["", "Eggbutt"]


RECORDS = st.lists(
    st.builds(
        wore,
        st.integers(0, 9),
        st.sampled_from(KINDS),
        st.sampled_from(("Old", "New")),
        told=st.sampled_from(TOLD),
    )
)


@given(RECORDS)
def test_days_are_those_of_the_records_whatever_their_order(
    records: list[Wore],
) -> None:
    found = worn_by_kind(records)
    counted = {(k.kind, i.item): i.days for k in found for i in k.items}
    by_hand: dict[tuple[str, str], set[date]] = {}
    for one in records:
        by_hand.setdefault((one.kind, one.item), set()).add(one.on)
    assert counted == {key: len(days) for key, days in by_hand.items()}
    again = worn_by_kind(reversed(records))
    firsts = [(k.kind, i.item, i.first.on, i.last) for k in found for i in k.items]
    assert firsts == [
        (k.kind, i.item, i.first.on, i.last) for k in again for i in k.items
    ]
