"""Tack on head and horse: drawn by its answer, on its holes, in its place."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.drawings import head as hd
from fitting.drawings.head_shape import FOAL, LEAST, MOST, USUAL, Shape, shape_of
from fitting.drawings.ink import Said
from fitting.drawings.straps import STRAW, PartOn, answer_mark, strap
from fitting.drawings.tack_on_head import tack_on_head
from fitting.drawings.tack_on_horse import DRAWN, Body, build_of, tack_on_horse
from fitting.fit.answers import Answer

ANSWERS = [str(answer) for answer in Answer]
BRIDLE = (
    *("cheekpieces", "headpiece", "browband", "noseband", "throatlash", "mouthpiece"),
)
HEADCOLLAR = ("nose", "crown", "jowl")
PARTS = {"bridle": BRIDLE, "headcollar": HEADCOLLAR, "cavesson": HEADCOLLAR}
PONY = Body(build=build_of(31, 1320, 1345), tall_mm=1320)


def parsed(svg: str) -> ET.Element:
    """Return the drawing as a tree; fails where it is not well-formed."""
    return ET.fromstring(svg)  # noqa: S314 - our own drawing


def said(uid: str = "worn") -> Said:
    return Said(uid=uid, title="Tansy's <bridle>", desc="1 browband & noseband: good")


def on_head(kind: str, answer: str = "good", **fields: object) -> str:
    parts = [
        PartOn(part=part, answer=answer, number=number, **fields)  # type: ignore[arg-type]
        for number, part in enumerate(PARTS[kind], start=1)
    ]
    return tack_on_head(kind, parts, said(f"{kind}-{answer}"), head_mm=1000)


def on_horse(kind: str, answer: str = "good", body: Body = PONY) -> str:
    part = PartOn(part="strap", answer=answer, number=1, hole=2, holes=5, spacing_mm=25)
    return tack_on_horse(kind, part, said(f"{kind}-{answer}"), body)


def every_picture() -> Iterator[str]:
    for answer in ANSWERS:
        yield from (on_head(kind, answer) for kind in PARTS)
        yield from (on_horse(kind, answer) for kind in DRAWN)


def holes_of(svg: str) -> list[tuple[float, float]]:
    found = parsed(svg).iter()
    return [
        (float(e.get("cx", "")), float(e.get("cy", "")))
        for e in found
        if e.get("class") == "st-hole"
    ]


def test_every_picture_is_whole_and_says_what_it_shows() -> None:
    for svg in every_picture():
        tree = parsed(svg)
        title, desc = tree.find("title"), tree.find("desc")
        assert title is not None
        assert desc is not None
        assert tree.get("role") == "img"
        assert tree.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"
        assert (title.text, desc.text) == (said().title, said().desc)


def test_ids_are_unique_when_all_pictures_stand_on_one_page() -> None:
    ids = [
        element.get("id")
        for svg in every_picture()
        for element in parsed(svg).iter()
        if element.get("id")
    ]
    assert len(ids) == len(set(ids))


def test_no_picture_holds_style_script_or_words_in_straw() -> None:
    for svg in every_picture():
        for element in parsed(svg).iter():
            assert element.tag not in {"style", "script", "image", "foreignObject"}
            assert "style" not in element.attrib
            if element.tag == "text":
                assert element.get("fill") != STRAW
                assert float(element.get("font-size", "0")) >= 12


@pytest.mark.parametrize("kind", PARTS)
def test_every_part_of_the_head_is_drawn_otherwise_by_each_answer(kind: str) -> None:
    for word in PARTS[kind]:
        drawn = {
            tack_on_head(
                kind,
                [
                    PartOn(part=p, answer=answer if p == word else "good")
                    for p in PARTS[kind]
                ],
                said(),
            )
            for answer in ANSWERS
        }
        assert len(drawn) == len(ANSWERS), word


@pytest.mark.parametrize("kind", DRAWN)
def test_every_answer_is_drawn_otherwise_on_the_horse(kind: str) -> None:
    drawn = {on_horse(kind, answer).replace(answer, "") for answer in ANSWERS}
    assert len(drawn) == len(ANSWERS)


def test_answers_differ_without_colour() -> None:
    bare = {
        answer: re.sub(r'(class|stroke)="[^"]*"', "", strap("M0 0H40", answer, 10))
        for answer in ANSWERS
    }
    assert len(set(bare.values())) == len(ANSWERS)
    assert "dasharray" in bare["not_known"]
    assert "dasharray" not in bare["good"] + bare["watch"]


def test_an_answer_nobody_gives_is_refused() -> None:
    with pytest.raises(KeyError):
        strap("M0 0H40", "perhaps", 10)
    assert all(parsed(answer_mark(answer)).tag == "svg" for answer in ANSWERS)


def test_holes_lie_as_far_apart_as_on_the_strap() -> None:
    parts = [PartOn(part="headpiece", answer="good", hole=3, holes=5, spacing_mm=20)]
    holes = holes_of(tack_on_head("bridle", parts, said(), head_mm=1000))
    assert len(holes) == 5
    for (x, y), (x2, y2) in pairwise(holes):
        # half the head, 500 mm, is drawn 270 units long
        apart = ((x2 - x) ** 2 + (y2 - y) ** 2) ** 0.5
        assert apart == pytest.approx(20 * 270 / 500, abs=0.3)


@given(
    hole=st.integers(min_value=1, max_value=7),
    head_mm=st.floats(min_value=500, max_value=1300),
)
def test_the_buckle_lies_on_the_hole_in_use(hole: int, head_mm: float) -> None:
    part = PartOn(part="headpiece", answer="good", hole=hole, holes=7, spacing_mm=16)
    svg = tack_on_head("bridle", [part], said(), head_mm=head_mm)
    place = re.search(r"translate\(([\d.]+) ([\d.]+)\)", svg)
    assert place
    at = (float(place[1]), float(place[2]))
    assert min(abs(x - at[0]) + abs(y - at[1]) for x, y in holes_of(svg)) < 0.3


def test_without_a_hole_there_is_a_buckle_but_no_pin_and_no_holes() -> None:
    part = PartOn(part="headpiece", answer="no", holes=7, spacing_mm=16)
    svg = tack_on_head("bridle", [part], said())
    assert "st-buckle" in svg
    assert "H0" not in svg
    assert not holes_of(svg)


def test_a_ring_is_drawn_at_its_own_size() -> None:
    def ring(mm: float) -> str:
        part = PartOn(part="mouthpiece", answer="good", ring_mm=mm)
        return tack_on_head("bridle", [part], said(), head_mm=1080)

    assert "a15.0 15.0" in ring(60)
    assert "a20.0 20.0" in ring(80)


def test_a_part_that_is_not_there_is_not_drawn() -> None:
    bare = tack_on_head("bridle", [], said())
    assert "st-" not in bare
    assert "tag-n" not in bare


def test_a_crown_nobody_wrote_down_is_dotted_and_has_no_number() -> None:
    svg = tack_on_head("headcollar", [PartOn(part="nose", answer="good")], said())
    assert 'stroke-dasharray="2.5 3.5"' in svg
    assert "tag-n" not in svg


def test_every_number_is_shown_once() -> None:
    svg = on_head("bridle")
    shown = [t.text for t in parsed(svg).iter("text")]
    assert sorted(map(str, shown)) == ["1", "2", "3", "4", "5", "6"]


def test_the_head_takes_its_own_proportions_within_limits() -> None:
    assert shape_of(None, 500, 700) == USUAL
    assert shape_of(1000, 600, 750) == USUAL
    assert shape_of(1000, None, None) == USUAL
    fine = shape_of(1000, 540, 700)
    assert fine.nose == pytest.approx(0.9)
    assert fine.at(0.6, 0.112) != USUAL.at(0.6, 0.112)
    assert shape_of(1000, 100, 5000) == Shape(nose=LEAST, jowl=MOST)


def test_a_foal_has_its_own_head() -> None:
    assert shape_of(None, None, None, foal=True) == FOAL
    assert hd.head(FOAL) != hd.head()
    # shallower at the jowl, domed between the eyes
    assert FOAL.moves(0.34, -0.30)[1] > USUAL.moves(0.34, -0.30)[1]
    assert FOAL.moves(0.14, 0.145)[1] > USUAL.moves(0.14, 0.145)[1]


def test_a_roller_lies_a_hand_behind_the_elbow() -> None:
    body = Body(build=build_of(31, 1320, 1320), tall_mm=1320)
    # the withers are drawn 200 high, the elbow at 146 along
    assert body.girth_x - 146 == pytest.approx(101.6 / 1320 * 200)


def rear_of(svg: str) -> float:
    """Return how far back the rug reaches: its cloth, as it is filled."""
    cloth = next(e for e in parsed(svg).iter() if e.get("class") == "f-manila")
    spots = re.findall(r"(-?[\d.]+) -?[\d.]+", cloth.get("d", ""))
    return max(float(x) for x in spots)


def test_a_short_rug_ends_before_the_buttock_and_a_long_one_behind_it() -> None:
    def rug(share: float) -> float:
        part = PartOn(part="back_seam", answer="no", long=share)
        return rear_of(tack_on_horse("rug", part, said(), PONY))

    buttock = PONY.build.moves(299, 110)[0]
    assert rug(0.9) < buttock - 10
    assert rug(1.0) == pytest.approx(buttock, abs=0.2)
    assert rug(1.1) > buttock + 10


def test_a_panel_that_is_too_long_reaches_past_the_last_rib() -> None:
    def end(share: float) -> float:
        part = PartOn(part="panel", answer="no", long=share)
        svg = tack_on_horse("saddle", part, said(), PONY)
        d = next(e for e in parsed(svg).iter() if e.get("class") == "st-no").get("d")
        return float(str(d).rpartition("L")[2].split()[0])

    rib = PONY.build.moves(219, 65)[0]
    assert end(0.9) < rib < end(1.1)
    assert end(1.0) == pytest.approx(rib, abs=0.2)


def test_what_has_no_picture_is_refused() -> None:
    with pytest.raises(KeyError):
        on_horse("bit")


def test_the_build_follows_the_age_and_the_croup() -> None:
    assert build_of(6, None, None).young == 1
    assert build_of(60, None, None).young == 0
    assert build_of(24, 1300, 1326).croup == pytest.approx(4.0)
    assert build_of(24, 1300, None).croup == 0
