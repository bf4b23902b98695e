from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import partial
from typing import cast

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.age import Foaled
from fitting.body import Taken
from fitting.fit import Answer, Finding, MadeUp, Part, Tack, fits, worst
from fitting.fit.answers import Chances, Judged, Window
from fitting.fit.edges import NUMBERS
from fitting.fit.lasting import days_looked, good_until, last_day_looked
from fitting.growth import Growth, Subject, fit_growth
from fitting.sources import SOURCES
from fitting.tryons import Seen, Tried, TryOn
from tests.fitting.making_fit import (
    BORN,
    ON,
    Steady,
    bit_on,
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


def test_a_measure_never_taken_is_asked_for_and_never_good() -> None:
    # growth could guess at it from the type of horse, and the guess would fit
    growth = steady(
        mouth_width=120, head_length=1040, unmeasured=("mouth_width", "head_length")
    )
    made = make_set(make_bridle(), make_bit())
    found = fits(make_wearer(growth), (), (made,), ON)
    assert [one.answer for one in found] == [Answer.NOT_KNOWN] * 3
    assert [one.ask for one in found] == ["head length", "head length", "mouth width"]


def _of(kind: str, **lengths: float) -> Tack:
    parts = (Part(part=part, length_mm=mm) for part, mm in lengths.items())
    return Tack(name=f"A {kind}", kind=kind, parts=tuple(parts))


SIZES = {
    "mouth_width": 120.0,
    "head_length": 1040.0,
    "nose_round": 600.0,
    "brow": 380.0,
    "throat_round": 900.0,
    "heart_girth": 1800.0,
    "girth_path": 1100.0,
    "back_length": 460.0,
    "rug_length": 1800.0,
}
# Tack that suits those sizes, some of every kind.
SUITS = (
    make_bit(126.0),
    make_bridle(
        more=_of("bridle", browband=410, noseband=640, throatlash=1010).parts,
    ),
    _of("headcollar", nose=640, crown=915, jowl=720),
    _of("cavesson", nose=620, crown=915, jowl=700),
    Tack(
        name="A roller",
        kind="roller",
        parts=(Part(part="strap", shortest_mm=1700, longest_mm=1900),),
    ),
    _of("girth", strap=1100),
    _of("rug", back_seam=1830),
    _of("saddle", panel=420),
)


def of_every_kind(growth: Growth, *tryons: TryOn) -> dict[tuple[str, str], Finding]:
    made = make_set(SUITS[1], SUITS[0])
    found = fits(make_wearer(growth, tryons=tryons), SUITS, (made,), ON)
    return {(one.item, one.part): one for one in found}


def test_of_a_horse_never_measured_nor_tried_on_nothing_is_good() -> None:
    measured = of_every_kind(cast("Growth", Steady(sizes=SIZES)))
    suited = {key for key, one in measured.items() if one.answer is Answer.GOOD}
    assert measured.keys() - suited == {("A saddle", "panel")}  # to be seen on first
    guessed = cast("Growth", Steady(sizes=SIZES, unmeasured=tuple(SIZES)))
    held = [
        TryOn(
            on=ON,
            item=item,
            how="held",
            parts=(Tried(part=part, seen="sits_right"),),
        )
        for item, part in measured
    ]
    for growth, tryons in ((steady(), []), (guessed, []), (guessed, held)):
        for one in of_every_kind(growth, *tryons).values():
            assert one.answer is Answer.NOT_KNOWN
            assert one.ask
            assert (one.chance_no, one.good_until, one.hole) == (None, None, None)


def test_what_was_seen_on_the_horse_decides_for_every_kind_of_tack() -> None:
    growth = cast("Growth", Steady(sizes=SIZES))
    plain = of_every_kind(growth)
    answers = {"too_short": Answer.NO, "rubs": Answer.WATCH, "sits_right": Answer.GOOD}
    for item, part in plain:
        for seen, answer in answers.items():
            tried = (Tried(part=part, seen=cast("Seen", seen)),)
            seen_on = TryOn(on=ON, item=item, how="worn", parts=tried)
            found = of_every_kind(growth, seen_on)[item, part]
            assert found.answer is answer, (item, part, seen)
            assert found.rests_on.startswith("put on 2 Mar 2026")


@pytest.mark.parametrize(
    ("bridle", "bit", "ask"),
    [
        (make_bridle(cheek_mm=None), make_bit(), "length of the cheekpieces"),
        (make_bridle(head_mm=None), make_bit(), "length of the headpiece"),
        (make_bridle(spacing_mm=None), make_bit(), "hole spacing"),
        (make_bridle(holes=0), make_bit(), "its holes"),
        (make_bridle(), make_bit(None), "length of the bit, cheek to cheek"),
        (make_bridle(), make_bit(127, None), "which cheeks the bit has"),
        (
            make_bridle(),
            make_bit(thickness_mm=None),
            "thickness of the bit, beside the ring or cheek",
        ),
    ],
)
def test_a_size_not_written_down_is_asked_for_and_never_good(
    bridle: Tack, bit: Tack, ask: str
) -> None:
    wearer = make_wearer(steady(mouth_width=120, head_length=1040))
    found = fits(wearer, (), (make_set(bridle, bit),), ON)
    assert worst(found) is Answer.NOT_KNOWN
    assert ask in {one.ask for one in found if one.answer is Answer.NOT_KNOWN}


def test_a_stale_measurement_keeps_its_answer_and_says_so() -> None:
    growth = steady(mouth_width=120)
    found = bit_on(make_wearer(growth, stale=("mouth_width",)), make_bit())
    assert (found.answer, found.stale) == (Answer.GOOD, True)
    assert not bit_on(make_wearer(growth), make_bit()).stale


def test_a_measurement_whose_standing_is_not_told_counts_as_stale() -> None:
    wearer = replace(make_wearer(steady(mouth_width=120)), standing=())
    assert bit_on(wearer, make_bit()).stale


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


@given(
    width=st.floats(100, 125),
    a_day=st.floats(0.0, 0.06),
    sd=st.floats(0.3, 4.0),
)
def test_good_until_is_the_first_day_that_is_no_longer_good(
    width: float, a_day: float, sd: float
) -> None:
    growth = steady(mouth_width=width, a_day={"mouth_width": a_day}, sd=sd)
    wearer, bit = make_wearer(growth, grown=False), make_bit(130, "loose_ring")
    found = bit_on(wearer, bit)
    until = found.good_until
    if found.answer is not Answer.GOOD:
        assert (until, found.looked_until) == (None, None)
    elif until is None:
        assert found.looked_until == last_day_looked(ON)
        assert bit_on(wearer, bit, last_day_looked(ON)).answer is Answer.GOOD
    else:
        assert found.looked_until is None
        assert bit_on(wearer, bit, until).answer is not Answer.GOOD
        assert bit_on(wearer, bit, until - timedelta(days=1)).answer is Answer.GOOD


def test_good_until_agrees_with_asking_every_day() -> None:
    over = ON + timedelta(days=337)

    def judge_on(day: date) -> Judged:
        if day < over:
            return Judged(answer=Answer.GOOD, chance_no=0.0)
        return Judged(answer=Answer.WATCH, chance_no=0.3)

    assert good_until(judge_on, ON) == over


def test_a_dip_without_a_chance_of_a_no_is_found_where_good_was_in_doubt() -> None:
    dips, mends = ON + timedelta(days=140), ON + timedelta(days=182)

    def judge_on(day: date) -> Judged:
        if dips <= day < mends:  # it only just fits for some weeks
            return Judged(answer=Answer.WATCH, chance_no=0.0, chance_good=0.45)
        return Judged(answer=Answer.GOOD, chance_no=0.0, chance_good=0.7)

    assert good_until(judge_on, ON) == dips


def test_looks_are_left_out_only_where_hardly_a_doubt_is_left() -> None:
    asked: list[date] = []

    def judge_on(day: date, chance_no: float) -> Judged:
        asked.append(day)
        return Judged(answer=Answer.GOOD, chance_no=chance_no)

    counts = {}
    for chance_no in (0.0, 0.05, 0.15):
        asked.clear()
        assert good_until(partial(judge_on, chance_no=chance_no), ON) is None
        counts[chance_no] = len(set(asked))
    every = len(days_looked(ON))
    assert counts[0.15] == every
    assert every / 8 < counts[0.0] < counts[0.05] < every


def test_good_is_looked_for_over_two_years_and_no_further() -> None:
    days = days_looked(ON)
    assert days[0] == ON
    assert days[-1] == last_day_looked(ON) == date(2028, 3, 1)
    good = Judged(answer=Answer.GOOD, chance_no=0.15)
    assert good_until(lambda _: good, ON) is None


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
