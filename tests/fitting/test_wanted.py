"""What to buy or borrow: which sizes, by when, and nothing from the unknown."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitting.fit import Answer, Part, Tack, Wearer, fits
from fitting.fit.tack import Cheek
from fitting.tryons import Tried, TryOn
from fitting.wanted import GOT_STANDS_DAYS, Got, Need, Peg, Range, Wanted, things_of
from fitting.wanted.sizing import Sort, good_sizes, thick_sizes
from tests.fitting.making_fit import (
    ON,
    make_bit,
    make_bridle,
    make_set,
    spread,
    steady,
)
from tests.fitting.making_wanted import (
    NEEDED,
    growing,
    need,
    wanted_for,
    wearer_of,
)

MOUTH = {"mouth_width": 118.0}
FREE = Peg(item="Steel snaffle")


def one(found: tuple[Wanted, ...]) -> Wanted:
    (wanted,) = found
    return wanted


def answer_of(sort: Sort, size_mm: float, wearer: Wearer) -> Answer:
    """Judge an item of one exact size as any item on a peg is judged."""
    part = Part(part=sort.part, length_mm=size_mm, cheek=sort.cheek, thickness_mm=15.0)
    if sort.part == "whole":
        part = Part(part="whole", length_mm=size_mm, holes=1, hole=1, spacing_mm=16.0)
    if sort.kind == "roller":
        part = Part(part="strap", shortest_mm=1.0, longest_mm=size_mm)
    item = Tack(name="Any", kind=sort.kind, parts=(part,))
    found = fits(wearer, (item,), (), ON)
    return next(f for f in found if f.part == sort.part).answer


SORTS = [
    (Sort(kind="bit", part="mouthpiece"), "mouth_width", 118.0),
    (Sort(kind="bit", part="mouthpiece", cheek="loose_ring"), "mouth_width", 118.0),
    (Sort(kind="bridle", part="whole"), "head_length", 1040.0),
    (Sort(kind="bridle", part="browband"), "brow", 380.0),
    (Sort(kind="bridle", part="noseband"), "nose_round", 600.0),
    (Sort(kind="bridle", part="throatlash"), "throat_round", 900.0),
    (Sort(kind="headcollar", part="nose"), "nose_round", 600.0),
    (Sort(kind="headcollar", part="crown"), "head_length", 1040.0),
    (Sort(kind="cavesson", part="jowl"), "throat_round", 900.0),
    (Sort(kind="roller", part="strap"), "heart_girth", 1700.0),
    (Sort(kind="girth", part="strap"), "girth_path", 1200.0),
    (Sort(kind="rug", part="back_seam"), "rug_length", 1750.0),
]


@pytest.mark.parametrize(("sort", "measure", "body"), SORTS)
def test_every_size_in_the_range_is_good_and_none_outside_it(
    sort: Sort, measure: str, body: float
) -> None:
    wearer = make_grown(measure, body)
    found = good_sizes(sort, spread(body, 0.01), wearer, ON)
    assert found is not None
    assert found.from_mm is not None
    tried = [found.from_mm - 40 + step / 2 for step in range(300)]
    judged = {size: answer_of(sort, size, wearer) for size in tried}
    edges = [end for end in (found.from_mm, found.to_mm) if end is not None]
    for size, answer in judged.items():
        if all(abs(size - edge) > 0.2 for edge in edges):
            assert (answer is Answer.GOOD) == found.has(size), size


def make_grown(measure: str, body: float) -> Wearer:
    return wearer_of(growing({measure: body}), grown=True)


@settings(max_examples=12, deadline=None)
@given(
    mouth=st.floats(90, 150),
    sd=st.floats(0.05, 3.0),
    cheek=st.sampled_from(["eggbutt", "loose_ring"]),
)
def test_the_range_of_a_bit_is_that_of_the_judge_under_any_spread(
    mouth: float, sd: float, cheek: Cheek
) -> None:
    wearer = wearer_of(steady(mouth_width=mouth, sd=sd), grown=True)
    sort = Sort(kind="bit", part="mouthpiece", cheek=cheek)
    found = good_sizes(sort, spread(mouth, sd), wearer, ON)
    for step in range(0, 80, 3):
        size = mouth - 10 + step / 2
        good = answer_of(sort, size, wearer) is Answer.GOOD
        if found is None:
            assert not good
        elif (
            min(abs(size - (found.from_mm or 0)), abs(size - (found.to_mm or 0))) > 0.2
        ):
            assert good == found.has(size)


def test_a_panel_may_be_any_length_up_to_the_back() -> None:
    wearer = make_grown("back_length", 480.0)
    sort = Sort(kind="saddle", part="panel")
    found = good_sizes(sort, spread(480.0, 0.01), wearer, ON)
    assert found is not None
    assert found.from_mm is None
    assert found.to_mm == pytest.approx(480.0, abs=0.2)


def test_a_bit_is_wanted_three_weeks_before_its_step_in_the_sizes_it_comes_in() -> None:
    wanted = one(wanted_for(wearer_of(growing(MOUTH)), need("bit")).wanted)
    assert wanted.by == NEEDED - timedelta(days=21)
    assert wanted.good.from_mm == pytest.approx(121.0, abs=0.2)  # growing: 3 to 10 over
    assert wanted.good.to_mm == pytest.approx(128.0, abs=0.2)
    sizes = [(round(step.mm, 2), step.unit) for step in wanted.steps]
    assert sizes == [(127.0, "in"), (125.0, "mm")]


def test_what_is_needed_within_three_weeks_is_wanted_today() -> None:
    soon = need("bit", ON + timedelta(days=5))
    assert one(wanted_for(wearer_of(growing(MOUTH)), soon).wanted).by == ON


def test_nothing_is_wanted_of_what_was_never_measured() -> None:
    wants = wanted_for(wearer_of(growing({})), need("bit"))
    assert wants.wanted == ()
    (first,) = wants.first
    assert (first.measure, first.ask) == ("mouth_width", "Measure mouth width first.")


def test_nothing_is_wanted_of_what_is_only_supposed_from_the_type() -> None:
    supposed = steady(mouth_width=118.0, unmeasured=("mouth_width",))
    wants = wanted_for(wearer_of(supposed), need("bit"))
    assert (wants.wanted, len(wants.first)) == ((), 1)


def test_no_size_is_named_while_the_body_is_not_known_closely() -> None:
    wants = wanted_for(wearer_of(growing(MOUTH, sd=9.0)), need("bit"))
    assert wants.wanted == ()
    assert "again" in wants.first[0].ask


def test_what_is_wanted_is_gone_once_something_good_hangs_here() -> None:
    wearer = wearer_of(growing(MOUTH))
    small, right = make_bit(118.0), make_bit(125.0)
    assert wanted_for(wearer, need("bit"), tack=(small,)).wanted
    assert not wanted_for(wearer, need("bit"), tack=(right,)).wanted


def test_what_fits_today_is_wanted_for_the_day_it_does_not() -> None:
    wearer = wearer_of(growing(MOUTH, a_day={"mouth_width": 0.1}))
    bit = make_bit(125.0)
    soon, late = need("bit", ON + timedelta(days=10)), need("bit", NEEDED)
    assert not wanted_for(wearer, soon, tack=(bit,)).wanted
    wanted = one(wanted_for(wearer, soon, late, tack=(bit,)).wanted)
    assert wanted.needed_on == NEEDED
    assert wanted.body_mm == pytest.approx(124.0, abs=0.1)


def test_what_is_too_large_today_is_not_wanted_where_she_grows_into_it() -> None:
    wearer = wearer_of(growing(MOUTH, a_day={"mouth_width": 0.1}))
    assert not wanted_for(wearer, need("bit"), tack=(make_bit(132.0),)).wanted


def test_the_size_that_lasts_longest_is_the_largest_that_is_good() -> None:
    growth = growing({"mouth_width": 115.0}, a_day={"mouth_width": 0.02})
    wanted = one(wanted_for(wearer_of(growth), need("bit")).wanted)
    steps = [step for step in wanted.steps if step.until]
    assert [round(step.mm) for step in steps] == [121, 120, 125]
    longest = wanted.longest
    assert longest is not None
    assert longest.mm == 125.0
    # 125 mm is good until the mouth has come to 122, at 0.02 mm a day from 115.
    assert longest.until is not None
    assert abs((longest.until - ON).days - 352) <= 4


def test_the_whole_range_is_told_to_last_as_long_as_its_largest_size() -> None:
    growth = growing({"mouth_width": 115.0}, a_day={"mouth_width": 0.02})
    wanted = one(wanted_for(wearer_of(growth), need("bit")).wanted)
    # in 60 days the mouth is 116.2: to 126.2 is good, 126.2 until the mouth is 123.2
    assert wanted.until is not None
    assert abs((wanted.until - ON).days - (123.2 - 115) / 0.02) <= 6


def test_a_size_that_stays_good_as_far_as_is_looked_is_the_one_that_lasts() -> None:
    wanted = one(wanted_for(wearer_of(growing(MOUTH)), need("bit")).wanted)
    assert wanted.longest is not None
    assert (wanted.longest.until, wanted.longest.mm) == (None, 125.0)  # 127 does too
    ends = replace(wanted.steps[0], mm=120.0, until=NEEDED)
    lasts = replace(wanted, steps=(ends, *wanted.steps)).longest
    assert lasts is not None
    assert lasts.until is None


def test_no_size_is_said_to_last_longest_where_two_last_alike() -> None:
    wanted = one(wanted_for(wearer_of(growing(MOUTH)), need("bit")).wanted)
    ends, soon = NEEDED + timedelta(days=90), NEEDED + timedelta(days=30)
    step = wanted.steps[0]
    short, long = replace(step, mm=120.0, until=soon), replace(step, until=ends)
    alike = replace(step, mm=127.0, until=ends)
    assert replace(wanted, steps=(short, long)).outlasting == long
    assert replace(wanted, steps=(short, long, alike)).outlasting is None
    assert replace(wanted, steps=(long,)).outlasting is None
    assert replace(wanted, steps=()).outlasting is None


def test_a_good_noseband_alone_is_no_bridle() -> None:
    growth = growing({"head_length": 1040.0, "nose_round": 600.0})
    part = Part(part="noseband", length_mm=640.0)
    loose = Tack(name="Odd noseband", kind="bridle", parts=(part,))
    wants = wanted_for(wearer_of(growth), need("bridle"), tack=(loose,))
    assert "whole" in {wanted.part for wanted in wants.wanted}


def test_a_size_is_kept_where_the_growth_to_come_is_less_than_a_step() -> None:
    little = growing(MOUTH, ends={"mouth_width": 121.0})
    much = growing(MOUTH, ends={"mouth_width": 126.0})
    assert one(wanted_for(wearer_of(little), need("bit")).wanted).keep
    assert not one(wanted_for(wearer_of(much), need("bit")).wanted).keep
    unsure = growing(MOUTH, ends={"mouth_width": 121.0}, unsure_mm2=4.0)
    assert not one(wanted_for(wearer_of(unsure), need("bit")).wanted).keep


def test_a_size_that_rests_on_an_old_measurement_says_so() -> None:
    wearer = wearer_of(growing(MOUTH))
    old = replace(wearer, standing=(("mouth_width", "stale"),))
    assert not one(wanted_for(wearer, need("bit")).wanted).stale
    assert one(wanted_for(old, need("bit")).wanted).stale


@pytest.mark.parametrize(("grown_mm", "keep"), [(1090.0, True), (1110.0, False)])
def test_a_bridle_is_kept_where_two_holes_let_out_for_all_growth(
    grown_mm: float, *, keep: bool
) -> None:
    growth = growing({"head_length": 1040.0}, ends={"head_length": grown_mm})
    found = wanted_for(wearer_of(growth), need("bridle"))
    whole = next(w for w in found.wanted if w.part == "whole")
    assert whole.keep is keep


def test_a_bridle_without_a_good_browband_wants_that_alone() -> None:
    growth = growing({"head_length": 1040.0, "brow": 380.0})
    short = make_bridle(more=(Part(part="browband", length_mm=370.0),))
    wanted = one(wanted_for(wearer_of(growth), need("bridle"), tack=(short,)).wanted)
    assert wanted.part == "browband"
    assert wanted.good.from_mm == pytest.approx(390.0, abs=0.2)
    assert [round(step.mm, 1) for step in wanted.steps] == [393.7, 406.4, 419.1]


def test_a_browband_that_hangs_on_another_bridle_is_not_wanted() -> None:
    growth = growing({"head_length": 1040.0, "brow": 380.0})
    short = make_bridle(more=(Part(part="browband", length_mm=370.0),))
    band = Part(part="browband", length_mm=400.0)
    other = Tack(name="Odd browband", kind="bridle", parts=(band,))
    assert not wanted_for(wearer_of(growth), need("bridle"), tack=(short, other)).wanted


def test_an_item_of_which_nothing_is_written_down_may_do() -> None:
    wants = wanted_for(
        wearer_of(growing(MOUTH)), need("bit"), tack=(make_bit(length_mm=None),)
    )
    assert wants.wanted == ()
    assert wants.first[0].ask.startswith("Steel snaffle may do.")


def test_no_length_alone_makes_a_saddle_do_for_the_day_it_is_needed() -> None:
    growth = growing({"back_length": 460.0})
    saddle = Tack(
        name="Brown saddle",
        kind="saddle",
        parts=(Part(part="panel", length_mm=420.0),),
    )
    wants = wanted_for(wearer_of(growth), need("saddle"), tack=(saddle,))
    assert wants.wanted == ()
    (first,) = wants.first
    assert first.ask == "Have a saddle fitter see Brown saddle on first: it may do."
    seen = TryOn(on=ON, item=saddle.name, how="worn", answer="good")
    wearer = wearer_of(growth, tryons=(seen,))
    soon = need("saddle", ON + timedelta(days=56))  # so long the check stands
    found = wanted_for(wearer, soon, tack=(saddle,))
    assert (found.wanted, found.first) == ((), ())
    over = need("saddle", ON + timedelta(days=57))
    assert wanted_for(wearer, over, tack=(saddle,)).first
    long = replace(saddle, parts=(Part(part="panel", length_mm=500.0),))
    wants = wanted_for(wearer_of(growth), need("saddle"), tack=(long,))
    assert one(wants.wanted).good.to_mm == pytest.approx(460, abs=0.2)


def test_what_was_seen_to_sit_badly_does_not_do_whatever_its_size() -> None:
    rubs = TryOn(
        on=ON,
        item="Steel snaffle",
        how="worn",
        parts=(Tried(part="mouthpiece", seen="rubs"),),
    )
    wearer = wearer_of(growing(MOUTH), tryons=(rubs,))
    assert wanted_for(wearer, need("bit"), tack=(make_bit(125.0),)).wanted


def test_what_is_somebody_elses_is_wanted_and_named_with_its_lender() -> None:
    bit = make_bit(125.0)
    theirs = Peg(item=bit.name, owner="Old Fennel")
    wants = wanted_for(
        wearer_of(growing(MOUTH)), need("bit"), tack=(bit,), pegs=(theirs,)
    )
    (offer,) = one(wants.wanted).borrow
    assert (offer.item, offer.owner) == (bit.name, "Old Fennel")


def test_of_what_could_be_lent_that_which_is_good_for_longest_stands_first() -> None:
    growth = growing(MOUTH, {"mouth_width": 0.01})
    bits = tuple(make_bit(mm, name=f"{mm} mm") for mm in (123.0, 127.0, 125.0))
    pegs = tuple(Peg(item=bit.name, owner="Old Fennel") for bit in bits)
    wants = wanted_for(wearer_of(growth), need("bit"), tack=bits, pegs=pegs)
    offered = one(wants.wanted).borrow
    assert [offer.item for offer in offered] == ["127.0 mm", "125.0 mm", "123.0 mm"]


def test_a_bridle_is_offered_on_the_hole_that_is_good_that_day() -> None:
    growth = growing({"head_length": 1040.0}, {"head_length": 0.6})
    bridle = make_bridle()
    theirs = Peg(item=bridle.name, owner="Old Fennel")
    found = wanted_for(
        wearer_of(growth), need("bridle"), tack=(bridle,), pegs=(theirs,)
    )
    (offer,) = next(w for w in found.wanted if w.part == "whole").borrow
    assert offer.hole == 3  # today on hole 4, in 60 days for a head of 1076


@pytest.mark.parametrize(("longest", "offered"), [(900.0, True), (600.0, False)])
def test_what_is_not_taken_apart_is_lent_only_where_all_of_it_is_good(
    longest: float, *, offered: bool
) -> None:
    nose = Part(part="nose", shortest_mm=540.0, longest_mm=660.0)
    crown = Part(part="crown", shortest_mm=500.0, longest_mm=longest)
    theirs = Tack(name="Red headcollar", kind="headcollar", parts=(nose, crown))
    growth = growing({"nose_round": 560.0, "head_length": 900.0})
    found = wanted_for(
        wearer_of(growth, grown=True),
        need("headcollar"),
        tack=(theirs,),
        pegs=(Peg(item=theirs.name, owner="Jo"),),
    ).wanted
    assert {one.part for one in found} == {"nose", "crown"}
    assert all(bool(one.borrow) is offered for one in found)


@pytest.mark.parametrize(
    ("peg", "offered"),
    [
        (Peg(item="Steel snaffle", lent_to="Bramling"), False),
        (Peg(item="Steel snaffle", lent_to="Bramling", back_by=NEEDED), False),
        (
            Peg(
                item="Steel snaffle",
                owner="Sam",
                lent_to="Bramling",
                back_by=NEEDED - timedelta(days=1),
            ),
            True,
        ),
    ],
)
def test_what_is_lent_elsewhere_on_that_day_is_not_offered(
    peg: Peg, *, offered: bool
) -> None:
    wants = wanted_for(
        wearer_of(growing(MOUTH)), need("bit"), tack=(make_bit(125.0),), pegs=(peg,)
    )
    assert bool(one(wants.wanted).borrow) is offered


def test_a_set_of_which_one_part_is_lent_elsewhere_does_not_do() -> None:
    growth = growing({**MOUTH, "head_length": 1040.0})
    made = make_set(make_bridle(), make_bit(125.0))
    hangs = make_bridle(), make_bit(125.0)
    bridle = Peg(item="Hazel bridle")
    away = Peg(item="Steel snaffle", lent_to="Bramling")
    here = Peg(item="Steel snaffle")
    for bit, wanted in ((here, False), (away, True)):
        wants = wanted_for(
            wearer_of(growth),
            need("bit"),
            tack=hangs,
            made_up=(made,),
            pegs=(bridle, bit),
        )
        assert bool(wants.wanted) is wanted


@pytest.mark.parametrize(
    ("owner", "back_by", "wanted", "offered"),
    [
        ("", ON - timedelta(days=1), True, False),
        ("Sam", ON - timedelta(days=1), True, False),
        ("", ON, False, False),  # due back today: here by then
        ("Sam", ON, True, True),
    ],
)
def test_what_another_horse_should_have_given_back_is_still_away(
    owner: str, back_by: date, *, wanted: bool, offered: bool
) -> None:
    peg = Peg(item="Steel snaffle", owner=owner, lent_to="Bramling", back_by=back_by)
    wants = wanted_for(
        wearer_of(growing(MOUTH)), need("bit"), tack=(make_bit(125.0),), pegs=(peg,)
    )
    assert bool(wants.wanted) is wanted
    assert any(one.borrow for one in wants.wanted) is offered


@pytest.mark.parametrize(
    ("back_by", "wanted"),
    [
        (None, False),
        (NEEDED, False),
        (NEEDED - timedelta(days=1), True),
        (ON - timedelta(days=1), True),  # hers no more, if not given back yet
    ],
)
def test_what_is_lent_to_her_counts_as_hers_until_it_goes_back(
    back_by: date | None, *, wanted: bool
) -> None:
    peg = Peg(item="Steel snaffle", owner="Sam", lent_to="Teasel", back_by=back_by)
    wants = wanted_for(
        wearer_of(growing(MOUTH)), need("bit"), tack=(make_bit(125.0),), pegs=(peg,)
    )
    assert bool(wants.wanted) is wanted


def test_each_part_is_wanted_once_for_the_first_step_that_needs_it() -> None:
    later = Need(kind="bit", on=NEEDED + timedelta(days=40), stage_name="Later")
    wants = wanted_for(wearer_of(growing(MOUTH)), later, need("bit"))
    assert one(wants.wanted).stage_name == "A step"


def test_nothing_is_wanted_for_steps_more_than_a_year_ahead() -> None:
    far = need("bit", ON + timedelta(days=366))
    assert not wanted_for(wearer_of(growing(MOUTH)), far).wanted


@pytest.mark.parametrize(("days", "ticked"), [(0, True), (90, True), (91, False)])
def test_a_tick_counts_for_ninety_days(days: int, *, ticked: bool) -> None:
    got = Got(kind="bit", part="mouthpiece", on=ON - timedelta(days=days))
    wants = wanted_for(wearer_of(growing(MOUTH)), need("bit"), got=(got,))
    assert GOT_STANDS_DAYS == 90
    assert (one(wants.wanted).got_on is not None) is ticked


def test_a_tick_of_another_part_ticks_nothing() -> None:
    got = Got(kind="bridle", part="browband", on=ON)
    wants = wanted_for(wearer_of(growing(MOUTH)), need("bit"), got=(got,))
    assert one(wants.wanted).got_on is None


def test_a_loose_ring_is_wanted_longer_than_a_fixed_cheek() -> None:
    wanted = one(wanted_for(wearer_of(growing(MOUTH)), need("bit")).wanted)
    assert wanted.loose is not None
    assert wanted.loose.from_mm == pytest.approx(124.0, abs=0.2)
    assert wanted.thick == Range(from_mm=14.0, to_mm=17.0)


def test_no_thickness_is_named_that_would_not_be_good_in_an_unsure_mouth() -> None:
    sizes = {**MOUTH, "jaw_gap": 52.0, "tongue_thickness": 36.0}
    wearer = wearer_of(growing(sizes, sd=1.0), grown=True)
    thick = thick_sizes(wearer, ON).to_mm
    assert thick is not None
    assert thick < 16  # the middle of the room
    for mm, good in ((thick, True), (thick + 0.2, False)):
        (found,) = fits(wearer, (make_bit(123.0, thickness_mm=mm),), (), ON)
        assert (found.answer is Answer.GOOD) is good


def test_a_measured_mouth_says_how_thick_a_bit_may_be() -> None:
    sizes = {**MOUTH, "jaw_gap": 50.0, "tongue_thickness": 38.0}
    wanted = one(wanted_for(wearer_of(growing(sizes)), need("bit")).wanted)
    assert wanted.thick is not None
    assert wanted.thick.to_mm == pytest.approx(12.0, abs=0.1)
    assert wanted.thick.from_mm == wanted.thick.to_mm  # the usual 14 would not go in


def test_a_bridle_is_one_thing_with_its_straps_and_a_browband_one_by_itself() -> None:
    growth = growing({"head_length": 1040.0, "brow": 380.0, "nose_round": 600.0})
    whole = wanted_for(wearer_of(growth), need("bridle")).wanted
    (thing,) = things_of(whole)
    assert (thing.with_article, len(thing.wanted)) == ("a bridle", 3)
    short = make_bridle(more=(Part(part="browband", length_mm=370.0),))
    band = wanted_for(wearer_of(growth), need("bridle"), tack=(short,)).wanted
    (alone,) = things_of(band)
    assert (alone.words, alone.part) == ("browband", "browband")


def test_a_thing_is_got_once_all_its_parts_are() -> None:
    growth = growing({"head_length": 1040.0, "brow": 380.0})
    one_strap = Got(kind="bridle", part="browband", on=ON)
    all_of_it = Got(kind="bridle", part="", on=ON)
    for got, day in ((one_strap, None), (all_of_it, ON)):
        found = wanted_for(wearer_of(growth), need("bridle"), got=(got,))
        (thing,) = things_of(found.wanted)
        assert thing.got_on == day
