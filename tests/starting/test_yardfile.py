"""One yard as one file: loaded, written, loaded again; bad files change nothing."""

from __future__ import annotations

import json
import types
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from functools import cache
from typing import Any, get_args, get_origin, get_type_hints

import msgspec
import pytest
from django.apps import apps
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitting.models import Horse, Measurement, Part, Photo, Yard
from fitting.yardfile.days import ALLOWED, read_day
from fitting.yardfile.place import ROOT, YardFileError
from starting.diary import Entry
from starting.feed import Revised
from starting.models import CalendarKey, DiaryEntry, Person, Plan, RetiredEntry, Session
from starting.programme import shipped
from starting.reads.facts import programme_of, yard_facts
from starting.writes.publish import published
from starting.writes.replan import replan
from starting.yardfile import YardThereError, dump_yard, load_yard
from starting.yardfile.shapes import YardFile
from tests.make import make_member, make_yard
from tests.starting.rich_yard import rich

Table = dict[str, Any]
ON = date(2026, 11, 25)  # a Wednesday


def load(table: Table, **how: Any) -> Yard:
    how.setdefault("on", ON)
    return load_yard(json.dumps(table).encode(), **how)


def small(**keys: Any) -> Table:
    horse = {"name": "Sorrel", "sex": "filly", "foaled": "2024-04-19", "type": "pony"}
    table = {
        "format": "yard-file",
        "version": 1,
        "yard": {"name": "Fallow Bottom"},
        "horses": [horse],
    }
    return {**table, **keys}


@cache
def dump_of_small() -> bytes:
    return dump_yard(Yard.objects.get())


def every_row() -> dict[str, int]:
    """Count the rows of every model, their histories too."""
    return {m._meta.label: m._default_manager.count() for m in apps.get_models()}


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
    assert horse["clearances"] == {"bit": "6 mm", "bridle": "1/4 in"}
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


FILES = st.fixed_dictionaries(
    {
        "height": st.sampled_from(["12.3 hh", "130 cm", "51 1/4 in", "1301.5 mm"]),
        "length": st.sampled_from(["4 1/8 in", "105 mm", "10.5 cm"]),
        "weight": st.sampled_from(["257 kg", "566 lb", "256.5 kg"]),
        "units": st.fixed_dictionaries(
            {
                "height": st.sampled_from(["hands", "cm"]),
                "length": st.sampled_from(["in", "cm", "mm"]),
                "weight": st.sampled_from(["kg", "lb"]),
            }
        ),
    }
)


def sizes_of(yard: Yard) -> list[Any]:
    taken = Measurement.objects.of(yard).order_by("measure")
    part = Part.objects.get(tack__yard=yard)
    horse = yard.horses.get()
    return [
        *(m.values for m in taken),
        part.length_mm,
        horse.dam_height_mm,
        yard.people.get().weight_kg,
        horse.clearances["bit"]["mm"],
    ]


@settings(  # each file replaces the one before: nothing is left to reset
    max_examples=8,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(said=FILES)
def test_the_yards_units_never_change_a_size_that_has_its_own(
    db: None, said: Table
) -> None:
    plain = {"height": "cm", "length": "mm", "weight": "kg"}
    yard = load(sized(said, plain), replace=True)
    wanted = sizes_of(yard)
    yard = load(sized(said, said["units"]), replace=True)
    assert sizes_of(yard) == wanted
    again = load_yard(dump_yard(yard), ON, replace=True)
    assert sizes_of(again) == wanted


def sized(said: Table, units: Table) -> Table:
    table = small(
        yard={"name": "Fallow Bottom", "units": units},
        people=[{"name": "Maud", "weight": said["weight"]}],
        tack=[
            {
                "name": "Bit",
                "kind": "bit",
                "parts": [{"part": "mouthpiece", "length": said["length"]}],
            }
        ],
    )
    kinds = (
        ("withers_height", "stick", "height"),
        ("mouth_width", "dowel", "length"),
        ("weight", "weigh_tape", "weight"),
    )
    table["horses"][0] |= {
        "dam_height": said["height"],
        "clearances": {"bit": said["length"]},
        "measurements": [
            {
                "measure": key,
                "on": "2026-11-01",
                "readings": [said[what]],
                "method": how,
            }
            for key, how, what in kinds
        ],
    }
    return table


def test_a_bare_number_means_the_yards_unit(db: None) -> None:
    said = {"height": "130", "length": "105", "weight": "500"}
    yard = load(sized(said, {"height": "cm", "length": "mm", "weight": "lb"}))
    assert sizes_of(yard)[-4:] == [105.0, 1300.0, 226.796185, 105.0]
    dumped = json.loads(dump_yard(yard))
    assert dumped["horses"][0]["dam_height"] == "130 cm"
    assert dumped["people"][0]["weight"] == "500 lb"


SIZES = ("_mm", "_kg")


def every_size() -> list[Any]:
    """Return every size of every row, by model; readings and rooms too."""
    found = []
    for model in (Horse, Measurement, Part, Person, Plan):
        for row in model._default_manager.order_by("pk"):
            found += [
                (model.__name__, str(row), name, value)
                for name, value in vars(row).items()
                if name.endswith(SIZES)
            ]
    found += [("readings", str(m), "", m.values) for m in Measurement.objects.all()]
    found += [
        ("clearances", str(h), kind, room["mm"])
        for h in Horse.objects.all()
        for kind, room in h.clearances.items()
    ]
    return sorted(found, key=str)


def test_a_dump_means_the_same_whatever_its_yards_units(db: None) -> None:
    dump = json.loads(dump_yard(load(rich())))
    wanted = every_size()
    assert len([size for size in wanted if size[-1] is not None]) > 20
    dump["yard"]["units"] = {"height": "cm", "length": "mm", "weight": "lb"}
    load(dump, replace=True)
    assert every_size() == wanted


# Days


WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def walked(on: date, sign: int, days: int, weekday: str) -> date:
    """Walk there day by day, and on in the same direction to the weekday."""
    step, day = timedelta(days=sign), on
    for _ in range(days):
        day += step
    while weekday and WEEKDAYS[day.weekday()] != weekday:
        day += step
    return day


@given(
    on=st.dates(date(1990, 1, 1), date(2060, 12, 31)),
    sign=st.sampled_from([-1, 1]),
    count=st.integers(0, 300),
    unit=st.sampled_from("dw"),
    weekday=st.sampled_from(["", *WEEKDAYS]),
)
def test_a_relative_day_is_the_one_found_by_walking(
    on: date, sign: int, count: int, unit: str, weekday: str
) -> None:
    text = f"{'+' if sign > 0 else '-'}{count}{unit} {weekday}".strip()
    days = count * (7 if unit == "w" else 1)
    assert read_day(ROOT, text, on) == walked(on, sign, days, weekday)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("-400d", date(2025, 10, 21)),
        ("-57w tue", date(2025, 10, 21)),
        ("-57w wed", date(2025, 10, 22)),
        ("+2w sat", date(2026, 12, 12)),
        ("+2w wed", date(2026, 12, 9)),
        ("-0d", ON),
        ("2026-02-28", date(2026, 2, 28)),
    ],
)
def test_days_are_read_as_the_format_says(text: str, wanted: date) -> None:
    assert read_day(ROOT, text, ON) == wanted


@pytest.mark.parametrize(
    "text",
    ["", "400d", "-400", "-4m", "-57w Tue", "-57w  tue", "+2w sat ", "2026-2-3",
     "2026-02-30", "20260228", "-99999d", "+99999999d", "tue", "-٣d", "２026-02-28"],
)  # fmt: skip
def test_what_is_no_day_is_refused_with_what_would_be(text: str) -> None:
    with pytest.raises(YardFileError) as error:
        read_day(ROOT / "on", text, date(20, 1, 1))
    assert str(error.value).startswith("$.on: found ")
    assert " ".join(ALLOWED.split()) in str(error.value)


# What a load makes


def test_youngsters_get_a_plan_and_grown_horses_none(db: None) -> None:
    yard = load(rich())
    plans = {p.horse.name: p.programme.name for p in Plan.objects.all()}
    assert plans == {"Ash": shipped().name, "Sørrel ½": "Later backing"}
    assert yard.horses.get(name="Old Ash").grown


def test_a_programme_of_the_yards_own_changes_the_shipped_one(db: None) -> None:
    yard = load(rich())
    own = programme_of(yard.programmes.get())
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


# Writing over a yard


def test_a_yard_that_is_there_is_not_written_over_unasked(db: None) -> None:
    load(small())
    before = every_row()
    with pytest.raises(YardThereError, match="Fallow Bottom is there already"):
        load(rich())
    assert every_row() == before


def test_replacing_keeps_members_links_and_photos(db: None) -> None:
    yard = load(small())
    user = make_member(yard, "helper")
    key = CalendarKey.objects.create(
        yard=yard, key_hash="a" * 64, label="Phone", horses=["sorrel"]
    )
    horse = yard.horses.get()
    photo = Photo.objects.create(horse=horse, on=ON, image="horses/2026/one.jpg")
    changed = small()
    changed["horses"][0] |= {"name": "Sorrel Two", "id": "sorrel", "sex": "mare"}
    again = load(changed, replace=True)
    assert (again.pk, again.slug) == (yard.pk, yard.slug)
    assert again.memberships.get().user == user
    assert again.calendar_keys.get() == key
    photo.refresh_from_db()
    assert photo.horse.name == "Sorrel Two"
    assert photo.horse.sex == "mare"


def test_replacing_takes_out_what_is_not_in_the_file(db: None) -> None:
    load(rich())
    yard = load(small(), replace=True)
    assert [h.name for h in yard.horses.all()] == ["Sorrel"]
    for rows in (yard.tack, yard.sets, yard.people, yard.programmes):
        assert not rows.exists()
    assert not Measurement.objects.exists()


def test_two_horses_may_change_names(db: None) -> None:
    horse = small()["horses"][0]
    one, two = {**horse, "id": "one"}, {**horse, "id": "two"}
    load(small(horses=[{**one, "name": "Ash"}, {**two, "name": "Elm"}]))
    yard = load(
        small(horses=[{**one, "name": "Elm"}, {**two, "name": "Ash"}]), replace=True
    )
    keys = dict(yard.horses.values_list("key", "name"))
    assert keys == {"one": "Elm", "two": "Ash"}


def entries(yard: Yard) -> dict[str, Revised]:
    return {revised.entry.key: revised for revised in published(yard)}


def test_replacing_keeps_uids_and_counts_sequences_on(db: None) -> None:
    yard = load(rich())
    replan(yard, ON)
    before = entries(yard)
    yard = load(rich(), replace=True)
    replan(yard, ON)
    assert before
    assert entries(yard) == before  # the same file: not one byte of the feed moves
    moved = rich()
    moved["horses"][0]["care"][0]["next"] = "+50d"
    yard = load(moved, replace=True)
    replan(yard, ON)
    after = entries(yard)
    key = next(k for k in before if k.startswith("sorrel/care/teeth"))
    assert after[key].uid == before[key].uid
    assert after[key].sequence == before[key].sequence + 1


def test_a_horse_that_leaves_and_returns_counts_its_entries_on(db: None) -> None:
    yard = load(rich())
    replan(yard, ON)
    before = entries(yard)
    without = rich()
    del without["horses"][0], without["bought"][0], without["tack"][0]["loans"]
    yard = load(without, replace=True)
    replan(yard, ON)
    gone = {k for k in before if k.startswith("sorrel/")}
    assert gone
    assert not gone & entries(yard).keys()
    retired = set(RetiredEntry.objects.values_list("uid", flat=True))
    assert {before[k].uid for k in gone} <= retired
    yard = load(rich(), replace=True)
    replan(yard, ON)
    after = entries(yard)
    assert all(after[k].sequence == before[k].sequence + 1 for k in gone)


def test_entries_keep_their_horse_when_a_yard_is_replaced(db: None) -> None:
    yard = load(rich())
    replan(yard, ON)
    yard = load(rich(), replace=True)
    replan(yard, ON)
    rows = DiaryEntry.objects.filter(yard=yard)
    assert {row.horse.key for row in rows if row.horse} == {
        row.key.partition("/")[0] for row in rows
    }


def test_entry_type_is_what_the_diary_keeps(db: None) -> None:
    yard = load(rich())
    replan(yard, ON)
    assert all(isinstance(r.entry, Entry) for r in published(yard))


# Bad files


def change(path: str, value: Any) -> Callable[[Table], None]:
    """Return what writes a value at a path of the rich file."""

    def make(table: Table) -> None:
        *steps, last = [
            int(step) if step.isdecimal() else step
            for step in path.replace("[", ".").replace("]", "").split(".")
        ]
        inner: Any = table
        for step in steps:
            inner = inner[step]
        inner[last] = value

    return make


H, T = "horses[0]", "tack[0]"
BAD = [
    ("format", "yard", "$.format: found 'yard'; allowed: 'yard-file'"),
    ("version", 2, "$.version: found 2; allowed: 1"),
    ("colour", "red", "$: unknown key 'colour'; allowed: an object with the keys f"),
    ("yard.name", " ", "$.yard.name: found ' '; allowed: text in quotes that is not"),
    ("yard.name", "x" * 81, "$.yard.name: found 'xxx"),
    ("yard.colour", 1, "$.yard: unknown key 'colour'"),
    ("yard.timezone", "Moon", "$.yard.timezone: found 'Moon'; allowed: a zone such"),
    ("yard.hemisphere", "east", "$.yard.hemisphere: found 'east'; allowed: north, s"),
    ("yard.units.height", "ft", "$.yard.units.height: found 'ft'; allowed: hands, cm"),
    ("yard.free_days[1]", "Mon", "$.yard.free_days[1]: found 'Mon'; allowed: mon, "),
    ("yard.free_days[1]", "sat", "$.yard.free_days[1]: found sat again; allowed: on"),
    ("yard.sessions_a_day", 0, "$.yard.sessions_a_day: found 0; allowed: "),
    ("yard.sessions_a_day", "2", "$.yard.sessions_a_day: found '2'; allowed: a whole"),
    ("people", {}, "$.people: found {}; allowed: a list"),
    ("people[1].name", "Perrin", "$.people[1].name: found Perrin again"),
    ("people[0].can[0]", "fly", "$.people[0].can[0]: found 'fly'; allowed: handle"),
    ("people[0].weight", "9 st", "$.people[0].weight: found '9 st'. "),
    ("people[0].weight", 68, "$.people[0].weight: found 68; allowed: text in quotes"),
    (f"{H}.name", "Ash", "$.horses[2].name: found Ash again"),
    (f"{H}.id", "No Key", "$.horses[0].id: found 'No Key'"),
    (f"{H}.sex", "cow", "$.horses[0].sex: found 'cow'; allowed: filly, mare, colt"),
    (f"{H}.type", "tall", "$.horses[0].type: found 'tall'; allowed: small_pony, pon"),
    (f"{H}.foaled", "spring", "$.horses[0].foaled: found 'spring'"),
    (f"{H}.foaled", "2024-13", "$.horses[0].foaled: found '2024-13'. Months run fro"),
    (f"{H}.dam_height", "", "$.horses[0].dam_height: found ''. Nothing is written"),
    (f"{H}.dam_height", "13.5", "$.horses[0].dam_height: found '13.5'. A hand"),
    (f"{H}.clearances.cat", "1", "$.horses[0].clearances: found 'cat'; allowed: bit"),
    (f"{H}.clearances.bit", "x", "$.horses[0].clearances.bit: found 'x'. "),
    (f"{H}.plan.programme", "x", "$.horses[0].plan.programme: found 'x'; allowed: d"),
    (f"{H}.plan.aim.stage", "x", "$.horses[0].plan.aim.stage: found 'x'; allowed: c"),
    (f"{H}.plan.aim.stage", "side_reins", "$.horses[0].plan.aim.stage: found 'side_"),
    (f"{H}.plan.aim.by", "soon", "$.horses[0].plan.aim.by: found 'soon'; allowed: a"),
    (f"{H}.plan.rider", "Zoe", "$.horses[0].plan.rider: found 'Zoe'; allowed: Perri"),
    (f"{H}.plan.tack_weight", "1 g", "$.horses[0].plan.tack_weight: found '1 g'. "),
    ("horses[1].plan", {}, "$.horses[1].plan: found a plan for Old Ash, who is grown"),
    (f"{H}.measurements[3].readings[1]", "1 stone",
     "$.horses[0].measurements[3].readings[1]: found '1 stone'. "),
    (f"{H}.measurements[0].readings[0]", 12.1,
     "$.horses[0].measurements[0].readings[0]: found 12.1; allowed: text such as"),
    (f"{H}.measurements[0].readings", [],
     "$.horses[0].measurements[0].readings: found []; allowed: a list that is not em"),
    (f"{H}.measurements[4].readings[1]", 11,
     "$.horses[0].measurements[4].readings[1]: found '11'. Condition is scored"),
    (f"{H}.measurements[4].readings[1]", "fat",
     "$.horses[0].measurements[4].readings[1]: found 'fat'. Condition is"),
    (f"{H}.measurements[0].measure", "ears",
     "$.horses[0].measurements[0].measure: found 'ears'; allowed: withers_height, "),
    (f"{H}.measurements[0].method", "gauge",
     "$.horses[0].measurements[0].method: found 'gauge'; allowed: stick, laser, tape"),
    (f"{H}.measurements[0].on", "2026-02-30",
     "$.horses[0].measurements[0].on: found '2026-02-30', day is out of range"),
    (f"{H}.measurements[0].note", "x" * 301,
     "$.horses[0].measurements[0].note: found 'xxx"),
    (f"{H}.measurements[0].note", "a\0b",
     "$.horses[0].measurements[0].note: found 'a\\x00b'; allowed: text without"),
    (f"{H}.measurements[0].note", "a\ud800b",
     "$.horses[0].measurements[0].note: found 'a\\ud800b'; allowed: text without"),
    (f"{H}.measurements[0].same_person", "yes",
     "$.horses[0].measurements[0].same_person: found 'yes'; allowed: true or false"),
    (f"{H}.tryons[0].item", "Gone", "$.horses[0].tryons[0].item: found 'Gone'; allo"),
    (f"{H}.tryons[0].set", "Show", "$.horses[0].tryons[0]: found item 'Small eggbut"),
    (f"{H}.tryons[1].set", "Gone", "$.horses[0].tryons[1].set: found 'Gone'; allowe"),
    (f"{H}.tryons[0].how", "seen", "$.horses[0].tryons[0].how: found 'seen'; allowe"),
    (f"{H}.tryons[0].answer", "ok", "$.horses[0].tryons[0].answer: found 'ok'; allo"),
    (f"{H}.tryons[1].parts[1].part", "cheekpieces",
     "$.horses[0].tryons[1].parts[1].part: found cheekpieces again"),
    (f"{H}.tryons[1].parts[1].seen", "odd",
     "$.horses[0].tryons[1].parts[1].seen: found 'odd'; allowed: sits_right, too_sh"),
    (f"{H}.tryons[1].parts[0].hole", 0,
     "$.horses[0].tryons[1].parts[0].hole: found 0; allowed: a whole number from 1"),
    (f"{H}.first_worn[1].kind", "hat", "$.horses[0].first_worn[1].kind: found 'hat'"),
    (f"{H}.first_worn[1]",
     {"kind": "headcollar", "item": "Foal slip", "on": "-1d"},
     "$.horses[0].first_worn[1]: found headcollar and Foal slip again"),
    (f"{H}.stages[1].stage", "fly", "$.horses[0].stages[1].stage: found 'fly'; allo"),
    (f"{H}.stages[1].stage", "company", "$.horses[0].stages[1].stage: found company"),
    (f"{H}.stages[1].state", "done", "$.horses[0].stages[1].state: found 'done'; al"),
    (f"{H}.sessions[0].stage", "fly", "$.horses[0].sessions[0].stage: found 'fly'"),
    (f"{H}.sessions[0].minutes", 241, "$.horses[0].sessions[0].minutes: found 241; "),
    (f"{H}.sessions[0].checks.fly", "yes",
     "$.horses[0].sessions[0].checks: found 'fly'; allowed: each_foot_lifted_held"),
    (f"{H}.sessions[0].checks.stands_first_trim", "ok",
     "$.horses[0].sessions[0].checks.stands_first_trim: found 'ok'; allowed: yes, "),
    (f"{H}.sessions[0].checks.stands_first_trim", 1,
     "$.horses[0].sessions[0].checks"),
    (f"{H}.sessions[0].stop", "bucked", "$.horses[0].sessions[0].stop: found 'bucke"),
    (f"{H}.sessions[0].stop", 3, "$.horses[0].sessions[0].stop: found 3; allowed: "),
    (f"{H}.sessions[0].stop.level", "x", "$.horses[0].sessions[0].stop.level: found"),
    (f"{H}.sessions[0].stop.when", "x", "$.horses[0].sessions[0].stop: unknown key "),
    (f"{H}.sessions[0].on_the_day.moon", True,
     "$.horses[0].sessions[0].on_the_day: found 'moon'; allowed: calm_day"),
    (f"{H}.sessions[0].worn[0].item", "",
     "$.horses[0].sessions[0].worn[0]: found item '' and set ''; allowed: one of"),
    (f"{H}.care[0].kind", "hair", "$.horses[0].care[0].kind: found 'hair'; allowed:"),
    (f"{H}.care[0].wolf_teeth", "x", "$.horses[0].care[0].wolf_teeth: found 'x'"),
    (f"{H}.care[0].next", "-60d", "$.horses[0].care[0].next: found 2026-09-26; allo"),
    (f"{H}.care[0].healing_until", "-61d", "$.horses[0].care[0].healing_until: foun"),
    (f"{H}.incidents[0].what", "rain", "$.horses[0].incidents[0].what: found 'rain'"),
    (f"{H}.off_work[0].until", "-200d", "$.horses[0].off_work[0].until: found 2026-"),
    (f"{H}.off_work[1].cleared_on", "-101d", "$.horses[0].off_work[1].cleared_on: f"),
    (f"{H}.rests[0].to", "2025-05-31", "$.horses[0].rests[0].to: found 2025-05-31; "),
    (f"{H}.went_ahead[0].gate", "moon", "$.horses[0].went_ahead[0].gate: found 'moo"),
    (f"{H}.went_ahead[0].stage", "x", "$.horses[0].went_ahead[0].stage: found 'x'"),
    (f"{H}.went_ahead[0].reason", "", "$.horses[0].went_ahead[0].reason: found ''"),
    (f"{T}.kind", "hat", "$.tack[0].kind: found 'hat'; allowed: bit, bridle, head"),
    (f"{T}.name", "Brown bridle", "$.tack[1].name: found Brown bridle again"),
    (f"{T}.loans[0].to", "Elm", "$.tack[0].loans[0].to: found 'Elm'; allowed: Sørre"),
    (f"{T}.parts[0].part", "ears", "$.tack[0].parts[0].part: found 'ears'; allowed:"),
    (f"{T}.parts[0].length", "-4", "$.tack[0].parts[0].length: found '-4'. "),
    (f"{T}.parts[0].cheek", "flat", "$.tack[0].parts[0].cheek: found 'flat'; allowe"),
    (f"{T}.parts[0].mouthpiece", "x", "$.tack[0].parts[0].mouthpiece: found 'x'"),
    ("tack[1].parts[0].hole", 6, "$.tack[1].parts[0].hole: found 6; allowed: one of"),
    ("tack[1].parts[1].part", "headpiece", "$.tack[1].parts[1].part: found headpiec"),
    ("tack[1].parts[3].shortest", "23", "$.tack[1].parts[3].shortest: found '23'; a"),
    ("sets[0].parts.bit", "Gone", "$.sets[0].parts.bit: found 'Gone'; allowed: Smal"),
    ("sets[0].parts.hat", "x", "$.sets[0].parts: unknown key 'hat'; allowed: an obj"),
    ("sets[1].name", "Sørrel's bridle", "$.sets[1].name: found Sørrel's bridle agai"),
    ("programmes[0].from", "x", "$.programmes[0].from: found 'x'; allowed: default"),
    ("programmes[0].name", "default", "$.programmes[0].name: found 'default'; allow"),
    ("programmes[0].changes.settings", {"may_end_at": "x"},
     "$.programmes[0].changes.settings: this cannot be changed yet; allowed: stages"),
    ("programmes[0].changes.stages.fly", {},
     "$.programmes[0].changes.stages.fly: no such step; allowed: company"),
    ("programmes[0].changes.stages.astride.minutes", "long",
     "$.programmes[0].changes: step 'astride', minutes: found 'long'; allowed: a li"),
    ("programmes[0].changes.stages.astride.aim", None,
     "$.programmes[0].changes.stages.astride.aim: found None; allowed: a value"),
    ("programmes[0].changes.stages.astride.enabled", "no",
     "$.programmes[0].changes.stages.astride.enabled: found 'no'; allowed: true or"),
    ("programmes[0].changes.stages.astride", 1,
     "$.programmes[0].changes.stages.astride: found 1; allowed: an object"),
    ("bought[0].horse", "Elm", "$.bought[0].horse: found 'Elm'; allowed: Sørrel ½"),
    ("bought[0].kind", "hat", "$.bought[0].kind: found 'hat'; allowed: bit, bridle"),
    ("bought[0].part", "hat", "$.bought[0].part: found 'hat'; allowed: mouthpiece"),
]  # fmt: skip


@pytest.mark.parametrize(("path", "value", "message"), BAD)
def test_a_bad_file_says_where_and_changes_nothing(
    db: None, path: str, value: Any, message: str
) -> None:
    yard = load(small())
    before, file_before = every_row(), dump_of_small()
    table = rich()
    change(path, value)(table)
    with pytest.raises(YardFileError) as error:
        load(table, replace=True)
    said = str(error.value)
    assert said.startswith(message)
    assert "; allowed: " in said
    assert "\n" not in said
    assert every_row() == before
    assert dump_yard(yard) == file_before


def test_a_bad_file_leaves_nothing_of_a_new_yard(db: None) -> None:
    before = every_row()
    table = rich()
    table["bought"][1]["part"] = "hat"  # the last thing that is read
    with pytest.raises(YardFileError, match=r"bought\[1\]"):
        load(table)
    assert every_row() == before


@pytest.mark.parametrize(
    ("path", "message"),
    [
        ("yard", "$: there is no key 'yard'"),
        ("format", "$: there is no key 'format'"),
        (f"{H}.sex", "$.horses[0]: there is no key 'sex'"),
        (f"{H}.measurements[0].method", "$.horses[0].measurements[0]: there is no key"),
        (f"{H}.off_work[0].from", "$.horses[0].off_work[0]: there is no key 'from'"),
    ],
)
def test_a_missing_key_is_named(db: None, path: str, message: str) -> None:
    table = rich()
    *steps, last = path.replace("[", ".").replace("]", "").split(".")
    inner: Any = table
    for step in steps:
        inner = inner[int(step) if step.isdecimal() else step]
    del inner[last]
    with pytest.raises(YardFileError) as error:
        load(table)
    assert str(error.value).startswith(message)


@pytest.mark.parametrize(
    ("body", "message"),
    [
        (b"", "$: Expecting value"),
        (b"\xff\xfe", "$: 'utf-8' codec can't decode"),
        (b"[]", "$: found []; allowed: an object"),
        (b'{"format": "yard-file", "format": "x"}', "$: the key 'format' stands twice"),
        (b'{"version": NaN}', "$: NaN is no number"),
        (b'{"version": ' + b"9" * 5000 + b"}", "$: Exceeds the limit"),
        (b"[" * 100_000, "$: maximum recursion depth"),
    ],
)
def test_what_is_no_yard_file_is_refused(db: None, body: bytes, message: str) -> None:
    with pytest.raises(YardFileError) as error:
        load_yard(body, ON)
    assert str(error.value).startswith(message)
    assert not Horse.objects.exists()


def test_every_list_may_be_left_out(db: None) -> None:
    head = {"format": "yard-file", "version": 1, "yard": {"name": "Empty"}}
    yard = load(head)
    assert yard.free_days == list(WEEKDAYS)
    assert load_yard(dump_yard(yard), ON, replace=True) == yard
