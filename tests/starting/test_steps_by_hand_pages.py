"""Steps set by hand, one or many at once, and undone; by whom."""

from __future__ import annotations

from datetime import timedelta

from django.test import Client

from fitting.models import Horse, Yard
from tests.make import make_horse, make_user
from tests.starting.making_log import (
    BEFORE_BRIDLE,
    make_record,
    page,
    planned,
    today,
    words,
)


def test_a_step_is_set_by_hand_changed_and_undone(keeper: Client, tansy: Horse) -> None:
    there = page("record-step", tansy, "big_circle")
    assert keeper.get(there).status_code == 200
    on = today(tansy.yard).isoformat()
    keeper.post(there, {"state": "left_out", "on": on, "note": "No room"})
    row = tansy.stage_records.get(stage="big_circle")
    assert (row.state, row.note) == ("left_out", "No room")
    sent = {"state": "established", "on": on, "note": "Seen"}
    keeper.post(there, sent | {"seen_revision": str(row.revision)})
    row.refresh_from_db()
    assert row.state == "established"
    keeper.post(there, {"undo": "yes"})
    assert not tansy.stage_records.filter(stage="big_circle").exists()
    assert tansy.stage_records.count() == len(BEFORE_BRIDLE)


def test_a_day_still_to_come_sets_no_step(keeper: Client, tansy: Horse) -> None:
    on = today(tansy.yard) + timedelta(days=1)
    sent = {"state": "established", "on": on.isoformat(), "note": "kept words"}
    answer = keeper.post(page("record-step", tansy, "bridle"), sent)
    assert answer.status_code == 422
    assert "kept words" in answer.content.decode()
    assert not tansy.stage_records.filter(stage="bridle").exists()


def test_a_horse_that_came_with_a_history_gets_its_steps_at_once(
    keeper: Client, yard: Yard
) -> None:
    bought = make_horse(yard, name="Bought", foaled="2023-05-01")
    make_record(bought, "company", on=today(yard), note="mine")
    planned(yard)
    led = keeper.get(page("steps", bought) + "?upto=saddle")
    there = led["Location"]
    assert there == page("record-step", bought, "saddle") + "?before=1"
    shown = words(keeper, there)
    assert 'value="bridle"' in shown
    assert 'value="company"' not in shown
    on = (today(yard) - timedelta(days=20)).isoformat()
    upto = ["bridle", "mouthing", "roller", "saddle"]
    sent = {"stages": upto, "on": on, "note": "Vendor", "token": "once"}
    for _ in range(2):
        keeper.post(there, sent)
    set_so = bought.stage_records.filter(note="Vendor", state="established")
    assert sorted(set_so.values_list("stage", flat=True)) == sorted(upto)
    assert bought.stage_records.get(stage="company").note == "mine"


def test_many_steps_set_at_once_are_undone_at_once(
    keeper: Client, tansy: Horse
) -> None:
    there = page("record-step", tansy, "body_check")
    assert f"the {len(BEFORE_BRIDLE) - 1} set with it" in words(keeper, there)
    keeper.post(there, {"undo_all": "yes"})
    assert not tansy.stage_records.exists()


def test_no_step_ticked_is_refused(keeper: Client, tansy: Horse) -> None:
    there = page("record-step", tansy, "saddle") + "?before=1"
    answer = keeper.post(there, {"on": today(tansy.yard).isoformat(), "note": "kept"})
    assert answer.status_code == 422
    assert "Tick one step at least." in answer.content.decode()
    assert 'value="kept"' in answer.content.decode()


def test_who_may_set_steps(
    helper: Client, viewer: Client, client: Client, tansy: Horse
) -> None:
    keepers = [
        page("edit-plan", tansy),
        page("record-step", tansy, "bridle"),
        page("went-ahead", tansy, "roller", "season"),
    ]
    everybodys = [page("steps", tansy), page("step", tansy, "bridle")]
    for one in (helper, viewer):
        assert [one.get(path).status_code for path in keepers] == [403] * 3
        assert [one.post(path).status_code for path in keepers] == [403] * 3
        assert [one.get(path).status_code for path in everybodys] == [200] * 2
    assert [client.get(p).status_code for p in (*keepers, *everybodys)] == [302] * 5
    client.force_login(make_user())
    assert [client.get(p).status_code for p in (*keepers, *everybodys)] == [404] * 5
