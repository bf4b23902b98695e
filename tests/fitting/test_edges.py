"""The figures tack is judged by, and those a yard or a horse has in place of them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.age import Foaled
from fitting.body import HorseType
from fitting.fit import Answer, Cheek, Wearer, fits
from fitting.fit.answers import NoRule
from fitting.fit.bits import length_window
from fitting.fit.clearances import STRAPS, gap, thickness_window, window
from fitting.fit.edge_text import (
    UnreadableFigureError,
    changes_of,
    kept_of,
    read_figure,
    write_figure,
)
from fitting.fit.edge_words import decided_words, evidence, meaning
from fitting.fit.edges import (
    ASCENDING,
    EDGES,
    GROUPS,
    OURS,
    Change,
    Decided,
    Edges,
    groups_of,
)
from fitting.fit.findings import rules
from fitting.fit.sound import edges_of, laid_over, troubles
from fitting.fit.tack import Part, Tack
from fitting.growth import Subject
from fitting.sources import SOURCES
from fitting.taught import TriedOn, bounds_of
from fitting.tryons import Tried, TryOn
from fitting.units import LengthUnit
from tests.fitting.making_fit import (
    BORN,
    ON,
    make_bit,
    make_bridle,
    make_wearer,
    steady,
)

YOUNG = Subject(horse_type="light", foaled=Foaled(first=BORN, last=BORN))
MAY = date(2026, 5, 3)
FIXED_BIT = Tack(
    name="Eggbutt",
    kind="bit",
    parts=(
        Part(
            part="mouthpiece",
            length_mm=126.0,
            thickness_mm=14.0,
            cheek="eggbutt",
            mouthpiece="double_jointed",
        ),
    ),
)

ALL_OVER = steady(
    mouth_width=120.0,
    head_length=1040.0,
    nose_round=600.0,
    brow=380.0,
    throat_round=900.0,
    heart_girth=1800.0,
    girth_path=1100.0,
    back_length=460.0,
    rug_length=1800.0,
    taken={"back_width_front": ((date(2026, 1, 5), 300.0), (ON, 330.0))},
)


def _straps(*words: str) -> tuple[Part, ...]:
    return tuple(Part(part=word, length_mm=600.0) for word in words)


EVERY_KIND = (
    FIXED_BIT,
    make_bit(127.0, "loose_ring", name="Loose ring", mouthpiece="single_jointed"),
    make_bridle(more=_straps("noseband", "browband", "throatlash")),
    Tack(name="Headcollar", kind="headcollar", parts=_straps("nose", "crown", "jowl")),
    Tack(name="Cavesson", kind="cavesson", parts=_straps("nose", "crown", "jowl")),
    Tack(
        name="Roller",
        kind="roller",
        parts=(Part(part="strap", shortest_mm=1700.0, longest_mm=2000.0),),
    ),
    Tack(name="Girth", kind="girth", parts=_straps("strap")),
    Tack(name="Rug", kind="rug", parts=_straps("back_seam")),
    Tack(name="Saddle", kind="saddle", parts=_straps("panel")),
)
SEEN = (
    TryOn(
        on=date(2026, 1, 5),
        item="Saddle",
        how="worn",
        parts=(Tried(part="panel", seen="sits_right"),),
    ),
    TryOn(
        on=ON,
        item="Headcollar",
        how="worn",
        parts=(Tried(part="nose", seen="sits_right"),),
    ),
)


def change(edge: str, to: float | None, horse: str = "") -> Change:
    written = "" if to is None else write_figure(EDGES[edge], to)
    return Change(
        edge=edge, to=to, by="Jo", on=MAY, why="Thin skin", written=written, horse=horse
    )


def judged(wearer: Wearer, *changes: Change) -> Answer:
    (found,) = fits(replace(wearer, edges=edges_of(changes)), (FIXED_BIT,), (), ON)
    return found.answer


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


def test_every_kind_reads_its_figures_from_those_of_the_horse() -> None:
    """Move one figure of each table; the answer of that kind moves with it."""
    wearer = make_wearer(steady(mouth_width=120.0))
    assert judged(wearer) is Answer.GOOD
    assert judged(wearer, change("bit.fixed.good_to", 4.0)) is Answer.WATCH
    tight = (
        change("bit.fixed.good_to", 4.0),
        change("bit.fixed.no_above", 5.0),
    )
    assert judged(wearer, *tight) is Answer.NO
    thick = change("thickness.horse.good_from", 16.5)
    assert judged(wearer, thick) is Answer.NO
    edges = edges_of([thick])
    assert thickness_window("light", edges).good_from == 16.5


def test_an_answer_says_which_figures_decided_and_who_changed_them() -> None:
    wearer = make_wearer(steady(mouth_width=120.0))
    (found,) = fits(wearer, (FIXED_BIT,), (), ON)
    said = decided_words(found.decided)
    assert said == (
        "both sides together good from 0 mm, up to 10 mm (research);"
        " thickness good from 14 mm, up to 17 mm (research)"
    )
    edges = edges_of([change("bit.fixed.good_to", 8.0)])
    (found,) = fits(replace(wearer, edges=edges), (FIXED_BIT,), (), ON)
    said = decided_words(found.decided)
    assert "good up to 8 mm (yours, changed by Jo on 3 May 2026)" in said
    own = edges_of([], [change("bit.fixed.good_to", 8.0, "Tansy")])
    (found,) = fits(replace(wearer, edges=own), (FIXED_BIT,), (), ON)
    assert "(for Tansy, changed by Jo on 3 May 2026)" in decided_words(found.decided)


def test_a_figure_under_nothing_is_told_as_how_much_shorter() -> None:
    named = (("no_below", -110.0), ("good_from", -60.0), ("good_to", 60.0))
    crown = [Decided(edge=f"strap.headcollar_crown.{n}", value=v) for n, v in named]
    assert decided_words(crown) == (
        "a no when more than 110 mm shorter,"
        " good from 60 mm shorter, up to 60 mm (ours)"
    )


def test_room_for_one_horse_is_told_beside_its_figure() -> None:
    wearer = replace(make_wearer(steady(mouth_width=118.0)), clearances=(("bit", 4.0),))
    (found,) = fits(wearer, (FIXED_BIT,), (), ON)
    said = decided_words(found.decided)
    assert "good from 4 mm, up to 14 mm (research, with 4 mm of room)" in said


def test_what_was_seen_on_the_horse_did_not_go_by_a_figure() -> None:
    seen = TryOn(
        on=ON,
        item="Eggbutt",
        how="worn",
        parts=(Tried(part="mouthpiece", seen="too_short"),),
    )
    wearer = make_wearer(steady(mouth_width=120.0), tryons=(seen,))
    (found,) = fits(wearer, (FIXED_BIT,), (), ON)
    assert (found.answer, found.decided) == (Answer.NO, ())


def test_a_try_on_teaches_by_the_figures_of_the_horse() -> None:
    seen = TryOn(
        on=ON,
        item="Bit",
        how="worn",
        parts=(Tried(part="mouthpiece", seen="sits_right"),),
    )
    bit = replace(make_bit(), name="Bit")
    (ours,) = bounds_of(YOUNG, TriedOn(tryons=(seen,), tack=(bit,)))
    edges = edges_of([change("bit.fixed.good_to", 8.0)])
    (theirs,) = bounds_of(YOUNG, TriedOn(tryons=(seen,), tack=(bit,), edges=edges))
    assert theirs.value == pytest.approx(ours.value + 1.0)
    assert theirs.sigma == pytest.approx(ours.sigma - 1.0)


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


def test_every_figure_listed_is_one_that_a_rule_reads(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    read: set[str] = set()
    value = Edges.value

    def recorded(self: Edges, path: str) -> float:
        read.add(path)
        return value(self, path)

    monkeypatch.setattr(Edges, "value", recorded)
    edges = edges_of([change("roller.spare", 81.0)])  # no window of it is cached
    horses: tuple[tuple[bool, HorseType], ...] = (
        (True, "small_pony"),
        (False, "pony"),
        (True, "light"),
    )
    for grown, horse_type in horses:
        born = BORN if grown else date(2024, 9, 1)
        wearer = replace(
            make_wearer(ALL_OVER, grown=grown, born=born),
            horse_type=horse_type,
            tryons=SEEN,
            edges=edges,
        )
        fits(wearer, EVERY_KIND, (), ON)
        for rule in rules(wearer, EVERY_KIND, (), ON):
            assert isinstance(rule, NoRule) or rule.half_mm > 0
    changeable = {path for path, edge in EDGES.items() if not edge.quoted}
    assert changeable - read == set()
