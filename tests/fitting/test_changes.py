"""What a write changed for a horse, in sentences."""

from __future__ import annotations

from datetime import date
from typing import Any

from fitting.changes import MOST_SAID, changes
from fitting.fit.answers import Answer, Finding
from fitting.looks import Seen


def finding(
    item: str, answer: Answer, until: date | None = None, **more: Any
) -> Finding:
    return Finding(
        item=item,
        kind="bit",
        part="mouthpiece",
        answer=answer,
        why="",
        good_until=until,
        **more,
    )


def seen(*fits: Finding) -> Seen:
    return Seen(
        horse="Pennyroyal", key="pennyroyal", on=date(2026, 11, 26), age_months=31,
        measures=(), curves=(), fits=fits, measuring_days=(),
    )  # fmt: skip


def test_nothing_is_said_of_what_stays_as_it_was() -> None:
    same = seen(finding("Small eggbutt", Answer.GOOD, date(2027, 5, 1)))
    assert changes(same, same) == ()
    assert changes(None, same) == ()


def test_a_day_that_hardly_moves_is_no_news() -> None:
    before = seen(finding("Small eggbutt", Answer.GOOD, date(2027, 5, 1)))
    after = seen(finding("Small eggbutt", Answer.GOOD, date(2027, 5, 20)))
    assert changes(before, after) == ()


def test_a_bit_outgrown_sooner_is_said() -> None:
    before = seen(finding("Small eggbutt", Answer.GOOD, date(2027, 12, 1)))
    after = seen(finding("Small eggbutt", Answer.GOOD, date(2027, 5, 20)))
    assert changes(before, after) == ("Small eggbutt: good until about May 2027.",)


def test_a_day_where_there_was_none_is_said() -> None:
    before = seen(finding("Small eggbutt", Answer.GOOD))
    after = seen(finding("Small eggbutt", Answer.GOOD, date(2027, 5, 20)))
    assert changes(before, after) == ("Small eggbutt: good until about May 2027.",)


def test_a_changed_answer_names_the_former_one() -> None:
    before = seen(finding("Small eggbutt", Answer.NOT_KNOWN))
    after = seen(finding("Small eggbutt", Answer.WATCH))
    said = "Small eggbutt: only just; nothing could be said before."
    assert changes(before, after) == (said,)
    outgrown = seen(finding("Small eggbutt", Answer.NO))
    said = "Small eggbutt: no; it was only just before."
    assert changes(after, outgrown) == (said,)


def test_an_item_counts_as_its_worst_part() -> None:
    before = seen(finding("Bridle", Answer.GOOD), finding("Bridle", Answer.NO))
    after = seen(finding("Bridle", Answer.NO), finding("Bridle", Answer.WATCH))
    assert changes(before, after) == ()


def test_the_worst_comes_first_and_a_long_list_is_cut() -> None:
    names = [f"Bit {n}" for n in range(9)]
    before = seen(*(finding(name, Answer.NOT_KNOWN) for name in names))
    after = seen(
        *(finding(name, Answer.GOOD) for name in names[:-1]),
        finding(names[-1], Answer.NO),
    )
    said = changes(before, after)
    assert len(said) == MOST_SAID
    assert said[0].startswith("Bit 8: no")
