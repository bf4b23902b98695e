"""A yard's figures as they are typed, kept and read again."""

from __future__ import annotations

import pytest

from fitting.fit.edge_text import (
    UnreadableFigureError,
    changes_of,
    kept_of,
    read_figure,
)
from fitting.fit.edges import EDGES
from fitting.units import LengthUnit
from tests.fitting.making_edges import change


@pytest.mark.parametrize(
    ("path", "typed", "value", "written"),
    [
        ("strap.noseband.good_from", "35", 889.0, "35 in"),
        ("strap.noseband.good_from", "35 mm", 35.0, "35 mm"),
        ("strap.noseband.good_from", "1 3/8", 34.925, "1 3/8 in"),
        ("strap.noseband.no_below", "0", 0.0, "0 mm"),
        ("strap.headcollar_crown.no_below", "-100 mm", -100.0, "less 100 mm"),
        ("strap.headcollar_crown.no_below", "less 4 in", -101.6, "less 4 in"),
        ("bridle.spare_each_way", "2", 2.0, "2 holes"),
        ("bridle.spare_each_way", "1 hole", 1.0, "1 hole"),
        ("bridle.spare_under", "30 months", 30.0, "30 months"),
        ("saddle.near", "21", 21.0, "21 days"),
        ("path.crown", "0,85", 0.85, "0.85"),
    ],
)
def test_a_figure_is_read_and_kept_so_that_it_means_the_same_everywhere(
    path: str, typed: str, value: float, written: str
) -> None:
    edge = EDGES[path]
    found, kept = read_figure(edge, typed, "in")
    assert found == pytest.approx(value)
    assert kept == written
    units: tuple[LengthUnit, ...] = ("in", "cm", "mm")
    for unit in units:
        assert read_figure(edge, written, unit)[0] == pytest.approx(value)


@pytest.mark.parametrize(
    ("path", "typed"),
    [
        ("strap.noseband.good_from", "a hand"),
        ("strap.noseband.good_from", "--3"),
        ("bridle.spare_each_way", "-1"),
        ("saddle.near", "3 weeks"),
        ("path.crown", "x"),
        ("path.crown", "١"),
    ],
)
def test_what_is_no_figure_is_refused(path: str, typed: str) -> None:
    with pytest.raises(UnreadableFigureError):
        read_figure(EDGES[path], typed, "mm")


def test_changes_come_back_from_what_is_kept() -> None:
    made = [
        change("gap.noseband.good_from", 22.0),
        change("gap.noseband.good_from", None),
        change("strap.headcollar_crown.no_below", -90.0),
    ]
    kept = [kept_of(one) for one in made]
    assert changes_of(kept) == tuple(made)
    gone = {**kept[0], "edge": "no.such.edge"}
    assert changes_of([gone, kept[1]]) == (made[1],)
