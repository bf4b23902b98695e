"""One youngster month by month: which line stands in which month, in which words."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.age import Foaled, read_foaled
from fitting.drawings.months import month_after, month_of
from starting.months import (
    Dated,
    Line,
    MonthRow,
    Records,
    Spell,
    StepSeen,
    age_said,
    lines_ahead,
    lines_behind,
    month_rows,
)
from tests.starting.making_months import FOALED, ahead, drawn, entry, step

DAYS = st.dates(date(2020, 1, 1), date(2029, 12, 31))


def told(*steps: StepSeen) -> list[str]:
    return [f"{one.lead} {one.said}" for one in lines_ahead(ahead(*steps))]


# ahead


def test_a_step_within_a_month_is_one_line_with_both_its_ends() -> None:
    early, likely, late = date(2026, 12, 9), date(2026, 12, 12), date(2026, 12, 20)
    one = drawn("bridle", date(2026, 12, 2), likely, late, finish_early=early)
    assert told(one) == [
        "Bridle from about 2 Dec, likely done about 12 Dec, between 9 Dec and 20 Dec."
    ]


def test_a_step_over_two_months_stands_in_both() -> None:
    one = drawn("bridle", date(2026, 12, 20), date(2027, 1, 9), date(2027, 2, 1))
    lines = list(lines_ahead(ahead(one)))
    assert [month_of(line.on).month for line in lines] == [12, 1]
    assert told(one) == [
        "Bridle from about 20 Dec.",
        "Bridle likely done about 9 Jan, perhaps as late as 1 Feb.",
    ]


def test_a_step_under_way_says_only_when_it_is_likely_done() -> None:
    start, end = date(2026, 11, 25), date(2026, 12, 9)
    one = drawn("bridle", start, end, end, state="under_way")
    assert told(one) == ["Bridle likely done about 9 Dec."]


def test_where_no_ends_are_drawn_none_are_said() -> None:
    one = step(start=date(2026, 12, 2), finish=date(2026, 12, 9))
    assert told(one) == ["Bridle from about 2 Dec, likely done about 9 Dec."]
    assert not ahead(one).drawn


def test_a_late_end_beyond_all_planning_is_said_so() -> None:
    day = date(2026, 12, 9)
    one = step(start=day, finish=day, finish_early=day)
    assert told(one) == ["Bridle about 9 Dec, perhaps not within 5 years."]


def test_a_day_of_another_year_keeps_its_year() -> None:
    one = drawn("bridle", date(2026, 12, 2), date(2026, 12, 9), date(2027, 1, 3))
    assert told(one)[0].endswith("perhaps as late as 3 Jan 2027.")


def test_what_is_due_stands_by_its_kind_and_the_horse_is_not_named_again() -> None:
    on = date(2026, 12, 5)
    entries = (
        entry(on, "measure", "Wren: measure girth, mouth width"),
        entry(on, "care", "Wren: teeth"),
        entry(on, "care", "Wren: give back Old Marl's bridle"),
        entry(on, "try_on", "Wren: try on a roller"),
        entry(on, "get", "Wren: get a bit"),
        entry(on, "stage_opens", "Wren: gates open for Mouthing"),
        entry(on, "stage_opens", "Wren: gates open for First roller"),
        entry(on, "stage_starts", "Planned start for Wren: Mouthing"),
    )
    lines = lines_ahead(ahead(entries=entries))
    assert [f"{one.lead} {one.said}" for one in lines] == [
        "Measure girth, mouth width, by 5 Dec.",
        "Teeth due 5 Dec.",
        "Give back Old Marl's bridle, by 5 Dec.",
        "Try on a roller, by 5 Dec.",
        "Buy or borrow a bit, by 5 Dec.",
        "Opens on 5 Dec: Mouthing, First roller.",
    ]


# behind


def behind(*steps: StepSeen, **kept: object) -> list[str]:
    lines = lines_behind(Records(**kept), steps)  # type: ignore[arg-type]
    return [f"{one.lead} {one.said}" for one in lines]


def test_a_step_is_begun_and_established_each_on_its_day() -> None:
    done = step(state="established", established_on=date(2026, 10, 5))
    assert behind(done, begun={"bridle": date(2026, 9, 1)}) == [
        "Bridle begun on 1 Sep.",
        "Bridle established on 5 Oct.",
    ]


def test_many_steps_established_on_one_day_are_one_line() -> None:
    on = date(2026, 10, 5)
    done = [step(key, state="established", established_on=on) for key in ("a", "b")]
    assert len(behind(*done)) == 2
    done.append(step("c", state="established", established_on=on))
    assert behind(*done) == ["3 steps established on 5 Oct: A, B, C."]


def test_a_step_left_out_says_nothing() -> None:
    assert behind(step(state="left_out", established_on=date(2026, 10, 5))) == []


def test_sessions_of_a_month_are_counted_by_step() -> None:
    month = date(2026, 10, 1)
    sessions = {(month, "bridle"): 2, (month, "gone"): 1}
    assert behind(step(), sessions=sessions) == ["3 sessions: Bridle 2, gone 1."]


def test_what_was_measured_in_a_month_is_one_line_each_measure_once() -> None:
    measured = (
        (date(2026, 10, 20), "heart_girth"),
        (date(2026, 10, 5), "withers_height"),
        (date(2026, 10, 5), "heart_girth"),
        (date(2026, 9, 30), "withers_height"),
    )
    assert behind(measured=measured) == [
        "Measured on 30 Sep: withers height.",
        "Measured on 5 and 20 Oct: heart girth, withers height.",
    ]


def test_tack_first_worn_care_and_rest_stand_on_their_days() -> None:
    on = date(2026, 10, 5)
    assert behind(
        first_worn=(Dated(on=on, what="Small eggbutt (bit)"),),
        care=(Dated(on=on, what="Teeth", said="The vet."), Dated(on=on, what="Vet")),
        spells=(
            Spell(first=on, last=date(2027, 1, 3), what="Rest"),
            Spell(first=on, last=None, what="Off work"),
        ),
    ) == [
        "First worn Small eggbutt (bit), on 5 Oct.",
        "Teeth on 5 Oct. The vet.",
        "Vet on 5 Oct.",
        "Rest from 5 Oct to 3 Jan 2027.",
        "Off work from 5 Oct, no last day named.",
    ]


# the months


def line(on: date) -> Line:
    return Line(on=on, lead="Farrier", said="due.")


@given(st.lists(DAYS, max_size=12), DAYS, st.integers(0, 70))
def test_every_month_stands_once_and_every_line_in_its_own(
    days: list[date], first: date, many: int
) -> None:
    last = month_after(first, many)
    inside = [on for on in days if month_of(first) <= on < month_after(last)]
    rows = month_rows(map(line, inside), first, last, FOALED)
    covered = [month for row in rows for month in every_month(row)]
    assert covered == [month_after(month_of(first), at) for at in range(many + 1)]
    assert sorted(one.on for row in rows for one in row.lines) == sorted(inside)
    assert all(month_of(one.on) == row.first for row in rows for one in row.lines)
    assert all(not row.lines for row in rows if row.many)


def every_month(row: MonthRow) -> list[date]:
    months = [row.first]
    while months[-1] < row.last:
        months.append(month_after(months[-1]))
    return months


def test_quiet_months_side_by_side_are_one_row() -> None:
    lines = [line(date(2026, 11, 3)), line(date(2027, 3, 9))]
    rows = month_rows(lines, date(2026, 11, 1), date(2027, 5, 1), FOALED)
    assert [(row.first.month, row.last.month) for row in rows] == [
        (11, 11),
        (12, 2),
        (3, 3),
        (4, 5),
    ]


@pytest.mark.parametrize(
    ("foaled", "month", "said"),
    [
        ("2024-04-19", date(2026, 11, 1), "31 mo"),
        ("2024-04-19", date(2024, 4, 1), "0 mo"),
        ("2024-04-19", date(2024, 3, 1), ""),
        ("2024-04", date(2026, 11, 1), "31 mo"),
        ("2024", date(2026, 11, 1), "23 to 34 mo"),
        ("2012-04-19", date(2026, 11, 1), "14 yr"),
        ("2012", date(2026, 11, 1), ""),
    ],
)
def test_a_month_says_the_age_reached_in_it(
    foaled: str, month: date, said: str
) -> None:
    assert age_said(read_foaled(foaled), month) == said


@given(DAYS, st.integers(0, 50))
def test_from_month_to_month_the_age_said_goes_up_by_one(born: date, at: int) -> None:
    foaled = Foaled(first=born, last=born)
    assert age_said(foaled, month_after(born, at)) == f"{at} mo"
