"""The commands: what they print, and the one line they say when something is wrong."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from datetime import UTC, date, datetime
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from django.apps import apps
from django.conf import settings
from django.core.management import call_command
from icalendar import Calendar

from fitting.body import MEASURES
from fitting.fit import Finding
from fitting.models import Yard
from fitting.units import show_height
from starting.management.commands.feed import diary_on
from starting.management.plain import Error
from starting.models import DiaryEntry
from starting.outlook.contract import contract_of
from starting.programme import shipped
from starting.reads.outlook import outlooks
from starting.writes import replan, today_in
from starting.writes.publish import published
from starting.yardfile import dump_yard, load_yard
from tests.make import make_horse, make_yard
from tests.starting.rich_yard import rich

Table = dict[str, Any]
ON = date(2026, 11, 25)
ROOT = Path(settings.BASE_DIR)
ICELANDIC = ROOT / "tests" / "published" / "icelandic.json"


@pytest.fixture
def fallow(db: None) -> Yard:
    return load_yard(json.dumps(rich()).encode(), ON)


def said(*words: str, **options: Any) -> str:
    out = StringIO()
    call_command(*words, stdout=out, **options)
    return out.getvalue()


def run(database: Path, *words: str) -> subprocess.CompletedProcess[str]:
    env = {
        **os.environ,
        "DJANGO_SETTINGS_MODULE": "tests.settings",
        "DATABASE_URL": f"sqlite:///{database}",
    }
    return subprocess.run(
        [sys.executable, "manage.py", *words],
        cwd=ROOT, env=env, check=False, capture_output=True, text=True,
    )  # fmt: skip


# load_yard and dump_yard


def test_a_yard_loads_says_what_is_there_and_dumps(db: None, tmp_path: Path) -> None:
    file, dump = tmp_path / "yard.json", tmp_path / "dump.json"
    file.write_text(json.dumps(rich()), encoding="utf-8")
    assert said("load_yard", str(file)) == "Fallow Bottom: horses 3, tack 5.\n"
    assert said("dump_yard", "Fallow Bottom", str(dump)) == ""
    assert said("dump_yard", "fallow-bottom").encode() == dump.read_bytes()
    assert said("load_yard", str(dump), replace=True, verbosity=0) == ""
    assert said("dump_yard", "Fallow Bottom").encode() == dump.read_bytes()


def test_the_day_of_loading_is_asked_for(db: None, tmp_path: Path) -> None:
    file = tmp_path / "yard.json"
    file.write_text(json.dumps(rich()), encoding="utf-8")
    said("load_yard", str(file), "--on", "2026-11-25")
    yard = Yard.objects.get()
    assert dump_yard(yard) == dump_yard(
        load_yard(json.dumps(rich()).encode(), ON, replace=True)
    )
    said("load_yard", str(file), "--replace", "--on", "2027-11-25")
    assert yard.horses.get(name="Ash").foaled == "2027-04-29"


def test_the_day_of_loading_is_today_at_the_yard(db: None, tmp_path: Path) -> None:
    file = tmp_path / "yard.json"
    table = {**rich(), "horses": rich()["horses"][2:], "bought": [], "tack": []}
    table["sets"] = []
    table["horses"][0]["foaled"] = "-0d"
    file.write_text(json.dumps(table), encoding="utf-8")
    said("load_yard", str(file))
    yard = Yard.objects.get()
    assert yard.horses.get().foaled == today_in(yard).isoformat()


def test_the_published_means_load_and_go_round(db: None) -> None:
    said("load_yard", str(ICELANDIC))
    yard = Yard.objects.get(name="Icelandic means")
    wanted = len(json.loads(ICELANDIC.read_text("utf-8"))["horses"][0]["measurements"])
    assert yard.horses.get().measurements.count() == wanted > 20
    first = dump_yard(yard)
    assert dump_yard(load_yard(first, ON, replace=True)) == first


def test_the_demo_yard_loads_and_goes_round(db: None) -> None:
    yard = load_yard((ROOT / "fixtures_demo" / "yard.json").read_bytes(), ON)
    first = dump_yard(yard)
    assert dump_yard(load_yard(first, ON, replace=True)) == first


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("load_yard", "missing.json"), "missing.json: No such file or directory."),
        (("load_yard", "."), ".: Is a directory."),
        (("dump_yard", "Elm"), "There is no yard called 'Elm'; there is: Fallow Bott"),
        (("dump_yard", "Fallow Bottom", "/no/dir"), "/no/dir: No such file or direct"),
        (("feed", "Elm"), "There is no yard called 'Elm'; there is: Fallow Bottom."),
        (("outlook", "Elm"), "There is no horse called 'Elm'; there is: Ash, Old Ash"),
        (("outlook", "Ash", "--yard", "Elm"), "There is no yard called 'Elm'"),
    ],
)
def test_what_is_not_there_is_said_in_one_line(
    fallow: Yard, words: tuple[str, ...], message: str
) -> None:
    with pytest.raises(Error) as error:
        said(*words)
    assert str(error.value).startswith(message)
    assert "\n" not in str(error.value)


def test_on_the_command_line_an_error_is_one_line_and_ends_with_1(
    tmp_path: Path,
) -> None:
    database, bad = tmp_path / "yard.sqlite3", tmp_path / "bad.json"
    bad.write_text('{"format": "yard-file", "version": 1, "yard": {"name": 3}}')
    where = f"Error: {bad}: $.yard.name: found 3; allowed: text in quotes that is not"
    cases = [
        (("load_yard", str(bad)), where),
        (("outlook", "Ash", "--on", "soon"), "Error: argument --on: 'soon' is no day"),
        (("load_yard", str(ICELANDIC)), "Error: The database: no such table: fitting"),
    ]
    for words, message in cases:
        done = run(database, *words)
        assert done.returncode == 1, words
        assert done.stdout == ""
        assert done.stderr.startswith(message)
        assert done.stderr.count("\n") == 1


# feed


def days_in(body: str) -> dict[str, date]:
    events: list[Any] = Calendar.from_ical(body).walk("VEVENT")
    return {str(event["UID"]): event["DTSTART"].dt for event in events}


def test_the_feed_is_the_diary_as_it_is_published(fallow: Yard) -> None:
    body = said("feed", "Fallow Bottom")
    rows = DiaryEntry.objects.filter(yard=fallow)
    assert days_in(body) == {row.uid: row.on for row in rows}
    assert rows.count() > 5
    assert body.startswith("BEGIN:VCALENDAR\r\n")


def test_the_feed_is_written_to_a_file_byte_for_byte(
    fallow: Yard, tmp_path: Path
) -> None:
    file = tmp_path / "yard.ics"
    assert said("feed", "fallow-bottom", "--out", str(file)) == ""
    assert file.read_bytes().decode() == said("feed", "fallow-bottom")


def test_the_feed_of_another_day_is_what_that_day_would_publish(fallow: Yard) -> None:
    replan(fallow, ON)
    before = {m._meta.label: list(m._default_manager.values()) for m in kept()}
    later = date(2026, 12, 20)
    body = said("feed", "Fallow Bottom", "--on", "2026-12-20")
    assert body == said("feed", "Fallow Bottom", "--on", "2026-12-20")
    assert {m._meta.label: list(m._default_manager.values()) for m in kept()} == before
    computed = {r.uid: (r.entry.on, r.sequence) for r in diary_on(fallow, later)}
    replan(fallow, later)
    now = {r.uid: (r.entry.on, r.sequence) for r in published(fallow)}
    assert computed == now
    assert days_in(body) == {uid: on for uid, (on, _) in now.items()}


def kept() -> list[Any]:
    return [m for m in apps.get_models() if m._meta.app_label == "starting"]


def test_the_feed_of_a_day_bears_that_days_time(fallow: Yard) -> None:
    DiaryEntry.objects.all().delete()
    changed = {revised.changed for revised in diary_on(fallow, ON)}
    assert changed == {datetime(2026, 11, 25, tzinfo=UTC)}


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
