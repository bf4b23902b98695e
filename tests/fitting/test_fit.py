"""Does it fit: every part of every item and set, by the chances of its rule."""

from __future__ import annotations

from datetime import timedelta

import pytest

from fitting.age import Foaled
from fitting.body import Taken
from fitting.fit import Answer, Finding, MadeUp, Part, Tack, fits, worst
from fitting.fit.answers import Chances, Window
from fitting.fit.edges import NUMBERS
from fitting.growth import Subject, fit_growth
from fitting.sources import SOURCES
from tests.fitting.making_fit import (
    BORN,
    ON,
    make_bit,
    make_bridle,
    make_set,
    make_wearer,
    spread,
    steady,
)

BROWBAND = Part(part="browband", length_mm=380)


@pytest.mark.parametrize(
    ("good", "no", "answer"),
    [
        (0.81, 0.19, Answer.GOOD),
        (0.80, 0.20, Answer.WATCH),
        (0.50, 0.00, Answer.GOOD),
        (0.49, 0.00, Answer.WATCH),
        (0.00, 0.79, Answer.WATCH),
        (0.00, 0.80, Answer.NO),
    ],
)
def test_the_answer_follows_the_chances(good: float, no: float, answer: Answer) -> None:
    assert Chances(good=good, no=no).answer is answer


def test_the_chances_of_a_window_are_the_areas_under_the_spread() -> None:
    window = Window(no_below=0, good_from=0, good_to=10, no_above=14)
    found = window.chances(127, spread(117, 4))  # 10 mm clear, on the edge of good
    assert found.good == pytest.approx(0.5 - 0.0062, abs=0.01)
    assert found.no == pytest.approx(0.1587 + 0.0062, abs=0.01)
    assert found.small == pytest.approx(0.0062, abs=0.001)


def test_a_set_is_as_good_as_its_worst_part() -> None:
    def found(answer: Answer) -> Finding:
        return Finding(item="", kind="", part="", answer=answer, why="")

    answers = [Answer.GOOD, Answer.WATCH, Answer.NOT_KNOWN, Answer.NO]
    for count, answer in enumerate(answers, start=1):
        assert worst(found(one) for one in answers[:count]) is answer
    assert worst(()) is Answer.NOT_KNOWN


def test_every_part_of_every_item_stands_once_and_sets_again_under_their_name() -> None:
    bridle, bit = make_bridle(more=(BROWBAND,)), make_bit()
    made = MadeUp(
        name="First bridle",
        parts=(
            ("headpiece", bridle),
            ("cheekpieces", bridle),
            ("browband", bridle),
            ("bit", bit),
        ),
    )
    found = fits(make_wearer(steady(head_length=1040)), (bit, bridle), (made,), ON)
    assert [(one.item, one.kind, one.part) for one in found] == [
        ("Steel snaffle", "bit", "mouthpiece"),
        ("Hazel bridle", "bridle", "headpiece"),
        ("Hazel bridle", "bridle", "cheekpieces"),
        ("Hazel bridle", "bridle", "browband"),
        ("First bridle", "bridle", "headpiece"),
        ("First bridle", "bridle", "cheekpieces"),
        ("First bridle", "bridle", "browband"),
        ("First bridle", "bit", "mouthpiece"),
    ]


def test_a_slot_whose_item_lacks_the_part_is_not_known() -> None:
    made = MadeUp(name="Odd", parts=(("bit", Tack(name="Box", kind="bit", parts=())),))
    (found,) = fits(make_wearer(steady(mouth_width=120)), (), (made,), ON)
    assert (found.part, found.answer) == ("mouthpiece", Answer.NOT_KNOWN)


@pytest.mark.parametrize(
    ("kind", "part", "caution"),
    [
        ("bridle", "nose", "must not hold the mouth"),
        ("saddle", "strap", "qualified saddle fitter"),
        ("headcollar", "cheekpieces", "every day"),
    ],
)
def test_a_part_without_a_rule_is_not_known_with_its_caution(
    kind: str, part: str, caution: str
) -> None:
    item = Tack(name="On the peg", kind=kind, parts=(Part(part=part, length_mm=600),))
    wearer = make_wearer(steady(nose_round=600), grown=False)
    *_, found = fits(wearer, (item,), (), ON)
    assert (found.part, found.answer) == (part, Answer.NOT_KNOWN)
    assert found.why.startswith("Longrein has no rule for this part yet")
    assert caution in " ".join(found.cautions)


def test_cheekpieces_of_a_headcollar_are_no_bridle() -> None:
    parts = make_bridle().parts
    item = Tack(name="Rope headcollar", kind="headcollar", parts=parts)
    found = fits(make_wearer(steady(head_length=1040)), (item,), (), ON)
    assert {one.answer for one in found} == {Answer.NOT_KNOWN}


def test_every_number_names_a_source_that_is_written_down() -> None:
    def numbers(table: dict[str, object]) -> list[dict[str, object]]:
        if "source" in table:
            return [table]
        inner = (one for one in table.values() if isinstance(one, dict))
        return [number for one in inner for number in numbers(one)]

    found = numbers(NUMBERS)
    assert len(found) > 15
    for number in found:
        source = SOURCES[str(number["source"])]
        published = number["class"] in {"research", "rule"}
        assert published == (source.kind == "published")


def test_every_source_a_finding_names_is_written_down() -> None:
    wearer = make_wearer(steady(mouth_width=120, head_length=1040))
    made = make_set(make_bridle(more=(BROWBAND,)), make_bit())
    found = fits(wearer, (make_bridle(more=(BROWBAND,)),), (made,), ON)
    for one in found:
        assert one.sources
        assert set(one.sources) <= set(SOURCES)


def test_a_pony_of_two_and_a_half_measured_with_string_gets_answers() -> None:
    foaled = Foaled(first=BORN, last=BORN)
    growth = fit_growth(
        Subject(horse_type="pony", foaled=foaled),
        [
            Taken(
                measure="mouth_width",
                on=ON - timedelta(days=20),
                readings=(112.0, 113.0, 112.0),
                method="string",
            ),
            Taken(
                measure="head_length",
                on=ON - timedelta(days=20),
                readings=(930.0, 932.0),
                method="tape",
            ),
        ],
    )
    wearer = make_wearer(growth, grown=False, horse_type="pony")
    bridle = make_bridle(cheek_mm=210, head_mm=520)
    made = make_set(bridle, make_bit(120.65, thickness_mm=13))
    found = {one.part: one for one in fits(wearer, (), (made,), ON)}
    bit, hole = found["mouthpiece"], found["cheekpieces"]
    assert (bit.answer, hole.answer) == (Answer.GOOD, Answer.GOOD)
    assert bit.clear_each_side_mm == pytest.approx(4.2, abs=0.5)
    # string SD 3 mm: some 10 % that the bit is narrower than the mouth or too wide
    assert bit.chance_no is not None
    assert 0.0 < bit.chance_no < 0.2
    assert hole.hole == 4  # (940 - (931 - 80)) / 31.75 = 2.8 holes from the first
