from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import msgspec
from hypothesis import given
from hypothesis import strategies as st

from fitting.drawings.runs import rows, runs
from fitting.fit import Answer, Finding, Part, fits
from fitting.tryons import TryOn
from fitting.who_fits import (
    MOST_NAMED,
    FitsLook,
    ItemLook,
    Thing,
    by_horses,
    by_items,
    ends,
    item_looks,
)
from tests.fitting.making_fit import ON as THAT_DAY
from tests.fitting.making_fit import (
    make_bit,
    make_bridle,
    make_set,
    make_wearer,
    steady,
)

ON = date(2026, 11, 26)
SOON, LATER = ON + timedelta(days=40), ON + timedelta(days=90)


def part(item: str, word: str, answer: Answer, **more: Any) -> Finding:
    return Finding(item=item, kind="bridle", part=word, answer=answer, why="", **more)


def thing(name: str) -> Thing:
    return Thing(name=name, href=f"/{name}/")


def test_an_item_is_as_good_as_its_worst_part_and_lasts_as_short() -> None:
    (look,) = item_looks(
        (
            part("Bridle", "cheekpieces", Answer.GOOD, hole=4, good_until=LATER),
            part("Bridle", "browband", Answer.GOOD, good_until=SOON),
        )
    )
    assert look == ItemLook("Bridle", Answer.GOOD, 4, SOON)
    (look,) = item_looks(
        (
            part("Bridle", "cheekpieces", Answer.GOOD, hole=4, good_until=LATER),
            part("Bridle", "browband", Answer.NO),
        )
    )
    assert look == ItemLook("Bridle", Answer.NO)


@given(
    mouth=st.floats(105, 135),
    head=st.floats(940, 1120),
    brow=st.floats(340, 400),
    sd=st.sampled_from((0.5, 3.0, 9.0)),
    grown=st.booleans(),
)
def test_days_left_out_of_what_is_not_good_are_not_missed(
    mouth: float, head: float, brow: float, sd: float, *, grown: bool
) -> None:
    growth = steady(
        mouth_width=mouth,
        head_length=head,
        brow=brow,
        a_day={"mouth_width": 0.02, "head_length": 0.1, "brow": 0.03},
        sd=sd,
    )
    tryon = TryOn(on=THAT_DAY, item="Hazel bridle", how="worn", answer="good")
    bridle = make_bridle(more=(Part(part="browband", length_mm=360),))
    bit = make_bit()
    for tryons in ((), (tryon,)):
        wearer = make_wearer(growth, grown=grown, tryons=tryons)
        asked = wearer, (bridle, bit), (make_set(bridle, bit),), THAT_DAY
        every, few = fits(*asked), fits(*asked, only_good=True)
        assert item_looks(few) == item_looks(every)
        assert not any(one.good_from for one in few)


def test_days_to_come_are_left_out_where_they_are_not_asked_for() -> None:
    growth = steady(mouth_width=110, a_day={"mouth_width": 0.02}, sd=0.5)
    asked = make_wearer(growth, grown=False), (make_bit(),), (), THAT_DAY
    (whole,), (short,) = fits(*asked), fits(*asked, only_good=True)
    assert whole.answer is short.answer is Answer.NO
    assert whole.good_from
    assert replace(whole, good_from=None, from_chance=None, from_until=None) == short


def test_what_is_not_known_says_what_would_tell() -> None:
    (look,) = item_looks(
        (part("Bit", "mouthpiece", Answer.NOT_KNOWN, ask="mouth width"),)
    )
    assert look.more == "measure mouth width"


def test_horses_stand_under_their_answer_the_best_first() -> None:
    looks = {
        "a": {"Bit": ItemLook("Bit", Answer.NO)},
        "b": {"Bit": ItemLook("Bit", Answer.GOOD, 3, SOON)},
        "c": {"Bit": ItemLook("Bit", Answer.NOT_KNOWN, more="measure mouth width")},
        "d": {"Bit": ItemLook("Bit", Answer.GOOD)},
    }
    horses = [(key, thing(key.upper())) for key in "abcd"]
    (row,) = by_items([thing("Bit")], horses, looks)
    assert [(run.answer, [n.name for n in run.names]) for run in row.runs] == [
        (Answer.GOOD, ["B", "D"]),
        (Answer.NOT_KNOWN, ["C"]),
        (Answer.NO, ["A"]),
    ]
    assert row.runs[0].names[0].said == "hole 3, until 5 Jan 2027"
    assert row.runs[1].more == "measure mouth width"


def test_those_it_does_not_fit_stand_together_by_the_reason() -> None:
    looks = {
        "a": {"Bit": ItemLook("Bit", Answer.NO, more="too narrow")},
        "b": {"Bit": ItemLook("Bit", Answer.NO, more="too wide")},
        "c": {"Bit": ItemLook("Bit", Answer.NO, more="too narrow")},
        "d": {"Bit": ItemLook("Bit", Answer.WATCH, 3, more="snug")},
        "e": {"Bit": ItemLook("Bit", Answer.WATCH, more="roomy")},
    }
    horses = [(key, thing(key.upper())) for key in "abcde"]
    (row,) = by_items([thing("Bit")], horses, looks)
    said = [(run.more, [(n.name, n.said) for n in run.names]) for run in row.runs]
    assert said == [
        ("", [("D", "hole 3, snug"), ("E", "roomy")]),
        ("too narrow", [("A", ""), ("C", "")]),
        ("too wide", [("B", "")]),
    ]


def test_of_many_horses_those_it_does_not_fit_are_counted() -> None:
    keys = [f"h{n}" for n in range(MOST_NAMED + 1)]
    looks = {key: {"Bit": ItemLook("Bit", Answer.NO)} for key in keys}
    looks["h0"] = {"Bit": ItemLook("Bit", Answer.GOOD)}
    horses = [(key, thing(key)) for key in keys]
    (row,) = by_items([thing("Bit")], horses, looks)
    good, no = row.runs
    assert [one.name for one in good.names] == ["h0"]
    assert (no.names, no.count) == ((), MOST_NAMED)
    assert f"{MOST_NAMED} horses" in runs(row.runs)


def test_one_alone_that_it_does_not_fit_is_named_among_many() -> None:
    keys = [f"h{n}" for n in range(MOST_NAMED + 1)]
    looks = {key: {"Bit": ItemLook("Bit", Answer.GOOD)} for key in keys}
    looks["h0"] = {"Bit": ItemLook("Bit", Answer.NO, more="too wide")}
    horses = [(key, thing(key)) for key in keys]
    (row,) = by_items([thing("Bit")], horses, looks)
    assert [one.name for one in row.runs[1].names] == ["h0"]


def many_on_one(**answers: int) -> str:
    """Return the row, in short, of a horse that so many items are so on."""
    looks = [
        ItemLook(f"{answer} {n}", Answer(answer), more="why" if answer == "no" else "")
        for answer, many in answers.items()
        for n in range(many)
    ]
    items = [thing(look.item) for look in looks]
    horse = Thing(name="Tansy", href="/t/", place="of-tansy")
    on = {"t": {look.item: look for look in looks}}
    return rows(by_horses(items, [("t", horse)], on), of_horse=True, folded=True)


def test_of_many_horses_only_what_fits_is_told_at_once() -> None:
    shown, _, folded = many_on_one(good=2, watch=1, not_known=3, no=4).partition(
        "<details data-whole>"
    )
    assert 'id="of-tansy"' in shown
    assert "good 0" in shown
    assert "good 1" in shown
    assert "watch 0" in shown
    assert "<summary>3 can&#x27;t say, 4 no</summary>" in folded
    assert "3 items" in folded
    assert "why: " in folded
    assert "4 items" in folded
    assert "good" not in folded


def test_of_much_that_fits_the_first_are_told_and_none_is_lost() -> None:
    said = many_on_one(good=MOST_NAMED + 5, watch=MOST_NAMED + 1)
    shown, _, folded = said.partition("<details data-whole>")
    assert "<summary>5 more good</summary>" in folded
    for n in range(MOST_NAMED + 5):
        assert said.count(f">good {n}</a>") == 1
        assert (f">good {n}</a>" in shown) == (n < MOST_NAMED)
    for n in range(MOST_NAMED + 1):  # one more would take as much room as its name
        assert f">watch {n}</a>" in shown


def test_nothing_is_folded_where_all_is_told_at_once() -> None:
    said = many_on_one(good=3)
    assert "<details" not in said
    assert "good 2" in said
    assert "<ul" not in many_on_one(no=2).partition("<details")[0]


def test_a_horse_lists_the_items_in_their_order() -> None:
    looks = {
        "a": {
            "Roller": ItemLook("Roller", Answer.GOOD),
            "Bit": ItemLook("Bit", Answer.GOOD),
        }
    }
    items = [thing("Bit"), thing("Roller"), thing("Never seen")]
    (row,) = by_horses(items, [("a", thing("A"))], looks)
    assert [one.name for one in row.runs[0].names] == ["Bit", "Roller"]


def test_what_ends_first_stands_first() -> None:
    looks = {
        "a": {"Bit": ItemLook("Bit", Answer.GOOD, None, LATER)},
        "b": {
            "Bit": ItemLook("Bit", Answer.GOOD, None, SOON),
            "Rug": ItemLook("Rug", Answer.GOOD, None, None, LATER),
        },
    }
    horses = [("a", thing("A")), ("b", thing("B"))]
    found = ends([thing("Bit"), thing("Rug")], horses, looks)
    assert [(one.on, one.horse.name) for one in found] == [(SOON, "B"), (LATER, "A")]


def test_names_are_escaped_and_every_answer_has_its_word() -> None:
    looks = {
        key: {"<b>": ItemLook("<b>", answer)}
        for key, answer in zip("abcd", Answer, strict=True)
    }
    horses = [(key, Thing(name=f"<i>{key}", href="")) for key in "abcd"]
    (row,) = by_items([Thing(name="<b>", href="")], horses, looks)
    said = runs(row.runs)
    assert "<i>" not in said
    for word in ("good", "only just", "no", "can't say"):
        assert f">{word}</span>" in said


def test_what_is_stored_reads_back_as_it_was() -> None:
    look = FitsLook(
        items=(
            ItemLook("Bit", Answer.GOOD, 3, SOON),
            ItemLook("Rug", Answer.NOT_KNOWN, more="measure rug length"),
        ),
        tooth_change=ON,
    )
    stored = msgspec.json.encode(look)
    assert msgspec.json.decode(stored, type=FitsLook) == look
