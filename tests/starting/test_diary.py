from dataclasses import replace
from datetime import date, timedelta
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from starting.diary import (
    FORECAST,
    NOTEBOOK,
    OVERDUE,
    Entry,
    Step,
    Task,
    entry_uid,
    horse_key_of,
    measure_tasks,
    stage_starts_entry,
    task_key,
)
from starting.measuring import Due, MeasuringDay
from starting.settling import NOT_DONE, settle

TODAY = date(2025, 12, 1)
ROLLER = Step(key="roller", name="First roller", work="line", people=2)


def in_days(days: int) -> date:
    return TODAY + timedelta(days=days)


def make_entry(days: int, *, forecast: bool = True) -> Entry:
    on = in_days(days)
    task = Task(horse="Pennyroyal", horse_key="p", on=on, forecast=forecast)
    return stage_starts_entry(task, ROLLER)


def settle_one(before: Entry | None, now: Entry, today: date = TODAY) -> Entry:
    (settled,) = settle((before,) if before else (), (now,), today)
    return settled


@pytest.mark.parametrize(
    ("moved", "published"),
    [(0, 10), (1, 10), (2, 10), (-2, 10), (3, 13), (-3, 7), (40, 50)],
)
def test_a_forecast_moves_only_by_three_days_or_more(
    moved: int, published: int
) -> None:
    settled = settle_one(make_entry(10), make_entry(10 + moved))
    assert settled.on == in_days(published)
    assert settled.forecast


def test_small_moves_of_a_forecast_add_up() -> None:
    settled = settle((), (make_entry(10),), TODAY)
    for day in (11, 12, 13):
        settled = settle(settled, (make_entry(day),), TODAY)
    assert settled[0].on == in_days(13)


def test_a_day_that_is_sure_moves_at_once() -> None:
    settled = settle_one(make_entry(10), make_entry(11, forecast=False))
    assert settled.on == in_days(11)


def test_a_forecast_that_keeps_its_day_still_says_the_new_reason() -> None:
    new = replace(make_entry(11), text="The farrier comes on the day before.")
    settled = settle_one(make_entry(10), new)
    assert (settled.on, settled.text) == (in_days(10), new.text)


def test_an_entry_due_keeps_its_day_and_is_no_forecast() -> None:
    settled = settle_one(make_entry(-2), make_entry(0))
    assert settled.on == settled.due_since == in_days(-2)
    assert not settled.forecast
    assert FORECAST not in settled.text


@pytest.mark.parametrize(
    ("days_due", "overdue"), [(0, False), (6, False), (7, True), (40, True)]
)
def test_a_due_entry_says_overdue_after_seven_days(
    days_due: int, overdue: bool
) -> None:
    title = make_entry(0).title
    settled = settle_one(make_entry(-days_due), make_entry(0))
    assert settled.title == (title + OVERDUE if overdue else title)
    assert settled.on == in_days(-days_due)


def test_overdue_is_said_once_however_often_it_settles() -> None:
    settled = settle((), (make_entry(0),), TODAY)
    for day in range(1, 20):
        today = in_days(day)
        settled = settle(settled, (make_entry(day),), today)
    assert settled[0].title.count(OVERDUE) == 1
    assert settled[0].due_since == TODAY


def test_an_overdue_entry_says_where_its_next_day_stands_before_the_caution() -> None:
    settled = settle_one(make_entry(-7), make_entry(5))
    assert settled.on == in_days(-7)
    assert settled.text.split("\n")[-2:] == [NOT_DONE, NOTEBOOK]
    assert NOT_DONE not in settle_one(make_entry(-6), make_entry(5)).text


def test_a_due_entry_that_was_put_off_moves() -> None:
    assert settle_one(make_entry(-1), make_entry(7)).on == in_days(-1)
    settled = settle_one(make_entry(-1), make_entry(8))
    assert settled.on == in_days(8)
    assert settled.due_since is None


def test_a_new_entry_of_the_past_is_due_since_its_day() -> None:
    settled = settle_one(None, make_entry(-7, forecast=False))
    assert settled.due_since == in_days(-7)
    assert settled.title.endswith(OVERDUE)


def test_what_is_no_longer_wanted_vanishes() -> None:
    assert settle((make_entry(10), make_entry(-3)), (), TODAY) == ()


def test_a_task_that_stands_twice_is_published_once_on_its_earlier_day() -> None:
    assert (
        settle_one(None, make_entry(4))
        == settle((), (make_entry(9), make_entry(4)), TODAY)[0]
    )


entries = st.builds(
    Entry,
    key=st.sampled_from(["a/care/teeth", "a/get/girth", "b/care/vet", "b/care/teeth"]),
    horse=st.just("Gannet"),
    on=st.integers(-30, 30).map(in_days),
    kind=st.just("care"),
    title=st.sampled_from(["Gannet: teeth", "Teeth"]),
    text=st.sampled_from(["", NOTEBOOK, f"Due.\n{FORECAST}\n{NOTEBOOK}"]),
    forecast=st.booleans(),
)
diaries = st.lists(entries, max_size=6)
days = st.integers(-12, 12).map(in_days)


@given(before=diaries, now=diaries, today=days)
def test_settling_twice_on_one_day_changes_nothing(
    before: list[Entry], now: list[Entry], today: date
) -> None:
    once = settle(before, now, today)
    assert settle(once, now, today) == once


@given(before=diaries, now=diaries, today=days)
def test_the_diary_holds_each_wanted_task_once_in_order(
    before: list[Entry], now: list[Entry], today: date
) -> None:
    settled = settle(before, now, today)
    assert sorted(e.key for e in settled) == sorted({e.key for e in now})
    assert list(settled) == sorted(settled, key=lambda e: (e.on, e.key))


@settings(max_examples=300)
@given(before=diaries, now=diaries, today=days, seed=st.randoms())
def test_the_order_of_the_entries_does_not_matter(
    before: list[Entry], now: list[Entry], today: date, seed: Random
) -> None:
    settled = settle(before, now, today)
    seed.shuffle(now)
    seed.shuffle(before)
    assert settle(before, now, today) == settled


@given(before=diaries, now=diaries, today=days)
def test_only_a_day_ahead_is_a_forecast(
    before: list[Entry], now: list[Entry], today: date
) -> None:
    for entry in settle(before, now, today):
        assert (entry.due_since is None) == (entry.on > today)
        assert entry.on > today or not entry.forecast


def test_the_uid_names_yard_and_task_at_the_public_host() -> None:
    uid = entry_uid("Long Meadow", "pennyroyal/care/teeth", "yard.example")
    assert uid == "82730581-8aac-5588-98d2-1a2cc0352dfd@yard.example"
    assert uid != entry_uid("Long Meadow", "gannet/care/teeth", "yard.example")
    assert uid != entry_uid("Short Meadow", "pennyroyal/care/teeth", "yard.example")


def test_yard_and_key_cannot_run_into_each_other() -> None:
    assert entry_uid("a", "b/c", "x") != entry_uid("a/b", "c", "x")


def test_a_key_keeps_its_parts_apart() -> None:
    key = task_key("penny/royal%", "get", "5/8 bit")
    assert key == "penny%2Froyal%25/get/5%2F8 bit"
    assert horse_key_of(key) == "penny/royal%"
    assert key != task_key("penny", "get", "royal%/get/5/8 bit")


def test_a_key_without_a_task_is_refused() -> None:
    with pytest.raises(ValueError, match="a key needs a horse and a task"):
        task_key("pennyroyal", "care", "")


def due(measure: str, by: int) -> Due:
    return Due(measure=measure, useful_from=TODAY, due_by=in_days(by), because="")


def test_a_measuring_day_is_named_by_what_made_it_necessary() -> None:
    days = (
        MeasuringDay(on=in_days(5), due=(due("girth", 9), due("mouth", 6))),
        MeasuringDay(on=in_days(60), due=(due("mouth", 70), due("girth", 61))),
        MeasuringDay(on=in_days(90), due=(due("mouth", 91),)),
    )
    assert measure_tasks(days, {"mouth": 3}) == ("mouth-4", "girth-2", "mouth-6")


def test_measuring_something_else_leaves_the_name_of_a_measuring_day() -> None:
    both = (MeasuringDay(on=in_days(5), due=(due("girth", 9), due("mouth", 6))),)
    one = (MeasuringDay(on=in_days(4), due=(due("mouth", 6),)),)
    assert measure_tasks(both, {"mouth": 3}) == ("mouth-4",)
    assert measure_tasks(one, {"mouth": 3, "girth": 1}) == ("mouth-4",)
    assert measure_tasks(one, {"mouth": 4, "girth": 1}) == ("mouth-5",)
