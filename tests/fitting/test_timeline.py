"""Steps along the months: what a strap says, and what it must not."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.drawings.ink import Said
from fitting.drawings.months import Span, month_after, months_between, months_from
from fitting.drawings.timeline import NARROW, WIDE, Month, Rested, Timeline, timeline
from fitting.drawings.timeline_straps import Field, Strap, strap
from fitting.drawings.yard_timeline import (
    HorseStraps,
    YardTimeline,
    in_lanes,
    yard_timeline,
)

FIRST = date(2026, 10, 1)
MONTHS = months_from(FIRST, 9)
SPAN = months_between(MONTHS)
SAID = Said(uid="x", title="A title", desc="In words.")
LONG = "Marjoram & <the> Thistlethwaitesbottom Meadows of the Long Water"


def day(after: int) -> date:
    return FIRST + timedelta(days=after)


def one(start: int = 40, likely: int = 60, **fields: Any) -> Strap:
    fields.setdefault("name", "First roller")
    fields.setdefault("sign", "knot-waiting")
    for end in ("early", "late", "opens"):
        if isinstance(fields.get(end), int):
            fields[end] = day(fields[end])
    return Strap(start=day(start), likely=day(likely), **fields)


def chart(*straps: Strap, rests: tuple[Rested, ...] = (), today: int = 30) -> Timeline:
    return Timeline(
        months=tuple(Month(first=first, said="31") for first in MONTHS),
        today=day(today),
        straps=straps,
        rests=rests,
        said=SAID,
        under="months old",
    )


def field(*, narrow: bool = False) -> Field:
    _, left, right = NARROW if narrow else WIDE
    return Field(span=SPAN, left=left, right=right, narrow=narrow)


def drawn(row: Strap) -> str:
    return strap(field(), row, 100, ())


# months


@given(st.dates(date(1990, 1, 1), date(2090, 1, 1)), st.integers(-300, 300))
def test_months_on_and_back_are_the_same_month(on: date, months: int) -> None:
    there = month_after(on, months)
    assert month_after(there, -months) == on.replace(day=1)
    assert there.day == 1


def test_a_span_that_ends_before_it_begins_is_refused() -> None:
    with pytest.raises(ValueError, match="comes before"):
        Span(first=FIRST, last=day(-1))


@given(st.integers(-400, 400), st.integers(0, 400))
def test_a_later_day_never_lies_further_left(first: int, more: int) -> None:
    assert field().x(day(first)) <= field().x(day(first + more))


# straps


def test_a_strap_has_its_buckle_at_the_likely_day() -> None:
    found = drawn(one(early=55, likely=60, late=80))
    left = field().x(day(60)) - 4
    assert f'class="st-buckle" x="{left:.1f}"' in found


def test_where_no_ends_are_drawn_there_is_a_bare_line_and_no_narrow_bar() -> None:
    found = drawn(one())
    assert "f-leather" not in found
    assert "f-paper" not in found
    assert "stroke-dasharray" in found
    assert "st-buckle" in found


def test_a_strap_that_runs_on_beyond_the_months_has_no_point() -> None:
    inside, beyond = one(early=55, late=80), one(early=55, late=900)
    assert "f-paper" in drawn(inside)
    assert "f-paper" not in drawn(beyond)
    assert "f-paper" not in drawn(one(early=55, open_end=True))


def test_a_strap_whose_early_end_lies_beyond_is_filled_to_the_edge() -> None:
    found = drawn(one(start=200, likely=400, early=390, late=500))
    assert found.count("<path") == 1
    assert f"H{field().right:.1f}" in found


def test_a_buckle_beyond_the_months_is_not_drawn_at_their_edge() -> None:
    assert "st-buckle" not in drawn(one(start=200, likely=400, early=400, late=500))


@pytest.mark.parametrize(("start", "likely"), [(-90, -40), (300, 350)])
def test_a_step_outside_the_months_is_not_drawn(start: int, likely: int) -> None:
    assert drawn(one(start=start, likely=likely, early=likely, late=likely)) == ""


def test_a_check_is_a_gate_alone() -> None:
    found = drawn(one(alone=True, gate="gate-met"))
    assert 'href="#gate-met"' in found
    assert "st-buckle" not in found


def test_what_is_done_is_filled_to_its_day_without_a_buckle() -> None:
    found = drawn(one(start=2, likely=9, done=True))
    assert "f-leather" in found
    assert "st-buckle" not in found


def test_a_strap_thins_to_a_string_across_a_rest() -> None:
    row = one(start=40, likely=90, early=90, late=100)
    rest = Span(first=day(50), last=day(60))
    assert strap(field(), row, 100, [rest]) != drawn(row)
    later = Span(first=day(150), last=day(160))
    assert strap(field(), row, 100, [later]) == drawn(row)


# the whole drawing


@pytest.mark.parametrize("narrow", [True, False])
def test_the_drawing_is_whole_and_names_are_escaped(*, narrow: bool) -> None:
    rests = (Rested(span=Span(first=day(50), last=day(60)), said="rest"),)
    straps = (one(early=50, late=70), one(name=LONG, held_by=0, opens=30))
    found = timeline(chart(*straps, rests=rests), narrow=narrow)
    root = ET.fromstring(found)  # noqa: S314 - our own drawing
    said = "".join(root.itertext())
    assert "rest" in said
    assert "today" in said
    assert "Thistlethwaitesbottom" in said
    assert root.attrib["role"] == "img"


def test_both_drawings_of_a_page_have_ids_of_their_own() -> None:
    both = timeline(chart(one()), narrow=True) + timeline(chart(one()))
    ids = [part.split('"')[0] for part in both.split(' id="')[1:]]
    assert len(ids) == len(set(ids)) == 4


def test_a_rein_runs_from_the_step_that_holds_another_and_a_ring_ends_it() -> None:
    alone = timeline(chart(one(early=50, late=70), one(early=50, late=70)))
    held = timeline(chart(one(early=50, late=70), one(early=50, late=70, held_by=0)))
    assert held.count("<circle") == alone.count("<circle") + 1
    assert len(held) > len(alone)


def test_a_gate_stands_at_the_day_it_opens_unless_that_is_past() -> None:
    assert "gate-shut" in timeline(chart(one(opens=30)))
    assert "gate-shut" not in timeline(chart(one(opens=-30)))
    assert "gate-shut" not in timeline(chart(one(opens=900)))


def test_today_is_not_drawn_where_it_is_not_among_the_months() -> None:
    assert "today" in timeline(chart(one()))
    assert "today" not in timeline(chart(one(), today=500))


def test_the_year_stands_by_the_first_month_of_each_new_one() -> None:
    found = timeline(chart(one()))
    assert "Jan ’27" in found
    assert found.count("’") == 1
    assert "Feb ’27" in timeline(chart(one()), narrow=True)


# the yard


STRAPS = st.lists(
    st.builds(
        lambda start, length, more: one(
            start=start,
            likely=start + length,
            early=start + length,
            late=start + length + more,
        ),
        st.integers(0, 250),
        st.integers(0, 60),
        st.integers(0, 60),
    ),
    max_size=12,
)


@given(STRAPS, st.booleans())
def test_no_strap_covers_another_of_its_lane(straps: list[Strap], narrow: bool) -> None:
    where = field(narrow=narrow)
    lanes = in_lanes(straps, where)
    assert sorted(n for lane in lanes for n, _ in lane) == [
        *range(1, len(straps) + 1),
    ]
    for lane in lanes:
        ends = [where.x(row.late) for _, row in lane if row.late]
        starts = [where.x(row.start) for _, row in lane if row.start]
        pairs = zip(ends, starts[1:], strict=False)
        assert all(end + 18 <= start for end, start in pairs)


def yard(*names: str) -> YardTimeline:
    horses = tuple(
        HorseStraps(name=name, straps=(one(early=55, late=70),)) for name in names
    )
    return YardTimeline(months=MONTHS[:6], today=day(30), horses=horses, said=SAID)


@pytest.mark.parametrize("narrow", [True, False])
def test_a_yard_has_a_row_a_horse_and_a_number_a_step(*, narrow: bool) -> None:
    found = yard_timeline(yard("Wren", "Hob", LONG), narrow=narrow)
    root = ET.fromstring(found)  # noqa: S314 - our own drawing
    said = "".join(root.itertext())
    assert "Wren" in said
    assert "Hob" in said
    assert "…" in said
    assert found.count("tag-n") == 3


def test_a_horse_with_no_step_has_its_row_all_the_same() -> None:
    empty = YardTimeline(
        months=MONTHS[:6],
        today=day(30),
        horses=(HorseStraps(name="Wren", straps=()),),
        said=SAID,
    )
    assert "Wren" in yard_timeline(empty)
