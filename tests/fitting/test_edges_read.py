"""Every kind of tack reads its figures from the horse's own, and says which decided."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from fitting.body import HorseType
from fitting.fit import Answer, Wearer, fits
from fitting.fit.answers import NoRule
from fitting.fit.clearances import thickness_window
from fitting.fit.edge_words import decided_words
from fitting.fit.edges import EDGES, Change, Decided, Edges
from fitting.fit.findings import rules
from fitting.fit.sound import edges_of
from fitting.fit.tack import Part, Tack
from fitting.taught import TriedOn, bounds_of
from fitting.tryons import Tried, TryOn
from tests.fitting.making_edges import change
from tests.fitting.making_fit import (
    BORN,
    ON,
    YOUNG,
    make_bit,
    make_bridle,
    make_wearer,
    steady,
)

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


def judged(wearer: Wearer, *changes: Change) -> Answer:
    (found,) = fits(replace(wearer, edges=edges_of(changes)), (FIXED_BIT,), (), ON)
    return found.answer


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
