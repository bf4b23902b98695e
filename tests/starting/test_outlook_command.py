"""The command that tells one outlook, as JSON and as text."""

from __future__ import annotations

import json
from typing import Any

import pytest

from fitting.body import MEASURES
from fitting.fit import Finding
from fitting.models import Yard
from fitting.units import show_height
from starting.management.plain import Error
from starting.outlook.contract import contract_of
from starting.programme import shipped
from starting.reads.outlook import outlooks
from starting.writes import replan, today_in
from tests.make import make_horse, make_yard
from tests.starting.making_commands import ON, days_in, kept, said

Table = dict[str, Any]
# outlook

KEYS = {
    "$": "horse yard on age_months season_age measures fits stages wanted"
    " measuring_days diary",
    "measures": "measure unit last now grown standing measure_by",
    "fits": "item kind part answer why chance_no good_until hole spare_longer"
    " spare_shorter good_from",
    "stages": "stage state go_over_again last_true_level gates start finish"
    " finish_early finish_late because sessions_left",
    "measuring_days": "on measures",
    "diary": "uid on kind title forecast",
}


def outlook_json(*words: str) -> Table:
    found: Table = json.loads(said("outlook", *words, "--json"))
    return found


def test_the_json_has_the_keys_of_the_contract_in_their_order(fallow: Yard) -> None:
    found = outlook_json("Sørrel ½", "--on", "2026-11-25")
    assert list(found) == KEYS["$"].split()
    for name in ("measures", "fits", "stages", "measuring_days", "diary"):
        assert found[name], name
        for row in found[name]:
            assert list(row) == KEYS[name].split()
    gates = [gate for stage in found["stages"] for gate in stage["gates"]]
    assert {tuple(gate) for gate in gates} == {
        ("gate", "kind", "answer", "why", "opens_on", "went_ahead")
    }
    last = next(m["last"] for m in found["measures"] if m["last"])
    assert list(last) == ["on", "value", "text", "method"]
    now = next(m["now"] for m in found["measures"] if m["now"])
    assert list(now) == ["p5", "p50", "p95"]


def test_the_json_holds_only_the_words_of_the_contract(fallow: Yard) -> None:
    found = outlook_json("Sørrel ½", "--on", "2026-11-25")
    assert [m["measure"] for m in found["measures"]] == [m.key for m in MEASURES]
    assert {m["unit"] for m in found["measures"]} == {"mm", "kg", "score"}
    assert {m["standing"] for m in found["measures"]} <= {"stands", "stale", "never"}
    assert {f["answer"] for f in found["fits"]} <= {"good", "watch", "no", "not_known"}
    states = {"waiting", "open", "under_way", "established", "left_out"}
    assert {s["state"] for s in found["stages"]} <= states
    gates = [gate for stage in found["stages"] for gate in stage["gates"]]
    assert {g["kind"] for g in gates} <= {"dated", "to_do", "on_the_day"}
    assert {g["answer"] for g in gates} <= {"met", "caution", "shut", "not_known"}
    assert found["wanted"] == []
    dated = [s for s in found["stages"] if s["finish_early"]]
    assert all(s["finish_early"] <= s["finish"] <= s["finish_late"] for s in dated)
    assert None in {s["finish_early"] for s in found["stages"]}
    assert any(m["now"] is None for m in found["measures"])


def test_the_json_says_what_was_measured_and_set_by_hand(fallow: Yard) -> None:
    found = outlook_json("sorrel", "--yard", "Fallow Bottom", "--on", "2026-11-25")
    assert (found["horse"], found["yard"]) == ("Sørrel ½", "Fallow Bottom")
    assert found["age_months"] == 30  # the last of April 2024: the youngest it can be
    assert found["season_age"] == 3  # in the south: 1 August 2024, 2025 and 2026
    weight = next(m for m in found["measures"] if m["measure"] == "weight")
    assert weight["last"]["on"] == "2026-10-10"
    assert weight["last"]["text"] == "257, 566 lb"
    assert weight["last"]["value"] == pytest.approx((257 + 566 * 0.45359237) / 2)
    states = {s["stage"]: s["state"] for s in found["stages"]}
    assert states["company"] == "established"
    assert states["first_headcollar"] == "left_out"
    assert "side_reins" not in states


def test_every_part_of_every_item_stands_once_and_a_set_under_its_name(
    fallow: Yard,
) -> None:
    found = outlook_json("Sørrel ½", "--on", "2026-11-25")
    stands = [(f["item"], f["part"]) for f in found["fits"]]
    assert len(stands) == len(set(stands))
    assert ("Brown bridle", "throatlash") in stands
    assert ("Sørrel's bridle", "cheekpieces") in stands


def test_the_uids_of_the_json_are_those_of_the_feed(fallow: Yard) -> None:
    today = today_in(fallow)
    replan(fallow, today)
    found = outlook_json("Sørrel ½", "--on", today.isoformat())
    feed = days_in(said("feed", "Fallow Bottom"))
    assert found["diary"]
    assert {entry["uid"] for entry in found["diary"]} <= feed.keys()


def test_the_outlook_computed_is_the_one_stored(fallow: Yard) -> None:
    replan(fallow, ON)
    stored = contract_of(outlooks(fallow)["sorrel"], lambda key: key)
    found = outlook_json("Sørrel ½", "--on", "2026-11-25")
    for row in (*found["diary"], *stored["diary"]):
        row.pop("uid")
    assert found == stored


def test_the_text_is_sized_in_the_yards_units(fallow: Yard) -> None:
    words = ("outlook", "Sørrel ½", "--on", "2026-11-25")
    text = said(*words)
    height = show_height(1244.6, "hands")
    assert f"withers height: {height} hands on 29 Jan 2026" in text
    assert "Small eggbutt, mouthpiece: " in text
    assert "call your vet" in text
    fallow.height_unit = "cm"
    fallow.save()
    assert "withers height: 124.5\u2009cm on 29 Jan 2026" in said(*words)


def test_the_text_has_a_line_for_every_step_and_every_part(fallow: Yard) -> None:
    text = said("outlook", "Sørrel ½", "--on", "2026-11-25")
    for stage in shipped().stages:
        assert (f"  {stage.name}: " in text) == (stage.key != "side_reins")
    finding: Finding
    replan(fallow, ON)
    for finding in outlooks(fallow)["sorrel"].fits:
        assert f"  {finding.item}, {finding.part.replace('_', ' ')}: " in text
    assert "can't say" in text


def test_a_grown_horse_has_measures_and_tack_but_no_steps(fallow: Yard) -> None:
    text = said("outlook", "Old Ash", "--on", "2026-11-25")
    assert "Tack" in text
    assert "Steps" not in text
    assert "Can do now" not in text
    assert outlook_json("Old Ash")["stages"] == []


def test_a_horse_of_several_yards_needs_its_yard(fallow: Yard) -> None:
    make_horse(make_yard(name="Elm Row", slug="elm-row"), name="Ash")
    with pytest.raises(Error, match="Several yards have a 'Ash': say --yard"):
        said("outlook", "Ash")
    assert said("outlook", "Ash", "--yard", "elm-row").startswith("Ash, Elm Row, ")


def test_the_outlook_changes_nothing(fallow: Yard) -> None:
    before = {m._meta.label: list(m._default_manager.values()) for m in kept()}
    said("outlook", "Ash")
    said("outlook", "Ash", "--json", "--on", "2028-01-01")
    assert {m._meta.label: list(m._default_manager.values()) for m in kept()} == before
