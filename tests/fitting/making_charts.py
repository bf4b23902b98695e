"""A growth chart, and a drawing as it is read."""

from __future__ import annotations

from datetime import date
from xml.etree import ElementTree as ET

from fitting.drawings.charts import (
    BandPoint,
    Bound,
    Floor,
    Grown,
    GrowthChart,
    Parent,
    Reading,
)

CHART = GrowthChart(
    uid="height",
    title="Thistledown's <height>",
    desc="She is 13 hands & growing.",
    unit="hands",
    born=date(2024, 4, 19),
    today=date(2026, 11, 25),
    band=tuple(
        BandPoint(age_months=t, p5=1100 + 4 * t, p50=1120 + 4 * t, p95=1140 + 4 * t)
        for t in range(6, 60, 2)
    ),
    readings=(
        Reading(age_months=12, value=1168, half_width=12),
        Reading(age_months=18, value=1192, half_width=12, mark="string"),
        Reading(age_months=20, value=1230, half_width=20, mark="other"),
        Reading(age_months=24, value=1250, mark="struck"),
    ),
    bounds=tuple(
        Bound(age_months=26, value=1220, side=side)
        for side in ("least", "most", "about")
    ),
    grown=Grown(p5=1300, p50=1330, p95=1360),
    parents=(Parent(name="dam", value=1372), Parent(name="sire", value=1371)),
    floors=(Floor(age_months=30, said="first bit from 30 months", said_shortly="bit"),),
)


def parsed(svg: str) -> ET.Element:
    """Return the drawing as a tree; fails where it is not well-formed."""
    return ET.fromstring(svg)  # noqa: S314 - our own drawing
