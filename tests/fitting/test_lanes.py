"""What tack covers, drawn beside a growth chart; and charts of readings alone."""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from fitting.drawings.charts import (
    GrowthChart,
    Lane,
    Reading,
    figures,
    growth_chart,
)
from fitting.drawings.lanes import MOST_LANES, beside, lanes, wanted
from fitting.drawings.scale import NARROW, WIDE, Plot, Unit
from tests.fitting.making_charts import CHART, parsed

BIT = Lane(number=1, good=((1240, 1280),), least=1200, most=1300)
HOLES = Lane(
    number=2, good=((1000, 1100), (1150, 1250)), least=900, most=1300, holes=(1200, 950)
)
PLOT = Plot(frame=NARROW, ages=(0, 48), sizes=(1000, 1400), unit="cm")


def straps(svg: ET.Element) -> list[tuple[float, float]]:
    """Return top and foot of every strap drawn."""
    return [
        (float(r.get("y", "")), float(r.get("y", "")) + float(r.get("height", "")))
        for r in svg.iter("rect")
        if r.get("class") == "f-manila c-leather"
    ]


def drawn(*hung: Lane) -> ET.Element:
    return parsed(f"<svg>{lanes(PLOT, hung, 30)}</svg>")


def test_a_strap_hangs_where_its_sizes_lie() -> None:
    ((top, foot),) = straps(drawn(BIT))
    assert top == pytest.approx(PLOT.y(1280), abs=0.1)
    assert foot == pytest.approx(PLOT.y(1240), abs=0.1)


def test_each_good_span_has_a_strap_and_each_hole_in_the_chart_a_mark() -> None:
    svg = drawn(HOLES)
    assert len(straps(svg)) == 2
    holes = [c for c in svg.iter("circle") if c.get("class") == "f-leather"]
    assert [float(c.get("cy", "")) for c in holes] == pytest.approx(
        [PLOT.y(1200)], abs=0.1
    )


def test_what_lies_wholly_outside_hangs_no_strap() -> None:
    assert straps(drawn(replace(BIT, good=((700, 800),), least=690, most=810))) == []


@pytest.mark.parametrize("frame", [NARROW, WIDE])
@pytest.mark.parametrize("count", range(1, MOST_LANES + 1))
def test_every_lane_lies_inside_the_chart_and_right_of_the_plot(
    frame: object, count: int
) -> None:
    chart = replace(
        CHART, lanes=tuple(replace(BIT, number=n + 1) for n in range(count))
    )
    narrow = frame is NARROW
    svg = parsed(growth_chart(chart, narrow=narrow))
    width = float(svg.get("viewBox", "").split()[2])
    plotted = beside(NARROW if narrow else WIDE, chart.lanes).right
    rings = [c for c in svg.iter("circle") if c.get("r") == "8.5"]
    assert len(rings) == count
    for ring in rings:
        x, y = float(ring.get("cx", "")), float(ring.get("cy", ""))
        assert plotted < x - 8.5
        assert x + 8.5 <= width
        assert y - 8.5 >= 0


def test_a_chart_makes_room_for_what_is_good_but_never_squeezes_the_band_flat() -> None:
    low, high = 1100.0, 1400.0
    assert wanted((BIT,), low, high) == (1240, 1280)
    far = replace(BIT, good=((100, 9000),))
    assert wanted((far,), low, high) == (1000, 1500)


def test_lines_run_across_for_two_items_and_not_for_more() -> None:
    two, three = drawn(BIT, BIT), drawn(BIT, BIT, BIT)
    across = [
        [p for p in svg.iter("path") if p.get("class") == "c-edge"]
        for svg in (two, three)
    ]
    assert [len(lines) for lines in across] == [4, 0]


def test_a_chart_without_tack_is_as_wide_as_ever() -> None:
    assert beside(NARROW, ()) == NARROW
    assert growth_chart(replace(CHART, lanes=())) == growth_chart(CHART)


@pytest.mark.parametrize("unit", ["score", "mm"])
def test_what_does_not_grow_is_drawn_and_told_by_its_readings(unit: Unit) -> None:
    chart: GrowthChart = replace(
        CHART,
        unit=unit,
        band=(),
        grown=None,
        bounds=(),
        parents=(),
        readings=(
            Reading(age_months=24, value=5.5, half_width=0.8),
            Reading(age_months=12, value=5.0, half_width=0.8),
            Reading(age_months=20, value=8.0, mark="struck"),
        ),
    )
    assert 'class="f-band"' not in growth_chart(chart)
    rows = figures(chart)
    assert [row.age for row in rows] == ["19 Apr 2025", "19 Apr 2026"]
    if unit == "score":
        assert [row.middle for row in rows] == ["5", "5.5"]
        assert rows[0].between == "4.2 to 5.8"
