"""What became of an entry is told by the records, and by nothing else."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from starting.dated import Gone, Records, TickRow, became, is_shown
from starting.diary import (
    Entry,
    Step,
    Task,
    care_entry,
    get_entry,
    give_back_entry,
    measure_entry,
    stage_opens_entry,
    stage_starts_entry,
    try_on_entry,
)

DUE = date(2026, 11, 20)
SINCE, GONE_ON = DUE - timedelta(days=60), DUE + timedelta(days=2)
TASK = Task(horse="Tansy", horse_key="tansy", on=DUE)
ROLLER = Step(key="roller", name="First roller", work="line")
BEFORE, THEN = SINCE - timedelta(days=9), DUE + timedelta(days=1)

MEASURE = measure_entry(TASK, "brow-2", ["brow", "weight"])
TEETH = care_entry(TASK, "teeth-2", "teeth")
LENT = give_back_entry(TASK, "lent-brown-bridle-2", "Brown bridle", ())
GET = get_entry(TASK, "bit-mouthpiece", "a bit")
TRY = try_on_entry(TASK, "bit", "a bit that fits")
STARTS = stage_starts_entry(TASK, ROLLER)
OPENS = stage_opens_entry(TASK, ROLLER)


def gone(entry: Entry) -> Gone:
    return Gone(entry=entry, since=SINCE, gone_on=GONE_ON)


def tick_of(entry: Entry, **fields: object) -> TickRow:
    row = TickRow(key=entry.key, due_on=entry.on, on=THEN, who="Jo", pk=4)
    return replace(row, **fields)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("entry", "records", "words"),
    [
        (MEASURE, Records(measured=(("brow", BEFORE), ("brow", THEN))),
         "Measured on 21 Nov 2026."),
        (TEETH, Records(visits=(("teeth", BEFORE), ("teeth", THEN))),
         "Written in as done on 21 Nov 2026."),
        (LENT, Records(returned=(("brown-bridle-2", THEN),)),
         "Given back on 21 Nov 2026."),
        (GET, Records(got=(("bit", "mouthpiece", THEN),)),
         "Ticked off as got on 21 Nov 2026."),
        (TRY, Records(tried=(("bit", THEN),)),
         "A try-on is written down for 21 Nov 2026."),
        (STARTS, Records(sessions=(("roller", THEN),)), "Begun on 21 Nov 2026."),
        (STARTS, Records(steps=(("roller", "left out", THEN),)),
         "Written down as left out on 21 Nov 2026."),
        (OPENS, Records(ticks=(tick_of(OPENS),)), "Ticked by Jo on 21 Nov 2026."),
    ],
)  # fmt: skip
def test_the_record_that_makes_it_true_is_named_with_its_day(
    entry: Entry, records: Records, words: str
) -> None:
    told = became(gone(entry), records)
    assert told.words == words
    assert told.standing == "done"
    assert told.on == THEN
    assert told.is_told


@pytest.mark.parametrize(
    ("entry", "records"),
    [
        (MEASURE, Records(measured=(("brow", THEN), ("weight", THEN)))),  # the first
        (MEASURE, Records(measured=(("brow", THEN), ("brow", THEN)))),  # one day
        (TEETH, Records(visits=(("teeth", THEN), ("vet", THEN)))),
        (LENT, Records(returned=(("brown-bridle-1", THEN),))),  # the loan before
        (GET, Records(got=(("bit", "", THEN), ("roller", "", THEN)))),
        (GET, Records(got=(("bit", "mouthpiece", BEFORE),))),
        (TRY, Records(tried=(("roller", THEN), ("bit", BEFORE)))),
        (TRY, Records(tried=(("bit", GONE_ON + timedelta(days=1)),))),
        (STARTS, Records(sessions=(("saddle", THEN), ("roller", BEFORE)))),
        (OPENS, Records(ticks=(tick_of(OPENS, due_on=BEFORE),))),
        (OPENS, Records(ticks=(tick_of(OPENS, key=STARTS.key),))),
    ],
)
def test_another_record_makes_nothing_true(entry: Entry, records: Records) -> None:
    told = became(gone(entry), records)
    assert told.standing == "went"
    assert not told.is_told


def test_without_a_record_it_says_so_plainly() -> None:
    words = "Not asked for any more since 22 Nov 2026; no record of it."
    assert became(gone(TRY), Records()).words == words
    assert became(gone(OPENS), Records()).words == "Its day was 20 Nov 2026."


def test_the_first_session_of_its_time_began_a_step() -> None:
    days = (("roller", BEFORE), ("roller", DUE), ("roller", THEN))
    assert became(gone(STARTS), Records(sessions=days)).on == DUE


def test_what_was_planned_away_before_its_day_is_not_shown() -> None:
    away = Gone(entry=TRY, since=SINCE, gone_on=DUE - timedelta(days=1))
    assert not is_shown(away, became(away, Records()))
    done = Records(tried=(("bit", DUE - timedelta(days=3)),))
    assert is_shown(away, became(away, done))
    assert is_shown(gone(TRY), became(gone(TRY), Records()))


def test_what_came_and_went_within_a_day_is_not_shown() -> None:
    flitted = Gone(entry=TRY, since=GONE_ON, gone_on=GONE_ON)
    assert not is_shown(flitted, became(flitted, Records()))
    done = Records(tried=(("bit", DUE),))
    assert is_shown(flitted, became(flitted, done))
