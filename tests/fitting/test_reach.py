from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from fitting.drawings.reach import Reach, ReachRow, reach

ROW = ReachRow(
    said="Tansy <i>: good, hole 3",
    band=(560.0, 570.0, 580.0),
    good=((520.0, 620.0),),
    least=500.0,
    most=640.0,
    holes=(620.0, 595.0, 570.0, 545.0, 520.0),
    hole=3,
)


def drawn(*rows: ReachRow, narrow: bool = False) -> ET.Element:
    whole = Reach(uid="reach", title="Strap", desc="Good.", unit="in", rows=rows)
    return ET.fromstring(reach(whole, narrow=narrow))  # noqa: S314 - our own drawing


def number(element: ET.Element, name: str) -> float:
    return float(element.attrib[name])


@pytest.mark.parametrize("narrow", [False, True])
def test_it_is_whole_named_and_escaped(*, narrow: bool) -> None:
    svg = drawn(ROW, narrow=narrow)
    assert svg.attrib["role"] == "img"
    ids = svg.attrib["aria-labelledby"].split()
    assert len({one.attrib["id"] for one in svg if "id" in one.attrib} & set(ids)) == 2
    assert any("Tansy <i>" in (text.text or "") for text in svg.iter("text"))


def test_the_band_lies_under_the_sizes_it_stands_for() -> None:
    """The hole that suits the middle best stands where the middle does."""
    svg = drawn(ROW)
    band = next(r for r in svg.iter("rect") if "f-band" in r.attrib["class"])
    strap = next(r for r in svg.iter("rect") if "f-manila" in r.attrib["class"])
    ring = next(c for c in svg.iter("circle") if c.attrib["class"] == "c-ink")
    middle = number(band, "x") + number(band, "width") / 2
    assert number(ring, "cx") == pytest.approx(middle, abs=0.2)
    assert number(strap, "x") < number(band, "x")
    share = number(band, "width") / number(strap, "width")
    assert share == pytest.approx(20 / 100, rel=0.02)


def test_larger_sizes_lie_further_right_and_holes_with_them() -> None:
    svg = drawn(ROW)
    dots = [c for c in svg.iter("circle") if c.attrib["class"] == "f-leather"]
    xs = [number(dot, "cx") for dot in dots]
    assert len(xs) == 5
    assert xs == sorted(xs, reverse=True)


def test_what_runs_far_off_ends_in_a_point_and_does_not_squeeze_the_band() -> None:
    far = ReachRow(
        said="Far", band=ROW.band, good=((300.0, 1500.0),), least=300.0, most=1500.0
    )
    svg = drawn(far)
    band = next(r for r in svg.iter("rect") if "f-band" in r.attrib["class"])
    assert number(band, "width") > 70


def test_rows_do_not_lie_on_one_another() -> None:
    one, two = drawn(ROW), drawn(ROW, ROW)
    heights = [float(svg.attrib["viewBox"].split()[3]) for svg in (one, two)]
    assert heights[1] > heights[0] + 60
    tops = [number(r, "y") for r in two.iter("rect") if "f-band" in r.attrib["class"]]
    assert tops[1] - tops[0] > 60


def test_a_long_name_is_cut_short_and_its_answer_stays() -> None:
    row = replace(ROW, said=f"{'Wilhelmina' * 4}: only just, hole 12")
    said = next(
        text.text or ""
        for text in drawn(row, narrow=True).iter("text")
        if "only just, hole 12" in (text.text or "")
    )
    assert said.startswith("Wilhelmina")
    assert said.endswith("…: only just, hole 12")
    assert len(said) <= 45
    assert row.said in {text.text for text in drawn(row).iter("text")}
