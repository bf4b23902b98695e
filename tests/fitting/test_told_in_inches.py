"""Where a yard has an inch tape: the reasons of fit say inches, the mm beside them."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.fit import Finding, Part, Tack, fits
from fitting.fit.answers import Answer, Gap
from fitting.fit.edge_words import decided_words
from fitting.fit.edges import Change, Edges
from fitting.fit.gaps import with_gap
from fitting.fit.sound import edges_of
from fitting.told import verdict
from fitting.tryons import Tried, TryOn
from fitting.units import LengthUnit, show_off, show_wanted
from fitting.units.showing import THIN_SPACE
from tests.fitting.making_fit import ON, make_bit, make_bridle, make_wearer, steady

IN = f"{THIN_SPACE}in"
EVERY_PART = (
    make_bit(127.0, "eggbutt", name="Eggbutt"),
    make_bit(118.0, "loose_ring", name="Loose ring", mouthpiece="single_jointed"),
    make_bridle(),
    make_bridle(cheek_mm=300.0, name="Long bridle"),
    Tack(
        name="Straps",
        kind="bridle",
        parts=tuple(
            Part(part=word, length_mm=580.0)
            for word in ("noseband", "browband", "throatlash")
        ),
    ),
    *(
        Tack(
            name=kind.capitalize(),
            kind=kind,
            parts=tuple(Part(part=part, length_mm=620.0) for part in parts),
        )
        for kind, *parts in (
            ("headcollar", "nose", "crown", "jowl"),
            ("cavesson", "nose", "crown", "jowl"),
            ("girth", "strap"),
            ("rug", "back_seam"),
            ("saddle", "panel"),
        )
    ),
    Tack(
        name="Roller",
        kind="roller",
        parts=(Part(part="strap", shortest_mm=1500.0, longest_mm=1700.0),),
    ),
)
SEEN = TryOn(
    on=date(2026, 1, 5),
    item="Saddle",
    how="worn",
    parts=(Tried(part="panel", seen="sits_right"),),
)


def found(
    told_in: LengthUnit, by: float = 1.0, *, grown: bool = True
) -> tuple[Finding, ...]:
    """Return a finding of every part on a horse, ``by`` times the usual size."""
    growth = steady(
        taken={"back_width_front": ((date(2026, 1, 5), 300.0), (ON, 330.0))},
        mouth_width=120.0 * by,
        head_length=1040.0 * by,
        nose_round=560.0 * by,
        brow=555.0 * by,
        throat_round=480.0 * by,
        heart_girth=1660.0 * by,
        girth_path=640.0 * by,
        back_length=605.0 * by,
        rug_length=650.0 * by,
    )
    wearer = make_wearer(growth, tryons=(SEEN,), grown=grown)
    return fits(replace(wearer, edges=Edges(told_in=told_in)), EVERY_PART, (), ON)


def in_mm_again(said: str) -> str:
    """Return a sentence without its inches, nor the unit that follows a number."""
    said = re.sub(rf" \(under ⅛{IN}\)", "", said)
    said = re.sub(rf"[\d⅛¼⅜½⅝¾⅞]+{IN} \(([\d.]+) mm\)", r"\1 mm", said)
    said = re.sub(rf"\b0{IN}", "0", said)
    return said.replace(" mm", "").replace("0.0", "0")


@pytest.mark.parametrize(
    ("mm", "spec", "said"),
    [
        (2.7, ".1f", f"⅛{IN} (2.7 mm)"),
        (1.3, ".1f", f"1.3 mm (under ⅛{IN})"),
        (1.6, ".1f", f"⅛{IN} (1.6 mm)"),
        (0.04, ".1f", f"0{IN}"),
        (19.6, ".0f", f"¾{IN} (20 mm)"),
        (110.0, ".0f", f"4⅜{IN} (110 mm)"),
        (152.4, "g", f"6{IN} (152.4 mm)"),
    ],
)
def test_a_small_length_is_said_in_inches_with_its_mm(
    mm: float, spec: str, said: str
) -> None:
    assert show_off(mm, "in", spec) == said
    for unit in ("mm", "cm"):
        assert show_off(mm, unit, spec) == f"{mm:{spec}} mm"


def test_what_is_wanted_beside_a_length_has_its_own_unit_in_inches_alone() -> None:
    assert show_wanted(20.0, "in") == f"¾{IN} (20 mm)"
    assert show_wanted(20.0, "cm") == "20"


@given(st.floats(1.6, 600.0))
def test_the_inches_are_the_nearest_eighth_of_the_mm_beside_them(mm: float) -> None:
    said = show_off(mm, "in", ".1f")
    read = re.fullmatch(rf"(\d*)([⅛¼⅜½⅝¾⅞]?){IN} \(([\d.]+) mm\)", said)
    assert read is not None
    eighths = " ⅛¼⅜½⅝¾⅞".index(read[2] or " ") + 8 * int(read[1] or 0)
    assert abs(eighths * 25.4 / 8 - float(read[3])) <= 25.4 / 16 + 1e-9


@pytest.mark.parametrize("grown", [True, False])
@given(by=st.floats(0.8, 1.25))
def test_a_reason_in_inches_is_the_one_in_mm_with_inches_before_it(
    by: float, *, grown: bool
) -> None:
    plain, inches = found("mm", by, grown=grown), found("in", by, grown=grown)
    assert len(plain) == len(inches)
    for one, two in zip(plain, inches, strict=True):
        assert in_mm_again(two.why) == in_mm_again(one.why)
        told = replace(two, why=one.why, decided=one.decided)
        assert told == one  # nothing else is moved: answers, days, cautions, sources
        assert [replace(d, told_in="mm") for d in two.decided] == list(one.decided)


@given(by=st.floats(0.8, 1.25))
def test_no_reason_in_inches_says_mm_alone_but_of_a_thickness(by: float) -> None:
    for one in found("in", by):
        said = re.sub(r"\([\d.]+ mm\)|[\d.]+ mm \(under", "", one.why)
        if one.part == "mouthpiece":  # bits are sold, and callipers ruled, in mm
            said = re.sub(r"[\d.]+ mm (is|thick)", "", said)
        assert "mm" not in said, one.why


@given(by=st.floats(0.8, 1.25))
def test_a_yard_in_cm_reads_as_one_in_mm_always_did(by: float) -> None:
    plain = found("mm", by)
    assert [one.why for one in found("cm", by)] == [one.why for one in plain]
    assert [decided_words(one.decided) for one in found("cm", by)] == [
        decided_words(one.decided) for one in plain
    ]


def why(item: str, part: str, told_in: LengthUnit = "in") -> str:
    return next(f.why for f in found(told_in) if (f.item, f.part) == (item, part))


def test_reasons_are_read_as_a_keeper_with_an_inch_tape_wants_them() -> None:
    assert why("Eggbutt", "mouthpiece") == (
        f"About ⅛{IN} (3.5 mm) clear each side: right for an eggbutt."
    )
    assert why("Eggbutt", "mouthpiece", "cm") == (
        "About 3.5 mm clear each side: right for an eggbutt."
    )
    assert why("Loose ring", "mouthpiece") == (
        f"About ⅛{IN} (2.0 mm) narrower than the mouth: too narrow, it would pinch"
        " the corners of the mouth."
    )
    assert why("Straps", "noseband") == (
        f"¾{IN} (20 mm) more than round the nose: snug."
    )
    assert why("Roller", "strap") == (
        f"Let right out, 1⅝{IN} (40 mm) more than heart girth: 3⅛{IN} (80 mm) are"
        " wanted for growth."
    )
    assert why("Roller", "strap", "mm") == (
        "Let right out, 40 mm more than heart girth: 80 are wanted for growth."
    )
    assert f"back width, front is 1⅛{IN} (30 mm) more" in why("Saddle", "panel")
    assert f"a usual ring of 2½{IN} (65 mm)" in why("Hazel bridle", "cheekpieces")


def test_the_gap_of_a_noseband_is_said_in_inches_with_what_is_wanted() -> None:
    bare = found("in")[0]
    gap = Gap(no_below=17.0, good_from=20.0, told_in="in")
    tight, snug = with_gap(bare, gap, 12.0), with_gap(bare, gap, 18.0)
    assert tight.why.endswith(
        f"Only ½{IN} (12 mm) clear at the front of the nose: under ⅝{IN} (17 mm) it"
        " is too tight."
    )
    assert tight.answer is Answer.NO
    assert snug.why.endswith(
        f"Only ¾{IN} (18 mm) clear at the front of the nose: ¾{IN} (20 mm) are wanted."
    )
    in_mm = with_gap(bare, replace(gap, told_in="mm"), 18.0)
    assert in_mm.why.endswith("18 mm clear at the front of the nose: 20 are wanted.")


def put_on(item: str, part: str, told_in: LengthUnit, gap_mm: float) -> str:
    """Return why a nose strap put on with a gap seen under it is as it is."""
    tried = Tried(part=part, seen="sits_right", gap_mm=gap_mm)
    wearer = replace(
        make_wearer(
            steady(nose_round=560.0, nose_gap=15.0),
            tryons=(TryOn(on=ON, item=item, how="worn", parts=(tried,)),),
        ),
        edges=Edges(told_in=told_in),
    )
    every = fits(wearer, EVERY_PART, (), ON)
    return next(f.why for f in every if (f.item, f.part) == (item, part))


@pytest.mark.parametrize(
    ("item", "part", "gap_mm", "said"),
    [
        ("Straps", "noseband", 15.0, f"under ⅝{IN} (17 mm) it is too tight"),
        ("Headcollar", "nose", 12.0, f"¾{IN} (20 mm) are wanted"),
        ("Cavesson", "nose", 6.0, f"⅜{IN} (10 mm) are wanted"),
    ],
)
def test_a_gap_seen_under_any_nose_strap_is_said_in_inches(
    item: str, part: str, gap_mm: float, said: str
) -> None:
    assert said in put_on(item, part, "in", gap_mm)
    assert said not in put_on(item, part, "cm", gap_mm)


def test_a_gap_measured_too_small_is_said_in_inches() -> None:
    wearer = make_wearer(steady(nose_round=540.0, nose_gap=15.0))
    wearer = replace(
        wearer, standing=(("nose_gap", "stands"),), edges=Edges(told_in="in")
    )
    found = next(f for f in fits(wearer, EVERY_PART, (), ON) if f.part == "noseband")
    assert found.why.endswith(
        f"The gap last measured at the front was ⅝{IN} (15 mm): ¾{IN} (20 mm) are"
        " wanted."
    )


@pytest.mark.parametrize(("told_in", "by"), [("in", f"⅝{IN} (15 mm)"), ("cm", "15 mm")])
def test_a_saddle_nobody_saw_on_says_how_long_it_is(
    told_in: LengthUnit, by: str
) -> None:
    wearer = make_wearer(steady(back_length=605.0))
    wearer = replace(wearer, edges=Edges(told_in=told_in))
    found = next(f for f in fits(wearer, EVERY_PART, (), ON) if f.item == "Saddle")
    assert f"Its panel is {by} longer than the back" in found.why


def by_which(item: str, part: str, told_in: LengthUnit) -> str:
    one = next(f for f in found(told_in) if (f.item, f.part) == (item, part))
    (line,) = verdict([one]).lines
    return line.decided


def test_the_figures_an_answer_went_by_keep_their_source_behind_inches() -> None:
    assert by_which("Straps", "noseband", "in") == (
        f"a no under 0{IN}: ours; good from 1⅛{IN} (30 mm): research"
    )
    assert by_which("Straps", "noseband", "cm") == (
        "a no under 0 mm (ours); good from 30 mm (research)"
    )
    assert by_which("Eggbutt", "mouthpiece", "in") == (
        f"both sides together good from 0{IN}, up to ⅜{IN} (10 mm): research;"
        " thickness good from 14 mm, up to 17 mm: research"
    )
    assert by_which("Headcollar", "crown", "in").startswith("a no when more than 4⅜")


def test_a_yards_own_figure_and_room_are_told_in_inches_with_whose_they_are() -> None:
    own = Change(
        edge="bit.fixed.good_to", to=8.0, by="Jo", on=date(2026, 5, 3), why="Closer."
    )
    wearer = replace(
        make_wearer(steady(mouth_width=120.0)),
        edges=edges_of([own], told_in="in"),
        clearances=(("bit", 2.0),),
    )
    (bit,) = fits(wearer, (make_bit(128.0),), (), ON)
    assert (
        f"both sides together good up to ⅜{IN} (10 mm): yours, changed by Jo on"
        f" 3 May 2026, with ⅛{IN} (2 mm) of room"
    ) in decided_words(bit.decided)


def test_figures_left_out_as_unsound_leave_the_unit_as_it_is() -> None:
    wrong = Change(
        edge="bit.fixed.no_below", to=-9.0, by="Jo", on=date(2026, 5, 3), why="Tight."
    )
    assert edges_of([wrong], told_in="in") == Edges(told_in="in")
