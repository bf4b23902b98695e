"""Entries as pages tell them: months, how they stand, their text, their record."""

from __future__ import annotations

from calendar import monthrange
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.body import MEASURES
from starting.dated import (
    SIGNS,
    Month,
    Ticked,
    doing_of,
    is_plain,
    month_of,
    read_month,
    short_title,
    standing_of,
    stands_words,
    told_of,
    without_ticked,
)
from starting.dated.bring import LEVEL_GROUND, for_a_visit, measuring_tools
from starting.dated.ticks import TICK_HOLDS_DAYS
from starting.diary import (
    BACKING,
    NOTEBOOK,
    Entry,
    Step,
    Task,
    care_entry,
    get_entry,
    give_back_entry,
    measure_entry,
    stage_opens_entry,
    stage_starts_entry,
    task_key,
    task_of,
    try_on_entry,
)
from starting.settling import settle

TODAY = date(2026, 11, 26)
ASTRIDE = Step(
    key="astride",
    name="Astride, standing",
    work="mounted",
    people=2,
    on_the_day=("a calm day", "a fenced place"),
)


def task(days: int = 30, *, forecast: bool = True, because: str = "Usual.") -> Task:
    on = TODAY + timedelta(days=days)
    return Task(
        horse="Tansy", horse_key="tansy", on=on, because=because, forecast=forecast
    )


def named(*keys: str) -> list[str]:
    return [one.name.lower() for one in MEASURES if one.key in keys]


# Months


@given(on=st.dates(date(2000, 2, 1), date(2099, 11, 30)))
def test_a_month_holds_its_days_and_lies_between_its_neighbours(on: date) -> None:
    month = month_of(on)
    assert on in month.days
    assert len(month.days) == monthrange(on.year, on.month)[1]
    assert month.before.last + timedelta(days=1) == month.first
    assert month.after.first == month.last + timedelta(days=1)
    assert month.after.before == month
    assert read_month(month.key, TODAY) == month
    assert len(month.blanks) == month.first.weekday()


@pytest.mark.parametrize(
    "text",
    ["", "2026", "2026-13", "2026-00", "1999-12", "2100-01", "٢٠٢٦-١١", "2026-11-26",
     "9999-12", "0000-01", "2026-1", "nan"],
)  # fmt: skip
def test_what_is_no_month_is_read_as_this_one(text: str) -> None:
    assert read_month(text, TODAY) == month_of(TODAY)


def test_beyond_the_first_and_last_year_there_is_no_address() -> None:
    assert not Month(first=date(2000, 1, 1)).can_go_back
    assert not Month(first=date(2099, 12, 1)).can_go_on
    assert Month(first=date(2000, 2, 1)).can_go_back


# How an entry stands


@pytest.mark.parametrize(
    ("days", "forecast", "standing", "words"),
    [
        (30, True, "likely", "likely"),
        (30, False, "set", "day set"),
        (1, True, "likely", "likely"),
        (0, True, "due", "due today"),
        (-6, True, "due", "due since 20 Nov 2026"),
        (-7, True, "overdue", "overdue since 19 Nov 2026"),
    ],
)
def test_an_entry_stands_as_the_calendar_file_has_it(
    days: int, forecast: bool, standing: str, words: str
) -> None:
    (entry,) = settle(
        (), (care_entry(task(days, forecast=forecast), "t-1", "t"),), TODAY
    )
    assert standing_of(entry, TODAY) == standing
    assert stands_words(entry, TODAY) == words
    assert ("(overdue)" in entry.title) == (standing == "overdue")


def test_every_standing_has_a_sign_of_its_own() -> None:
    assert len(set(SIGNS.values())) == len(SIGNS)


# The text, parted again


def test_a_step_tells_who_what_is_worn_and_what_is_asked() -> None:
    told = told_of(stage_starts_entry(task(), ASTRIDE))
    assert told.reason == "Usual."
    assert told.do == "Open Astride, standing and answer its gates for the day."
    assert told.who.startswith("Two capable adults")
    assert told.worn.startswith("Hat to a current standard")
    assert told.asks == ("A calm day", "A fenced place")
    assert told.cautions == (BACKING,)
    assert told.of_a_step


def test_no_line_of_a_text_is_lost_and_none_is_told_twice() -> None:
    lent = give_back_entry(task(), "lent-bit-1", "Bit", ("Hole 2.", "Wash it."))
    (late,) = settle((), (replace(lent, on=TODAY - timedelta(days=9)),), TODAY)
    told = told_of(late)
    assert told.reason == "Usual. Hole 2. Wash it."
    assert told.do == "Give it back, and tick on its page that it is back."
    assert told.cautions == ()
    assert NOTEBOOK in late.text


def test_a_caution_of_a_number_stays_beside_it() -> None:
    warned = replace(task(), cautions=("Mind the nose.",))
    assert told_of(get_entry(warned, "bit", "a bit")).cautions == ("Mind the nose.",)


# Which record makes it true


def test_every_measure_is_found_again_in_the_text() -> None:
    for one in MEASURES:
        entry = measure_entry(task(), f"{one.key}-1", named(one.key))
        assert doing_of(entry).measures == (one.key,)


@given(keys=st.sets(st.sampled_from([m.key for m in MEASURES]), min_size=1))
def test_any_measures_are_found_again_in_the_text(keys: set[str]) -> None:
    entry = measure_entry(task(), "brow-2", named(*keys))
    assert set(doing_of(entry).measures) == keys


@pytest.mark.parametrize(
    ("entry", "record", "what", "part", "short"),
    [
        (try_on_entry(task(), "bit", "a bit that fits"), "try_on", "bit", "",
         "try on a bit that fits"),
        (care_entry(task(), "saddle_fitter-3", "saddle fitter"), "visit",
         "saddle_fitter", "", "saddle fitter"),
        (care_entry(task(), "tooth_change-2", "tooth change"), "visit",
         "tooth_change", "", "tooth change"),
        (care_entry(task(), "tooth_change-from-36", "watch the mouth"), "tick",
         "tooth_change-from-36", "", "watch the mouth"),
        (give_back_entry(task(), "lent-brown-bridle-2", "Brown bridle", ()),
         "given_back", "brown-bridle", "", "give back Brown bridle"),
        (get_entry(task(), "bit-mouthpiece", "a bit"), "got", "bit", "mouthpiece",
         "get a bit"),
        (get_entry(task(), "roller", "a roller"), "got", "roller", "", "get a roller"),
        (stage_starts_entry(task(), ASTRIDE), "session", "astride", "",
         "starts Astride, standing"),
        (stage_opens_entry(task(), ASTRIDE), "tick", "astride", "",
         "gates open for Astride, standing"),
    ],
)  # fmt: skip
def test_each_kind_of_entry_leads_to_its_record(
    entry: Entry, record: str, what: str, part: str, short: str
) -> None:
    doing = doing_of(entry)
    assert (doing.record, doing.what, doing.part) == (record, what, part)
    assert short_title(entry) == short
    assert is_plain(entry) == (record == "tick")


def test_an_overdue_title_is_as_short() -> None:
    entry = care_entry(task(-30), "teeth-1", "teeth")
    (late,) = settle((), (entry,), TODAY)
    assert short_title(late) == "teeth"


@given(name=st.text(min_size=1))
def test_a_task_is_read_back_from_its_key(name: str) -> None:
    assert task_of(task_key("a horse/one", "care", name)) == name


# Ticks


@pytest.mark.parametrize(
    ("later", "left"),
    [(0, 0), (TICK_HOLDS_DAYS, 0), (TICK_HOLDS_DAYS + 1, 1), (-9, 0)],
)
def test_a_tick_holds_until_the_task_is_put_off_by_far(later: int, left: int) -> None:
    entry = stage_opens_entry(task(), ASTRIDE)
    tick = Ticked(key=entry.key, due_on=entry.on)
    moved = replace(entry, on=entry.on + timedelta(days=later))
    assert len(without_ticked((moved,), (tick,))) == left


def test_a_tick_is_of_one_task_alone() -> None:
    entry = stage_opens_entry(task(), ASTRIDE)
    other = Ticked(key="tansy/stage_opens/roller", due_on=entry.on)
    assert without_ticked((entry,), (other,)) == (entry,)


# What to bring


def test_what_to_bring_names_each_tool_once() -> None:
    tools = measuring_tools(["withers_height", "croup_height", "heart_girth", "brow"])
    assert tools == ("measuring stick", "tape", LEVEL_GROUND)


def test_nothing_is_brought_for_what_eye_and_hand_tell() -> None:
    assert measuring_tools(["condition_score"]) == ()
    assert "weigh tape" in measuring_tools(["weight"])


def test_the_passport_is_brought_where_it_is_written_in() -> None:
    assert any("passport" in thing for thing in for_a_visit("vaccination"))
    assert for_a_visit("tooth_change") == ()
