"""The best bridle made up from what hangs here, case by case."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from fitting.fit import Answer, MadeUp, fits
from fitting.mixing import Room, mix
from tests.fitting.making_fit import (
    HEAD,
    ON,
    make_bit,
    make_wearer,
    steady,
)
from tests.fitting.making_mixed import (
    bridle,
    browband,
    cheekpieces,
    every_part,
    headpiece,
    noseband,
)
from tests.fitting.making_rooms import BROW, MOUTH, make_horse, worn

SNAFFLE = make_bit(127.0, "eggbutt", name="Snaffle")


def test_one_bridle_and_one_bit_make_the_bridle_on_its_worked_hole() -> None:
    # 2 x 230 + 600 = 1060 on hole 1; 1040 - 70 - 10 = 960 wanted; 100/32 + 1 = 4.1
    room = Room(items=(bridle("Hazel", *every_part()), SNAFFLE))
    (best,) = mix(make_horse(), room, ON).best
    assert best.answer is Answer.GOOD
    assert (best.hangs.hole, best.hangs.spare_longer) == (4, 3)
    assert [slot for slot, _ in best.made_up] == [
        "headpiece",
        "cheekpieces",
        "browband",
        "noseband",
        "throatlash",
        "bit",
    ]


def test_what_is_promised_is_what_is_said_once_the_set_is_made() -> None:
    room = Room(items=(bridle("Hazel", *every_part()), SNAFFLE))
    horse = make_horse(sd=9.0)
    (best,) = mix(horse, room, ON).best
    made = MadeUp(name="Made", parts=tuple((c.slot, c.item) for c in best.chosen))
    said = {one.part: one for one in fits(horse, (), (made,), ON)}
    for one in best.chosen:
        kept = said[one.part.part]
        assert (one.finding.answer, one.finding.hole) == (kept.answer, kept.hole)
        assert one.finding.good_until == kept.good_until


def test_cheekpieces_of_another_bridle_are_taken_where_the_own_do_not_reach() -> None:
    short = bridle("Pony", headpiece(), cheekpieces(170.0), browband())
    long = bridle("Full", headpiece(900.0), cheekpieces(230.0), browband(480.0))
    (best, *_) = mix(make_horse(), Room(items=(short, long, SNAFFLE)), ON).best
    assert ("headpiece", "Pony") in best.made_up
    assert ("cheekpieces", "Full") in best.made_up
    assert best.answer is Answer.GOOD


def test_the_ring_of_the_bit_decides_which_cheekpieces_reach() -> None:
    # On hole 1: 2 x 185 + 600 = 970; rings of 70 ask for 960, rings of 40 for 990.
    # On hole 7: 2 x 295 + 600 - 192 = 998.
    short = bridle("Short", headpiece(), cheekpieces(185.0), browband())
    longer = bridle("Longer", cheekpieces(295.0))
    small = make_bit(127.0, "eggbutt", ring_mm=40.0, name="Small rings")
    for bit, lender in ((SNAFFLE, "Short"), (small, "Longer")):
        (best, *_) = mix(make_horse(), Room(items=(short, longer, bit)), ON).best
        assert dict(best.made_up)["cheekpieces"] == lender


def test_of_two_that_are_good_that_which_lasts_longer_is_the_better() -> None:
    soon = bridle("Ash", *every_part(200.0))  # 1000 on hole 1: outgrown first
    late = bridle("Beech", *every_part(235.0))
    bit = make_bit(131.0, "eggbutt", name="Wide snaffle")
    best = mix(make_horse(sd=0.01), Room(items=(soon, late, bit)), ON).best
    assert best[0].items == ("Beech", "Wide snaffle")
    first, second = best[0].good_until, best[1].good_until
    assert first is not None
    assert second is not None
    assert first >= second


def test_of_two_that_last_as_long_the_one_from_fewer_items_is_the_better() -> None:
    ash, beech = bridle("Ash", *every_part()), bridle("Beech", *every_part())
    best = mix(make_horse(), Room(items=(beech, ash, SNAFFLE)), ON).best
    assert [one.items for one in best[:2]] == [("Ash", "Snaffle"), ("Beech", "Snaffle")]
    assert len(best[2].items) == 3


def test_what_another_horse_wears_is_left_to_it_where_another_is_as_good() -> None:
    ash, beech = bridle("Ash", *every_part()), bridle("Beech", *every_part())
    worn_now = frozenset(("Ash", part.part) for part in ash.parts)
    room = Room(items=(ash, beech, SNAFFLE), taken=worn_now)
    best = mix(make_horse(), room, ON).best
    assert best[0].items == ("Beech", "Snaffle")
    assert best[1].items == ("Ash", "Snaffle")
    assert all(one.taken for one in best[1].chosen if one.item.name == "Ash")


def test_what_is_not_measured_is_never_good_and_is_asked_about() -> None:
    bare = bridle("Bare", headpiece(), cheekpieces(), browband(None), noseband(None))
    made = mix(make_horse(), Room(items=(bare, SNAFFLE)), ON)
    assert made.best[0].answer is Answer.NOT_KNOWN
    assert {(u.item, u.finding.part) for u in made.unknown} == {
        ("Bare", "browband"),
        ("Bare", "noseband"),
    }
    assert [one.slot for one in made.left_off] == ["noseband", "throatlash"]
    assert [one.why for one in made.left_off] == ["none_fits", "none_hangs"]


def test_a_loose_headpiece_without_a_length_is_asked_about() -> None:
    loose = bridle("Loose", headpiece(None))
    made = mix(make_horse(), Room(items=(loose, SNAFFLE)), ON)
    assert [u.finding.ask for u in made.unknown] == ["length of the headpiece"]
    assert [one.slot for one in made.lacking] == ["cheekpieces", "browband"]


def test_a_known_part_is_better_than_an_unknown_one_that_may_be_good() -> None:
    snug = bridle("Snug", headpiece(), cheekpieces(), browband(365.0))  # only just
    unknown = bridle("Unknown", browband(None))
    best = mix(make_horse(), Room(items=(snug, unknown, SNAFFLE)), ON).best
    assert [one.answer for one in best] == [Answer.WATCH, Answer.NOT_KNOWN]


def test_no_part_that_is_a_no_goes_into_a_bridle() -> None:
    narrow = make_bit(100.0, name="Narrow")
    made = mix(make_horse(), Room(items=(bridle("Hazel", *every_part()), narrow)), ON)
    assert all(slot != "bit" for one in made.best for slot, _ in one.made_up)
    assert [(one.slot, one.why) for one in made.lacking] == [("bit", "none_fits")]


def test_nothing_at_hand_makes_nothing_and_says_what_is_lacking() -> None:
    made = mix(make_horse(), Room(items=()), ON)
    assert made.best == ()
    assert {one.slot for one in made.lacking} == {
        "headpiece",
        "cheekpieces",
        "browband",
        "bit",
    }


def test_a_bridle_without_a_bit_is_hung_for_a_usual_ring() -> None:
    room = Room(items=(bridle("Hazel", *every_part()), SNAFFLE))
    (best,) = mix(make_horse(), room, ON, bit=False).best
    assert all(slot != "bit" for slot, _ in best.made_up)
    assert "usual ring of 65 mm" in best.hangs.why
    assert mix(make_horse(), room, ON, bit=False).lacking == ()


def test_straps_of_different_width_are_told() -> None:
    wide = bridle("Wide", headpiece(strap_width_mm=19.0), browband())
    narrow = bridle("Narrow", cheekpieces(width_mm=15.9))
    (best,) = mix(make_horse(), Room(items=(wide, narrow, SNAFFLE)), ON).best
    assert best.strap_widths == (19.0, 15.9)
    same = replace(narrow, parts=(cheekpieces(width_mm=18.5),))
    (best,) = mix(make_horse(), Room(items=(wide, same, SNAFFLE)), ON).best
    assert best.strap_widths is None


def test_what_lasts_under_eight_weeks_is_not_for_long() -> None:
    def lasting(a_day: float) -> bool:
        growth = steady(
            head_length=HEAD,
            brow=BROW,
            mouth_width=MOUTH,
            a_day={"brow": a_day},
        )
        room = Room(
            items=(bridle("Hazel", headpiece(), cheekpieces(), browband()), SNAFFLE)
        )
        (best,) = mix(make_wearer(growth), room, ON).best
        assert best.first_outgrown == ("browband",)
        return best.is_not_for_long(ON)

    # A browband of 390 is good to a brow of 380, forgiven by a twentieth.
    assert lasting(20.05 / 54.5)
    assert not lasting(20.05 / 55.5)


def test_a_bridle_is_good_no_longer_than_the_part_that_ends_first() -> None:
    growth = steady(
        head_length=HEAD,
        brow=BROW,
        mouth_width=MOUTH,
        a_day={"brow": 0.3, "mouth_width": 0.1},
    )
    hazel = bridle("Hazel", headpiece(), cheekpieces(), browband())
    (best,) = mix(make_wearer(growth), Room(items=(hazel, SNAFFLE)), ON).best
    ends = {one.slot: one.finding.good_until for one in best.chosen}
    # the mouth has 5 mm to go to 127, at 0.1 a day; the brow 20 to 380, at 0.3
    assert ends["bit"] == ON + timedelta(days=51)
    assert ends["browband"] == ON + timedelta(days=67)
    assert best.good_until == ends["bit"]
    assert best.first_outgrown == ("bit",)


def test_only_bridles_lend_straps_and_only_bits_a_mouthpiece() -> None:
    hazel = bridle("Hazel", *every_part(), SNAFFLE.parts[0])
    slip = replace(bridle("Slip", *every_part()), kind="headcollar")
    made = mix(make_horse(), Room(items=(hazel, slip)), ON)
    assert [(one.slot, one.why) for one in made.lacking] == [("bit", "none_hangs")]
    assert {item for one in made.best for item in one.items} == {"Hazel"}
    alone = mix(make_horse(), Room(items=(slip, SNAFFLE)), ON)
    assert alone.best == ()


def test_a_set_speaks_only_of_the_parts_it_has_of_an_item() -> None:
    hazel, ash = bridle("Hazel", *every_part()), bridle("Ash", *every_part())
    made = MadeUp(name="Mixed", parts=(("browband", hazel), ("noseband", ash)))
    horse = replace(make_horse(), tryons=(worn("Mixed", "noseband", "too_short"),))
    found = fits(horse, (hazel, ash), (made,), ON)
    said = {(one.item, one.part): one.answer for one in found}
    assert said["Ash", "noseband"] is Answer.NO
    assert said["Mixed", "noseband"] is Answer.NO
    assert said["Hazel", "noseband"] is Answer.GOOD


def test_a_noseband_seen_in_one_set_speaks_for_it_in_another() -> None:
    hazel = bridle("Hazel", *every_part())
    other = MadeUp(name="Old set", parts=(("noseband", hazel),))
    room = Room(items=(hazel, SNAFFLE), made_up=(other,))
    horse = make_horse(unmeasured=("nose_round",))
    assert mix(horse, room, ON).left_off != ()
    seen = replace(horse, tryons=(worn("Old set", "noseband", "sits_right", 2),))
    made = mix(seen, room, ON)
    assert made.left_off == ()
    assert ("noseband", "Hazel") in made.best[0].made_up


def test_a_hole_seen_in_a_set_speaks_for_what_hangs_alike_and_for_no_other() -> None:
    hazel = bridle("Hazel", *every_part())
    hung = (("headpiece", hazel), ("cheekpieces", hazel), ("bit", SNAFFLE))
    other = make_bit(127.0, "eggbutt", name="Other bit")
    room = Room(
        items=(hazel, SNAFFLE, other), made_up=(MadeUp(name="Old set", parts=hung),)
    )
    horse = make_horse(unmeasured=("head_length",))
    seen = replace(horse, tryons=(worn("Old set", "cheekpieces", "sits_right", 3),))
    best = mix(seen, room, ON).best
    assert dict(best[0].made_up)["bit"] == "Snaffle"
    assert best[0].hangs.hole == 3
    assert best[1].answer is Answer.NOT_KNOWN


def test_a_bridle_that_may_not_reach_an_unsure_head_is_only_just_and_not_left_out() -> (
    None
):
    # On hole 1 it is for a head of 1022, half a hole more each side reaches 1038.
    short = bridle("Short", headpiece(), cheekpieces(171.0), browband())
    # On hole 7 for 1058, half a hole less each side reaches down to 1042.
    long = bridle("Long", headpiece(), cheekpieces(285.0), browband())
    for only in (short, long):
        (best,) = mix(make_horse(sd=6.0), Room(items=(only, SNAFFLE)), ON).best
        assert best.answer is Answer.WATCH
        assert mix(make_horse(sd=0.01), Room(items=(only, SNAFFLE)), ON).best == ()


def test_a_bridle_that_only_just_hangs_is_better_than_one_not_measured() -> None:
    # Holes 54 mm apart, at 986 and 932: 960 lies 13 mm a side from the nearer.
    between = bridle("Z", headpiece(spacing_mm=27.0), cheekpieces(220.0), browband())
    unknown = bridle("A", headpiece(None), cheekpieces(220.0), browband())
    best = mix(make_horse(sd=0.01), Room(items=(unknown, between, SNAFFLE)), ON).best
    assert (best[0].answer, best[0].items) == (Answer.WATCH, ("Z", "Snaffle"))
