"""What a write changed for a horse, in sentences."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Any

import pytest

from fitting.body import measure_by_key
from fitting.changes import MOST_SAID, size_changes, stands_now
from fitting.changes import changes as changes_in
from fitting.fit.answers import Answer, Finding
from fitting.looks import Band, MeasureLook, Seen
from fitting.readings import Units
from fitting.units.showing import THIN_SPACE

changes = partial(changes_in, unit="mm")


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
        measures=(), fits=fits, measuring_days=(),
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


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        (3.0, 2.0, "good until about May 2027, 2 mm each side."),
        (3.0, 2.5, "good until about May 2027, 2.5 mm each side."),
        (3.0, -0.6, "good until about May 2027, 1.2 mm too narrow."),
        (None, 1.04, "good until about May 2027, 1 mm each side."),
    ],
)
def test_the_room_of_a_bit_is_said_each_side(
    was: float | None, now: float, told: str
) -> None:
    may = date(2027, 5, 1)
    before = finding("Small eggbutt", Answer.GOOD, may, clear_each_side_mm=was)
    after = finding("Small eggbutt", Answer.GOOD, may, clear_each_side_mm=now)
    assert changes(seen(before), seen(after)) == (f"Small eggbutt: {told}",)


@pytest.mark.parametrize(
    ("now", "told"),
    [
        (2.0, f"⅛{THIN_SPACE}in (2 mm) each side."),
        (1.2, f"1.2 mm (under ⅛{THIN_SPACE}in) each side."),
        (-0.8, f"⅛{THIN_SPACE}in (1.6 mm) too narrow."),
    ],
)
def test_a_yard_in_inches_has_the_room_of_a_bit_in_inches(
    now: float, told: str
) -> None:
    before = finding("Small eggbutt", Answer.WATCH, clear_each_side_mm=9.0)
    after = finding("Small eggbutt", Answer.WATCH, clear_each_side_mm=now)
    (said,) = changes_in(seen(before), seen(after), "in")
    assert said == f"Small eggbutt: only just, {told}"
    assert stands_now(None, seen(after), "Small eggbutt", "in") == said


def test_room_that_hardly_moves_or_never_mattered_is_no_news() -> None:
    def bit(answer: Answer, room: float) -> Seen:
        return seen(finding("Small eggbutt", answer, clear_each_side_mm=room))

    assert changes(bit(Answer.WATCH, 3.0), bit(Answer.WATCH, 3.4)) == ()
    assert changes(bit(Answer.NO, 9.0), bit(Answer.NO, 11.0)) == ()
    assert changes(bit(Answer.WATCH, 3.0), bit(Answer.WATCH, 3.5)) != ()


def test_another_hole_is_said_with_what_is_spare() -> None:
    def bridle(hole: int) -> Seen:
        spare: dict[str, Any] = {"spare_longer": 7 - hole, "spare_shorter": hole - 1}
        return seen(finding("Bridle", Answer.GOOD, hole=hole, **spare))

    assert changes(bridle(3), bridle(4)) == (
        "Bridle: good, hole 4 (3 to let down, 3 to take up).",
    )
    assert changes(bridle(3), bridle(3)) == ()


def test_good_as_far_as_is_looked_says_how_far_that_is() -> None:
    before = seen(finding("Small eggbutt", Answer.WATCH))
    after = seen(finding("Small eggbutt", Answer.GOOD, looked_until=date(2028, 11, 25)))
    assert changes(before, after) == (
        "Small eggbutt: good to November 2028 at least; it was only just before.",
    )


def measured(
    now: Band | None, grown: Band | None = None, measure: str = "mouth_width"
) -> Seen:
    kind = measure_by_key(measure)
    look = MeasureLook(
        measure=measure, name=kind.name, dimension=kind.dimension, unit="mm",
        last=None, now=now, grown=grown, standing="stands", measure_by=None,
    )  # fmt: skip
    bare = seen()
    return Seen(
        horse=bare.horse, key=bare.key, on=bare.on, age_months=31, measures=(look,),
        fits=(), measuring_days=(),
    )  # fmt: skip


NARROW, WIDE = Band(p5=108, p50=110, p95=112), Band(p5=100, p50=110, p95=120)
METRIC = Units(length="mm", height="cm")


def told_sizes(before: Seen, after: Seen, *, grown: bool = False) -> tuple[str, ...]:
    (look,) = after.measures
    return size_changes(before, after, [look.measure], METRIC, grown=grown)


def test_a_size_is_said_with_what_it_was_before() -> None:
    assert told_sizes(measured(WIDE, WIDE), measured(NARROW, NARROW)) == (
        "Mouth width today 108 to 112\u2009mm (before: 100 to 120\u2009mm).",
    )
    assert told_sizes(measured(None), measured(NARROW)) == (
        "Mouth width today 108 to 112\u2009mm.",
    )


def test_a_height_is_foretold_unless_the_horse_is_grown() -> None:
    now, later = Band(p5=1300, p50=1310, p95=1320), Band(p5=1400, p50=1410, p95=1420)
    before = measured(later, now, "withers_height")
    after = measured(now, later, "withers_height")
    today = (
        "Withers height today 130.0 to 132.0\u2009cm (before: 140.0 to 142.0\u2009cm)"
    )
    foretold = "grown 140.0 to 142.0\u2009cm (before: 130.0 to 132.0\u2009cm)"
    assert told_sizes(before, after) == (f"{today}; {foretold}.",)
    assert told_sizes(before, after, grown=True) == (f"{today}.",)


def test_a_size_that_reads_the_same_is_no_news() -> None:
    near = Band(p5=108.1, p50=110, p95=112.1)
    assert told_sizes(measured(NARROW), measured(near)) == ()
    assert told_sizes(measured(NARROW), measured(None)) == ()


def test_only_the_sizes_asked_for_are_said() -> None:
    before, after = measured(WIDE), measured(NARROW)
    assert size_changes(before, after, ["brow"], METRIC, grown=False) == ()
