"""A yard file that is wrong says where, in one line, and changes nothing."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

import pytest

from fitting.models import Horse, Yard
from fitting.yardfile.place import YardFileError
from starting.yardfile import dump_yard, load_yard
from tests.starting.rich_yard import ON, Table, every_row, load, rich, small


@cache
def dump_of_small() -> bytes:
    return dump_yard(Yard.objects.get())


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
    (f"{H}.clearances.bit", [], "$.horses[0].clearances.bit: found []; allowed: text"),
    (f"{H}.clearances.edges", "x", "$.horses[0].clearances.edges: Expected `array`"),
    (f"{H}.clearances.edges[0].edge", "ears",
     "$.horses[0].clearances.edges[0].edge: found 'ears'; allowed: bit.fixed.no_below"),
    (f"{H}.clearances.edges[0].to", "far",
     "$.horses[0].clearances.edges[0].to: found 'far'. "),
    (f"{H}.clearances.edges[0].on", "soon",
     "$.horses[0].clearances.edges[0].on: found 'soon'"),
    (f"{H}.clearances.edges[0].to", "60 mm",
     "$.horses[0].clearances.edges: found strap.noseband.good_from; allowed: This has"),
    ("yard.settings.clearances", {"a": 1},
     "$.yard.settings.clearances: Expected `array`, got `object`; allowed: a list of"),
    ("yard.settings.clearances[0].colour", "red",
     "$.yard.settings.clearances: Object contains unknown field `colour`"),
    ("yard.settings.clearances[2]",
     {"edge": "gap.noseband.no_below", "to": "12 mm", "on": "-1d"},
     "$.yard.settings.clearances: found gap.noseband.no_below; allowed: Never under"),
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
    (f"{H}.tryons[1].parts[2].gap", "5 fingers",
     "$.horses[0].tryons[1].parts[2].gap: found '5 fingers'; allowed: a gap such as 1"),
    (f"{H}.tryons[1].stop", "go_back",
     "$.horses[0].tryons[1].stop: found 'go_back'; allowed: end_today, ring_vet"),
    (f"{H}.tryons[1].stop", "",
     "$.horses[0].tryons[1].stop: found ''; allowed: end_today, ring_vet"),
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
    (f"{H}.ticked[0].task", "x", "$.horses[0].ticked[0].task: found 'x'"),
    (f"{H}.ticked[0].who", "", "$.horses[0].ticked[0].who: found ''"),
    (f"{H}.ticked[1].due", "soon", "$.horses[0].ticked[1].due: found 'soon'"),
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
    ("programmes[0].from", "x",
     "$.programmes[0].from: found 'x'; allowed: default, small_pony, late_big_heavy, "),
    ("programmes[0].name", "default", "$.programmes[0].name: found 'default'; allow"),
    ("programmes[0].changes.settings", {"may_end_at": "x"},
     "$.programmes[0].changes: settings, may_end_at: found 'x'; allowed: a step of it"),
    ("programmes[0].changes.settings", {"start": "roller"},
     "$.programmes[0].changes.settings.start: no such setting; allowed: may_end_at, "),
    ("programmes[0].changes.settings", {"no_rider_days_after_fall": 3},
     "$.programmes[0].changes.settings.no_rider_days_after_fall: found 3; allowed: 14"),
    ("programmes[0].changes.settings", {"settle_days": True},
     "$.programmes[0].changes.settings.settle_days: found True; allowed: a whole"),
    ("programmes[0].changes.settings", {"trainer_gate": ["fly"]},
     "$.programmes[0].changes.settings.trainer_gate: found ['fly']; allowed: a list"),
    ("programmes[0].changes.stages.astride.floor_months", 30,
     "$.programmes[0].changes.stages.astride.floor_months: found 30; allowed: 36 or"),
    ("programmes[0].changes.stages.astride.prerequisites", 3,
     "$.programmes[0].changes: step 'astride', prerequisites: found 3; allowed: a l"),
    ("programmes[0].changes.stages.astride.prerequisites", [["fly"]],
     "$.programmes[0].changes: step 'astride', prerequisites: found [['fly']]; all"),
    ("programmes[0].changes.stages.bridle", {"prerequisites": ["long_reins"]},
     "$.programmes[0].changes: file, prerequisites: "),
    ("programmes[0].changes.why", "x",
     "$.programmes[0].changes.why: this cannot be changed; allowed: stages, setti"),
    ("programmes[0].made", "soon", "$.programmes[0].made: found 'soon'; allowed: a m"),
    ("programmes[1].version_of", "x", "$.programmes[1].version_of: found 'x'; allowed"),
    ("programmes[1].from", "restart",
     "$.programmes[1].version_of: found 'Later backing'; allowed: the first version"),
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
