"""The commands: a yard in and out, its feed, and the one line they say of a fault."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from fitting.models import Yard
from starting.management.commands.feed import diary_on
from starting.management.plain import Error
from starting.models import DiaryEntry
from starting.writes import replan, today_in
from starting.writes.publish import published
from starting.yardfile import dump_yard, load_yard
from tests.starting.making_commands import ON, ROOT, days_in, kept, run, said
from tests.starting.rich_yard import rich

ICELANDIC = ROOT / "tests" / "published" / "icelandic.json"


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


def test_the_feed_is_the_diary_as_it_is_published(fallow: Yard) -> None:
    body = said("feed", "Fallow Bottom")
    rows = DiaryEntry.objects.filter(yard=fallow)
    assert days_in(body) == {row.uid: row.on for row in rows}
    assert rows.count() > 4
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


def test_the_feed_of_a_day_bears_that_days_time(fallow: Yard) -> None:
    DiaryEntry.objects.all().delete()
    changed = {revised.changed for revised in diary_on(fallow, ON)}
    assert changed == {datetime(2026, 11, 25, tzinfo=UTC)}
