"""One yard as one file: loaded, written, loaded again; bad files change nothing."""

from __future__ import annotations

import json
import types
from collections.abc import Iterator
from datetime import date
from typing import Any, get_args, get_origin, get_type_hints

import msgspec

from fitting.models import Measurement, Yard
from fitting.models.yard import WEEKDAYS
from starting.models import CalendarKey, DiaryEntry, Plan, Session
from starting.programme import shipped
from starting.reads.facts import programme_of, yard_facts
from starting.yardfile import dump_yard, load_yard
from starting.yardfile.shapes import YardFile
from tests.make import make_member, make_yard
from tests.starting.rich_yard import ON, load, rich, small

# The rich file itself


def keys_of(shape: Any, path: str = "$") -> Iterator[str]:
    """Yield every key that a shape has, as a path without numbers."""
    if isinstance(shape, types.UnionType) or get_origin(shape) is not None:
        for inner in get_args(shape):
            yield from keys_of(inner, path)
    elif isinstance(shape, type) and issubclass(shape, msgspec.Struct):
        hints = get_type_hints(shape)
        for field in msgspec.structs.fields(shape):
            here = f"{path}.{field.encode_name}"
            yield here
            yield from keys_of(hints[field.name], here)


def keys_in(found: Any, path: str = "$") -> Iterator[str]:
    if isinstance(found, dict):
        for key, value in found.items():
            yield f"{path}.{key}"
            yield from keys_in(value, f"{path}.{key}")
    elif isinstance(found, list):
        for value in found:
            yield from keys_in(value, path)


def test_the_rich_file_has_every_key_there_is() -> None:
    wanted = set(keys_of(YardFile))
    assert len(wanted) > 120
    assert wanted - set(keys_in(rich())) == set()


# There and back


def test_a_dump_loads_and_dumps_to_the_same_bytes(db: None) -> None:
    yard = load(rich())
    first = dump_yard(yard)
    again = load_yard(first, date(2031, 1, 1), replace=True)
    assert dump_yard(again) == first
    Yard.objects.filter(pk=yard.pk).update(name="Elsewhere", slug="elsewhere")
    anew = load_yard(first, date(2031, 1, 1))
    assert dump_yard(anew) == first


def test_a_dump_has_every_key_that_was_loaded(db: None) -> None:
    dumped = set(keys_in(json.loads(dump_yard(load(rich())))))
    usual = {  # said in the rich file, and as usual: a dump leaves them out
        "$.horses.measurements.shod",
        "$.horses.sessions.stop",
        "$.people.child",
        "$.horses.grown",
    }
    assert set(keys_in(rich())) - dumped - usual == set()


def test_a_dump_is_plain_utf_8_with_iso_days_and_units(db: None) -> None:
    text = dump_yard(load(rich())).decode()
    assert text.endswith("}\n")
    assert "Sørrel ½" in text
    assert '\n  "format": "yard-file",\n' in text
    horse = next(h for h in json.loads(text)["horses"] if h["id"] == "sorrel")
    readings = [m["readings"] for m in horse["measurements"]]
    assert ["12.1 hh", "12.1 1/4 hh", "124.5 cm"] in readings
    assert ["4 1/8 in", "105 mm", "10.5 cm"] in readings
    assert ["257 kg", "566 lb"] in readings
    assert ["5", "5.5", "6"] in readings
    assert horse["dam_height"] == "13.0 1/2 hh"
    room = dict(horse["clearances"])
    (own,) = room.pop("edges")
    assert room == {"bit": "6 mm", "bridle": "1/4 in"}
    assert (own["to"], own["by"]) == ("1 1/2 in", "Maud")
    kept = json.loads(text)["yard"]["settings"]["clearances"]
    assert [one["to"] for one in kept] == ["10 cm", "less 4 in", None]
    assert horse["foaled"] == "2024-04"
    assert horse["plan"]["aim"]["by"] == "2028-06-10"


def test_a_dump_stands_by_day_then_by_name(db: None) -> None:
    dumped = json.loads(dump_yard(load(rich())))
    assert [h["name"] for h in dumped["horses"]] == ["Ash", "Old Ash", "Sørrel ½"]
    assert [p["name"] for p in dumped["people"]] == ["Maud", "Perrin"]
    taken = [(m["on"], m["measure"]) for m in dumped["horses"][2]["measurements"]]
    assert taken == sorted(taken)
    assert dumped["yard"]["free_days"] == ["mon", "sat"]


def test_the_order_of_a_file_does_not_change_its_dump(db: None) -> None:
    first = dump_yard(load(rich()))
    turned = rich()
    for key in ("people", "horses", "tack", "sets", "programmes", "bought"):
        turned[key].reverse()
    for horse in turned["horses"]:
        for key in ("measurements", "tryons", "care", "rests", "stages", "off_work"):
            horse.get(key, []).reverse()
    assert dump_yard(load(turned, replace=True)) == first


def test_a_struck_measurement_is_written_with_its_reason(db: None) -> None:
    yard = load(rich())
    struck = Measurement.objects.of(yard).exclude(struck="").get()
    assert struck.on == date(2025, 10, 21)  # 57 weeks back is Wed 22 Oct: the Tuesday
    assert "The stick stood on the rope." in dump_yard(yard).decode()


def test_users_and_calendar_keys_are_not_in_a_dump(db: None) -> None:
    yard = load(rich())
    user = make_member(yard)
    CalendarKey.objects.create(yard=yard, key_hash="f" * 64, label="Kitchen tablet")
    text = dump_yard(yard).decode()
    assert user.username not in text
    assert "Kitchen tablet" not in text
    assert "ffff" not in text


# What a load makes


def test_youngsters_get_a_plan_and_grown_horses_none(db: None) -> None:
    yard = load(rich())
    plans = {p.horse.name: p.programme.name for p in Plan.objects.all()}
    assert plans == {"Ash": shipped().name, "Sørrel ½": "Later backing"}
    assert yard.horses.get(name="Old Ash").grown


def test_a_programme_of_the_yards_own_changes_the_shipped_one(db: None) -> None:
    yard = load(rich())
    first, second = yard.programmes.order_by("pk")
    own = programme_of(first)
    assert (programme_of(second).name, programme_of(second).settle_days) == (
        own.name,
        10,
    )
    default = shipped()
    assert own.name == "Later backing"
    assert own.stage("astride").earliest_months == 42
    assert own.stage("astride").typical_months == (44, 54)
    assert own.stage("led_walk") == default.stage("led_walk")
    gone = {s.key for s in default.stages} - {s.key for s in own.stages}
    assert gone == {"side_reins"}
    assert not any("side_reins" in s.prerequisites for s in own.stages)


def test_facts_are_read_from_what_was_loaded(db: None) -> None:
    facts = yard_facts(load(rich()))
    sorrel = next(h for h in facts.horses if h.key == "sorrel")
    assert [m.taken.measure for m in sorrel.measured].count("withers_height") == 1
    assert sorrel.clearances == (("bit", 6.0), ("bridle", 6.35))
    assert sorrel.edges.value("strap.noseband.good_from") == 38.1
    assert sorrel.edges.value("strap.headcollar_crown.no_below") == -101.6
    assert sorrel.edges.value("roller.spare") == 80.0  # went back to ours
    others = [horse.edges for horse in facts.horses if horse.key != "sorrel"]
    assert {edges.value("strap.noseband.good_from") for edges in others} == {30.0}
    assert [p.gate for p in sorrel.passed] == ["teeth"]
    assert {s.stop for s in sorrel.sessions} == {"end_today", None}
    assert {t.item for t in sorrel.tryons} >= {"Small eggbutt", "Sørrel's bridle"}
    assert facts.free_days == {0, 5}


def test_a_stop_sign_is_written_by_its_key_or_in_words(db: None) -> None:
    table = rich()
    sessions = table["horses"][0]["sessions"]
    sessions[1]["stop"] = {"sign": "Bit the farrier", "level": "go_back"}
    signs = set(
        Session.objects.filter(horse__yard=load(table)).values_list("stop_sign")
    )
    assert signs == {("Leans, snatches or drops down",), ("Bit the farrier",)}


def test_keys_are_made_from_names_and_never_twice(db: None) -> None:
    horse = small()["horses"][0]
    names = ("Sorrel", "sorrel", "Sørrel ½", "Ñ", "admin")
    yard = load(small(horses=[{**horse, "name": name} for name in names]))
    keys = {h.name: h.key for h in yard.horses.all()}
    assert keys["Sorrel"] == "sorrel"
    assert keys["sorrel"] == "sorrel-2"
    assert len(set(keys.values())) == len(names)


def test_a_key_made_from_a_name_gives_way_to_one_that_is_written(db: None) -> None:
    horse = small()["horses"][0]
    first = {**horse, "name": "Sorrel"}
    second = {**horse, "name": "Other", "id": "sorrel"}
    yard = load(small(horses=[first, second]))
    assert dict(yard.horses.values_list("name", "key")) == {
        "Sorrel": "sorrel-2",
        "Other": "sorrel",
    }


def test_a_yard_gets_an_address_that_is_free(db: None) -> None:
    make_yard(name="Fallow bottom", slug="fallow-bottom")
    assert load(small()).slug == "fallow-bottom-2"


def test_a_load_plans_the_yard_again(
    db: None, django_capture_on_commit_callbacks: Any
) -> None:
    with django_capture_on_commit_callbacks(execute=True):
        yard = load(small())
    yard.refresh_from_db()
    assert yard.planned_version == yard.version
    assert DiaryEntry.objects.filter(yard=yard).exists()


def test_every_list_may_be_left_out(db: None) -> None:
    head = {"format": "yard-file", "version": 1, "yard": {"name": "Empty"}}
    yard = load(head)
    assert yard.free_days == list(WEEKDAYS)
    assert load_yard(dump_yard(yard), ON, replace=True) == yard
