"""What is wanted for the steps ahead and for what is worn: list, diary, JSON."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from fitting.age import read_foaled
from fitting.fit import Part, Tack
from fitting.readings import Units
from fitting.tryons import Tried, TryOn
from fitting.wanted import Got, Wanted
from starting.outlook import HorseFacts, Outlook, look_at_yard
from starting.outlook.contract import contract_of
from starting.outlook.saying import say_outlook
from tests.starting.making_outlook import (
    BEFORE_THE_BRIDLE,
    TODAY,
    established,
    horse_facts,
    measured,
    yard_facts,
)


def young(**fields: Any) -> HorseFacts:
    """Return a pony ready for its first bridle, measured this week."""
    lately = TODAY - timedelta(days=3)
    fields.setdefault(
        "measured",
        (
            measured("mouth_width", lately, 112.0, "gauge"),
            measured("head_length", lately, 900.0, "tape"),
            measured("nose_round", lately, 540.0, "tape"),
            measured("brow", lately, 350.0, "tape"),
        ),
    )
    fields.setdefault("records", established(BEFORE_THE_BRIDLE, date(2026, 11, 1)))
    return horse_facts(**fields)


def look(horse: HorseFacts, **fields: Any) -> Outlook:
    (found,) = look_at_yard(yard_facts(horse, **fields), TODAY)
    return found


def wanted_of(outlook: Outlook, part: str) -> Wanted:
    return next(w for w in outlook.wants.wanted if w.part == part)


RIGHT = Tack(
    name="Small eggbutt",
    kind="bit",
    parts=(
        Part(part="mouthpiece", length_mm=119.0, cheek="eggbutt", thickness_mm=14.0),
    ),
)
COLLAR = Tack(
    name="Blue headcollar",
    kind="headcollar",
    parts=(Part(part="nose", shortest_mm=520.0, longest_mm=590.0),),
)


def test_a_step_ahead_wants_what_none_here_is_good_for() -> None:
    outlook = look(young())
    bridle, bit = wanted_of(outlook, "whole"), wanted_of(outlook, "mouthpiece")
    assert bridle.stage == "bridle"
    first = outlook.stage("mouthing")
    assert first is not None
    assert (bit.stage, bit.needed_on) == ("mouthing", first.start)


def test_each_thing_wanted_stands_in_the_diary_and_leads_to_the_list() -> None:
    outlook = look(young())
    gets = {e.key: e for e in outlook.entries if e.kind == "get"}
    assert set(gets) == {"tansy/get/bit", "tansy/get/bridle", "tansy/get/cavesson"}
    entry = gets["tansy/get/bit"]
    assert entry.title == "Tansy: get a bit"
    assert entry.on == wanted_of(outlook, "mouthpiece").by
    assert entry.path == "/sallow-end/horses/tansy/to-get/"
    assert entry.text.startswith("Mouthing is planned for")
    assert "smooth and plain" in entry.text


def test_what_was_got_leaves_the_diary_and_the_json_and_stays_on_the_list() -> None:
    got = Got(kind="bit", part="mouthpiece", on=TODAY)
    outlook = look(young(got=(got,)))
    assert wanted_of(outlook, "mouthpiece").got_on == TODAY
    assert "tansy/get/bit" not in {e.key for e in outlook.entries}
    listed = contract_of(outlook, str)["wanted"]
    assert "mouthpiece" not in {one["part"] for one in listed}


def test_the_json_says_sizes_in_mm_and_who_can_lend() -> None:
    outlook = look(young())
    one = next(
        w for w in contract_of(outlook, str)["wanted"] if w["part"] == "mouthpiece"
    )
    keys = {"stage", "kind", "part", "from", "to", "by", "keep", "borrow"}
    assert set(one) == keys
    assert 113 < one["from"] < one["to"] < 125
    assert one["borrow"] == []


def test_the_outlook_said_in_words_says_what_to_get_and_in_which_sizes() -> None:
    said = say_outlook(look(young()), Units(length="mm"))
    lines = [line.strip() for line in said.splitlines()]
    (bit,) = [line for line in lines if "a bit. Length between the cheeks" in line]
    assert bit.startswith("by 25 Nov 2026")
    asked = say_outlook(look(young(measured=())), Units())
    assert "Measure mouth width first." in asked


def test_an_item_that_is_good_ends_the_want() -> None:
    outlook = look(young(), tack=(RIGHT,))
    assert "mouthpiece" not in {w.part for w in outlook.wants.wanted}


def test_nothing_is_wanted_of_a_horse_that_was_never_measured() -> None:
    outlook = look(young(measured=()))
    assert outlook.wants.wanted == ()
    asked = {first.measure for first in outlook.wants.first}
    assert {"mouth_width", "head_length"} <= asked


def test_a_grown_horse_wants_nothing() -> None:
    grown = young(grown=True, programme=None, foaled=read_foaled("2012"))
    assert look(grown).wants.wanted == ()


def worn(on: date, item: str = COLLAR.name) -> TryOn:
    seen = (Tried(part="nose", seen="sits_right"),)
    return TryOn(on=on, item=item, how="worn", parts=seen)


def test_what_is_worn_and_will_be_outgrown_is_wanted_before_that_day() -> None:
    foal = young(
        foaled=read_foaled("2026-05-01"),
        tryons=(worn(TODAY - timedelta(days=200)),),
        measured=(measured("nose_round", TODAY, 520.0, "tape"),),
        records=(),
    )
    outlook = look(foal, tack=(COLLAR,))
    wanted = wanted_of(outlook, "nose")
    ends = next(f for f in outlook.fits if f.item == COLLAR.name).good_until
    assert (wanted.item, wanted.needed_on) == (COLLAR.name, ends)
    assert ends is not None
    assert wanted.by == ends - timedelta(days=21)


def test_what_was_last_worn_more_than_a_year_ago_is_not_in_use() -> None:
    long_ago = worn(TODAY - timedelta(days=366))
    horse = young(programme=None, tryons=(long_ago,))
    horse = replace(horse, measured=(measured("nose_round", TODAY, 600.0, "tape"),))
    assert look(horse, tack=(COLLAR,)).wants.wanted == ()
    lately = replace(horse, tryons=(worn(TODAY - timedelta(days=300)),))
    assert wanted_of(look(lately, tack=(COLLAR,)), "nose").by == TODAY
