"""The figures tack is judged by, and those a yard or a horse has in place of them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.fit import Answer, Cheek, fits
from fitting.fit.bits import length_window
from fitting.fit.clearances import STRAPS, gap, window
from fitting.fit.edge_words import evidence, meaning
from fitting.fit.edges import ASCENDING, EDGES, GROUPS, OURS, Change, groups_of
from fitting.fit.sound import edges_of, laid_over, troubles
from fitting.sources import SOURCES
from tests.fitting.making_edges import change
from tests.fitting.making_fit import ON, make_bit, make_wearer, steady


def test_every_figure_has_words_a_unit_and_a_source_spelled_out() -> None:
    assert len(EDGES) > 60
    for edge in EDGES.values():
        assert edge.name in ASCENDING or edge.says, edge.path
        assert meaning(edge)
        assert evidence(edge)
        published = edge.evidence in {"research", "rule"}
        assert (SOURCES[edge.source].text in evidence(edge)) == published, edge.path
    assert all(group.what and group.under for group in GROUPS)


def test_a_table_that_nobody_wrote_code_for_is_listed() -> None:
    (group,) = groups_of(
        {
            "sidereins": {
                "ring_height": {"mm": 200.0, "source": "ours", "class": "ours"}
            },
            "floor": {
                "sidereins.ring_height": {"mm": 9.0, "source": "ours", "because": "x"}
            },
        }
    )
    (edge,) = group.edges
    assert (group.what, group.under) == ("Sidereins", "Sidereins")
    assert (edge.path, edge.value) == ("sidereins.ring_height", 200.0)
    assert edge.floor is not None
    assert (meaning(edge), edge.floor.value) == ("ring height", 9.0)


def test_what_is_ours_is_sound_and_keeps_every_floor() -> None:
    assert troubles(OURS) == ()
    for edge in EDGES.values():
        assert edge.floor is None or edge.value >= edge.floor.value, edge.path


def test_nothing_changed_is_ours() -> None:
    assert edges_of(()) == OURS
    assert window("strap.noseband") == STRAPS["noseband"]


def test_a_horse_goes_before_its_yard_and_the_yard_before_ours() -> None:
    path = "strap.noseband.good_from"
    yard, own = change(path, 35.0), change(path, 40.0, "Tansy")
    assert edges_of([yard]).value(path) == 35.0
    assert edges_of([yard], [own]).value(path) == 40.0
    assert edges_of([yard], [own]).value("strap.noseband.good_to") == 55.0


def test_going_back_is_a_change_too_and_the_last_word_counts() -> None:
    path = "strap.noseband.good_from"
    asked = [change(path, 35.0), change(path, 45.0), change(path, None)]
    assert edges_of(asked[:2]).value(path) == 45.0
    assert edges_of(asked) == OURS
    own = [change(path, 40.0, "Tansy"), change(path, None, "Tansy")]
    assert edges_of(asked[:2], own).value(path) == 45.0


@pytest.mark.parametrize(
    ("path", "to", "said"),
    [
        ("gap.noseband.no_below", 16.9, "Never under 17 mm: a tighter noseband"),
        ("bit.fixed.no_below", -0.1, "Never under 0 mm: a bit narrower than"),
        ("bit.loose_ring.no_below", -3.0, "Never under 0 mm"),
        ("thickness.pony.good_from", 9.0, "Never under 10 mm"),
        ("gap.noseband.good_from", 16.0, "at least “a no under”, which is 17 mm"),
        ("strap.noseband.good_from", 60.0, "less than “good up to”, which is 55 mm"),
        ("strap.noseband.good_from", 55.0, "less than “good up to”"),
        ("strap.noseband.no_above", 50.0, "at least “good up to”, which is 55 mm"),
        ("bit.growing.good_from", 10.0, "less than “good up to”, which is 10 mm"),
        ("bridle.spare_each_way", 1.5, "A whole number"),
        ("roller.spare", -1.0, "never less than nothing"),
        ("strap.noseband.no_above", 4000.0, "the most that can be meant"),
        ("strap.rug.no_below", -4000.0, "the most that can be meant"),
        ("saddle.recheck.usual", 80.0, "nobody changes it here"),
    ],
)
def test_a_figure_that_may_not_stand_is_refused_in_words(
    path: str, to: float, said: str
) -> None:
    (trouble, *_) = troubles(laid_over([change(path, to)]))
    assert trouble.edge == path
    assert said in trouble.why


def test_a_floor_names_its_source() -> None:
    (trouble, *_) = troubles(laid_over([change("gap.noseband.no_below", 10.0)]))
    assert SOURCES["fei_noseband_2025"].text in trouble.why


def test_a_stored_figure_that_is_not_sound_never_makes_tack_good() -> None:
    kept = [change("gap.noseband.no_below", 5.0), change("roller.spare", 60.0)]
    edges = edges_of(kept)
    assert gap("gap.noseband", edges) == gap("gap.noseband")
    assert edges.value("roller.spare") == 60.0


WINDOWS = sorted(
    group.key
    for group in GROUPS
    if {edge.name for edge in group.edges} == set(ASCENDING)
)
FIGURES = st.lists(st.integers(-200, 200), min_size=4, max_size=4)


@given(st.sampled_from(WINDOWS), FIGURES, FIGURES)
def test_whatever_is_stored_windows_ascend(
    table: str, yard: list[int], horse: list[int]
) -> None:
    def all_four(figures: list[int], name: str) -> list[Change]:
        return [
            change(f"{table}.{edge}", float(to), name)
            for edge, to in zip(ASCENDING, figures, strict=True)
        ]

    edges = edges_of(all_four(yard, ""), all_four(horse, "Tansy"))
    found = window(table, edges)
    assert found.no_below <= found.good_from < found.good_to <= found.no_above
    for edge in EDGES.values():
        assert edge.floor is None or edges.value(edge.path) >= edge.floor.value
    assert troubles(edges) == ()


@given(
    cheek=st.sampled_from(["eggbutt", "loose_ring"]),
    figures=FIGURES,
    joint=st.sampled_from(["single_jointed", "double_jointed"]),
    more=st.tuples(st.integers(0, 200), st.integers(0, 20), st.integers(0, 20)),
    grown=st.booleans(),
)
def test_whatever_is_stored_the_edges_of_a_bit_on_a_horse_ascend(
    cheek: Cheek,
    figures: list[int],
    joint: str,
    more: tuple[int, int, int],
    grown: bool,
) -> None:
    growing_mm, joint_mm, room_mm = more
    table = "bit.loose_ring" if cheek == "loose_ring" else "bit.fixed"
    named = zip(ASCENDING, sorted(figures), strict=True)
    edges = edges_of(
        [
            *(change(f"{table}.{edge}", float(to)) for edge, to in named),
            change("bit.growing.good_from", float(growing_mm)),
            change("bit.single_jointed.more", float(joint_mm)),
        ]
    )
    wearer = make_wearer(steady(), grown=grown)
    wearer = replace(wearer, edges=edges, clearances=(("bit", float(room_mm)),))
    found = length_window(cheek, joint, wearer)
    assert found.no_below <= found.good_from < found.good_to <= found.no_above


def test_a_single_joint_at_the_last_edge_of_a_yard_moves_that_too() -> None:
    edges = edges_of([change("bit.fixed.good_to", 14.0)])
    wearer = replace(make_wearer(steady(mouth_width=111.0)), edges=edges)
    single = make_bit(126.0, mouthpiece="single_jointed")  # 15 mm: 14 and a mm more
    (found,) = fits(wearer, (single,), (), ON)
    assert found.answer is Answer.GOOD
