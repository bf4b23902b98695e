"""A horse moved to another programme, asked about, told as success."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client

from fitting.models import Horse, Yard
from starting.models import Plan, ProgrammeVersion, Rest, StageRecord
from starting.programme import shipped, shipped_table
from starting.programme.tables import table_of
from starting.reads.facts import programme_of
from starting.reads.programmes import versions_of
from starting.writes.plans import give_plan, shipped_version
from starting.yardfile import dump_yard, load_yard
from tests.make import make_horse
from tests.starting.making_log import (
    make_session,
    make_youngster,
    page,
    planned,
    today,
)
from tests.starting.making_programme_pages import at, jo, own, said, sent

pytestmark = pytest.mark.django_db


def test_what_would_change_is_seen_before_a_horse_is_moved(
    yard: Yard, keeper: Client
) -> None:
    tansy = make_youngster(yard)
    planned(yard)
    answer = keeper.get(page("move-programme", tansy, "late_big_heavy"))
    text = said(answer)
    assert "Established, and stays so: 15 steps" in text
    assert "Earliest: 42 months, was 36 months." in text
    assert "First roller" in text
    assert "later" in text
    assert tansy.plan.programme.key == "default"


def test_a_horse_is_moved_and_what_was_established_stays(
    yard: Yard, keeper: Client
) -> None:
    tansy = make_youngster(yard)
    for days in (9, 7, 5, 3):
        make_session(tansy, days)
    row = own(yard)
    there = at(yard, "change-programme-step", row.pk, "bridle")
    keeper.post(there, sent(keeper, there, min_good_sessions="9", usual_high="12"))
    newer = versions_of(row)[-1]
    planned(yard)
    move = page("move-programme", tansy, newer.pk)
    assert "1 of them would need more by the new counts" in said(keeper.get(move))
    assert keeper.post(move, {"seen_revision": tansy.plan.revision}).status_code == 302
    record = StageRecord.objects.get(horse=tansy, stage="bridle")
    assert record.on == today(yard) - timedelta(days=5)  # the third good one
    assert "Home-bred riding horse" in record.note
    plan = Plan.objects.get(horse=tansy)
    assert plan.programme == newer
    assert plan.programme_chosen


def test_steps_of_a_programme_left_behind_stay_written_down(
    yard: Yard, keeper: Client
) -> None:
    tansy = make_youngster(yard)
    planned(yard)
    before = set(tansy.stage_records.values_list("stage", "on"))
    move = page("move-programme", tansy, "restart")
    text = said(keeper.get(move))
    assert "Not steps of this programme, but still written down: First handling" in text
    keeper.post(move, {"seen_revision": tansy.plan.revision})
    assert set(tansy.stage_records.values_list("stage", "on")) == before
    back = page("move-programme", tansy, "default")
    tansy.plan.refresh_from_db()
    keeper.post(back, {"seen_revision": tansy.plan.revision})
    text = said(keeper.get(page("steps", tansy)))
    assert "First handling : established" in text


def test_an_aim_that_is_no_step_of_the_new_programme_goes(
    yard: Yard, keeper: Client
) -> None:
    tansy = make_youngster(yard)
    Plan.objects.filter(horse=tansy).update(aim_stage="side_reins")
    planned(yard)
    move = page("move-programme", tansy, "late_big_heavy")
    assert "The aim goes" in said(keeper.get(move))
    keeper.post(move, {"seen_revision": tansy.plan.revision})
    assert Plan.objects.get(horse=tansy).aim_stage == ""


def test_a_horse_that_came_settles_in_first(yard: Yard, keeper: Client) -> None:
    tansy = make_youngster(yard)
    planned(yard)
    move = page("move-programme", tansy, "late_starter")
    on = today(yard) - timedelta(days=2)
    revision = tansy.plan.revision
    wrong = {"seen_revision": revision, "settle_from": "2199-01-01"}
    assert keeper.post(move, wrong).status_code == 422
    keeper.post(move, {"seen_revision": revision, "settle_from": on.isoformat()})
    rest = Rest.objects.get(horse=tansy)
    assert (rest.start, rest.end) == (on, on + timedelta(days=13))


def test_a_plan_changed_meanwhile_is_not_overwritten(
    yard: Yard, keeper: Client
) -> None:
    tansy = make_youngster(yard)
    planned(yard)
    seen = tansy.plan.revision
    plan = Plan.objects.get(horse=tansy)
    plan.aim_stage = "saddle"
    plan.save()
    move = page("move-programme", tansy, "late_starter")
    assert keeper.post(move, {"seen_revision": seen}).status_code == 422


def test_a_grown_horse_goes_by_no_programme(yard: Yard, keeper: Client) -> None:
    fennel = make_horse(yard, grown=True)
    assert keeper.get(page("choose-programme", fennel)).status_code == 404
    assert keeper.get(page("move-programme", fennel, "restart")).status_code == 404


# Asked, not imposed
def asked(client: Client, horse: Horse) -> bool:
    return "Would another way up suit?" in said(client.get(page("steps", horse)))


def test_a_keeper_is_asked_once_and_the_horse_stays_until_told(
    yard: Yard, keeper: Client, helper: Client
) -> None:
    biscuit = make_youngster(yard, "Biscuit", horse_type="small_pony")
    planned(yard)
    assert biscuit.plan.programme.key == "default"
    assert asked(keeper, biscuit)
    assert not asked(helper, biscuit)
    assert "Biscuit is a small pony: few riders" in said(keeper.get(at(yard, "today")))
    assert "It may suit." in said(keeper.get(page("choose-programme", biscuit)))
    keeper.post(page("choose-programme", biscuit))
    assert not asked(keeper, biscuit)
    assert "Would another" not in said(keeper.get(at(yard, "today")))
    assert Plan.objects.get(horse=biscuit).programme.key == "default"


def test_nobody_is_asked_about_a_horse_that_the_usual_way_suits(
    yard: Yard, keeper: Client
) -> None:
    tansy = make_youngster(yard, horse_type="pony")
    planned(yard)
    assert not asked(keeper, tansy)


def test_a_small_pony_that_finished_is_told_as_success(
    yard: Yard, keeper: Client
) -> None:
    pony = make_horse(yard, name="Biscuit", horse_type="small_pony")
    plan = give_plan(pony)
    assert plan is not None
    plan.programme = shipped_version("small_pony")
    plan.save()
    steps = [stage.key for stage in shipped("small_pony").stages]
    on = today(yard) - timedelta(days=3)
    StageRecord.objects.bulk_create(
        StageRecord(horse=pony, stage=stage, state="established", on=on)
        for stage in steps[: steps.index("saddle")]
    )
    planned(yard)
    text = said(keeper.get(at(yard, "today")))
    assert "The way up is complete" in text
    assert "Why not more" not in text
    assert "Riding away and rest" not in text
    assert "No step is ahead." in said(keeper.get(at(yard, "plan")))
    ready = said(keeper.get(page("ready", pony)))
    assert "way up is complete. Nothing below has to become a yes." in ready
    assert "Not yet:" not in ready
    following = said(keeper.get(page("next-session", pony)))
    assert "The way up is complete" in following
    assert "No next session yet" not in following
    steps_text = said(keeper.get(page("steps", pony)))
    assert "the way up ends with Long-reined out" in steps_text


def test_own_programmes_go_through_the_yard_file_with_who_and_why(
    yard: Yard, keeper: Client
) -> None:
    row = own(yard, "late_starter", "Bought ones")
    there = at(yard, "change-programme-step", row.pk, "bridle")
    keeper.post(there, sent(keeper, there, earliest_months="31"))
    tansy = make_youngster(yard)
    Plan.objects.filter(horse=tansy).update(programme=versions_of(row)[-1])
    dump = dump_yard(yard)
    again = load_yard(dump, today(yard), replace=True)
    assert dump_yard(again) == dump
    first, second = again.programmes.order_by("pk")
    assert (first.name, second.name) == ("Bought ones", "Bought ones")
    assert (second.made_by, second.what_changed) == (jo(yard), "Wetter springs.")
    assert second.made_at.date() == today(yard)
    assert programme_of(second).stage("bridle").earliest_months == 31
    assert programme_of(second).settle_days == 14
    plan = Plan.objects.get(horse__yard=again)
    assert plan.programme == second
    assert ProgrammeVersion.objects.filter(yard=again).count() == 2
    assert table_of(first.text)["stage"] == shipped_table("late_starter")["stage"]


def test_every_page_of_a_moved_horse_opens(yard: Yard, keeper: Client) -> None:
    tansy = make_youngster(yard)
    old = make_session(tansy, 400, "company")
    make_session(tansy, 3)
    Plan.objects.filter(horse=tansy).update(programme=shipped_version("restart"))
    planned(yard)
    names = (
        "steps", "sessions", "next-session", "ready", "for-others", "care", "to-get",
        "horse-diary", "horse-moved", "log-session", "edit-plan", "choose-programme",
    )  # fmt: skip
    there = [page(n, tansy) for n in names if n != "to-get"]
    there += [page("horse-to-get", tansy), page("edit-session", tansy, old.pk)]
    there += [at(yard, name) for name in ("today", "plan", "moved", "write")]
    there += [page("step", tansy, "body_check"), page("step-card", tansy, "roller")]
    for address in there:
        assert keeper.get(address).status_code == 200, address
    assert keeper.get(page("step", tansy, "company")).status_code == 404
    assert "First handling" in said(keeper.get(page("sessions", tansy)))
