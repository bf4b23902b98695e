"""The way up: its steps, what each needs first, and cautions passed with a reason."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from starting.models import CareVisit, OffWork, Person, StageRecord, WentAhead
from starting.programme import shipped
from tests.make import SIGNED_IN, make_horse, make_measurement
from tests.starting.making_log import (
    make_session,
    make_youngster,
    not_planned,
    page,
    planned,
    today,
    words,
)


@pytest.fixture
def seen(tansy: Horse) -> Horse:
    """Return a youngster whose roller waits for a heart girth that is too old."""
    on = today(tansy.yard) - timedelta(days=80)
    make_measurement(tansy, "heart_girth", on, 1500, method="tape")
    planned(tansy.yard)
    return tansy


def test_the_way_up_shows_every_step_by_phase_and_the_last_true_level(
    viewer: Client, seen: Horse
) -> None:
    shown = words(viewer, page("steps", seen))
    for stage in shipped().stages:
        assert f">{stage.name}</a>" in shown
    assert "Backing</h2>" in shown
    assert "Last true level" in shown
    assert page("step", seen, "body_check") in shown
    assert "Write up a session" not in shown
    assert "came with a history" not in shown


def test_a_rider_and_the_tack_named_in_the_plan_are_what_a_steps_load_rests_on(
    keeper: Client, helper: Client, seen: Horse
) -> None:
    ready = words(keeper, page("step", seen, "astride"))
    assert "who rides, what all the tack weighs and what Tansy weighs now" in ready
    assert "the plan names nobody to ride Tansy" in ready
    yard = seen.yard
    sam = Person.objects.create(yard=yard, name="Sam", weight_kg=20, can=["ride"])
    on = today(yard)
    make_measurement(seen, "weight", on, 300, method="weighbridge")
    sent = {
        "rider": sam.pk,
        "tack_weight": "8 kg",
        "seen_revision": seen.plan.revision,
    }
    assert keeper.post(page("edit-plan", seen), sent).status_code == 302
    planned(yard)
    shown = words(helper, page("step", seen, "astride"))
    assert "Sam, counted a tenth heavier as a novice, with all the tack is 10" in shown
    assert "Sam has not backed horses before." in shown
    assert "20 kg" not in shown  # what somebody weighs is the keepers' to see
    top = words(helper, page("steps", seen))
    assert "Rider Sam, no trainer named, all the tack 8 kg." in top


def test_each_of_the_way_up_leads_to_where_people_and_places_are_mended(
    keeper: Client, helper: Client, seen: Horse
) -> None:
    slug = seen.yard.slug
    astride = page("step", seen, "astride")
    assert page("edit-plan", seen) in words(keeper, astride)
    assert reverse("starting:people", args=[slug]) in words(helper, astride)
    assert page("edit-plan", seen) not in words(helper, astride)
    assert page("sessions", seen) in words(helper, page("step", seen, "ready_check"))
    roller = page("step", seen, "roller")
    assert reverse("starting:edit-yard", args=[slug]) in words(keeper, roller)
    assert reverse("starting:edit-yard", args=[slug]) not in words(helper, roller)
    assert helper.get(reverse("starting:yard-settings", args=[slug])).status_code == 200


def test_a_horse_before_its_first_planning_says_so(
    keeper: Client, tansy: Horse
) -> None:
    assert "Not planned yet" in words(keeper, page("steps", tansy))
    assert "not worked out yet" in words(keeper, page("step", tansy, "bridle"))


def test_a_grown_horse_has_no_way_up(keeper: Client, yard: Yard) -> None:
    marl = make_horse(yard, name="Marl", grown=True, foaled="2012")
    not_planned(yard)
    assert "Marl is grown" in words(keeper, page("steps", marl))
    assert keeper.get(page("step", marl, "bridle")).status_code == 404


def test_a_step_says_what_comes_first_why_and_what_makes_it_a_yes(
    keeper: Client, seen: Horse
) -> None:
    shown = words(keeper, page("step", seen, "roller"))
    assert "Heart girth measured" in shown
    assert "yes, but" in shown
    assert "To make it a yes:" in shown
    assert page("went-ahead", seen, "roller", "fresh:heart_girth") in shown
    assert "Ages here are earliest starting points, not targets" in shown
    assert "Are hat, gloves and boots on?" in shown
    assert "Stop when" in shown
    assert "Humps, squeals or plunges" in shown
    for caution in shipped().stage("roller").cautions:
        assert caution in shown


def test_a_viewer_sees_the_cautions_but_no_way_past_them(
    viewer: Client, seen: Horse
) -> None:
    shown = words(viewer, page("step", seen, "roller"))
    assert "Ages here are earliest starting points, not targets" in shown
    assert "Go ahead" not in shown
    assert "Set by hand" not in shown


def test_off_work_is_said_before_all_else(keeper: Client, seen: Horse) -> None:
    OffWork.objects.create(
        horse=seen, start=today(seen.yard), why="lame", cleared_by="the vet"
    )
    planned(seen.yard)
    shown = words(keeper, page("step", seen, "roller"))
    assert shown.index("Not yet. Tansy is off work since") < shown.index("To do first")


def test_an_unknown_step_is_not_there(keeper: Client, tansy: Horse) -> None:
    assert keeper.get(page("step", tansy, "no_step")).status_code == 404
    assert keeper.get(page("record-step", tansy, "no_step")).status_code == 404


def test_a_caution_is_passed_with_a_reason_that_stays_visible(
    keeper: Client, seen: Horse
) -> None:
    there = page("went-ahead", seen, "roller", "fresh:heart_girth")
    assert "does not stand" in words(keeper, there)
    on = today(seen.yard).isoformat()
    sent = {"reason": "Girth tried on today", "who": "Jo", "on": on, "token": "once"}
    keeper.post(there, sent)
    keeper.post(there, sent)
    row = WentAhead.objects.get()
    assert (row.stage, row.gate, row.reason) == (
        "roller",
        "fresh:heart_girth",
        "Girth tried on today",
    )
    planned(seen.yard)
    shown = words(keeper, page("step", seen, "roller"))
    assert "Went ahead because:</b> Girth tried on today (Jo," in shown
    assert "No longer counts" not in shown
    keeper.post(there, {"take_back": "yes"})
    assert not WentAhead.objects.exists()


def test_a_reason_is_asked_for(keeper: Client, seen: Horse) -> None:
    there = page("went-ahead", seen, "roller", "fresh:heart_girth")
    on = today(seen.yard) + timedelta(days=1)
    sent = {"reason": "  ", "who": "Jo", "on": on.isoformat()}
    answer = keeper.post(there, sent)
    assert answer.status_code == 422
    assert "That day is still to come." in answer.content.decode()
    assert not WentAhead.objects.exists()


@pytest.mark.parametrize("gate", ["age", "stages_before", "safety_gear", "no_gate"])
def test_what_no_reason_may_pass_has_no_form(
    keeper: Client, seen: Horse, gate: str
) -> None:
    there = page("went-ahead", seen, "roller", gate)
    assert keeper.get(there).status_code == 404
    sent = {"reason": "Because", "who": "Jo", "on": today(seen.yard).isoformat()}
    assert keeper.post(there, sent).status_code == 404
    assert not WentAhead.objects.exists()


@pytest.mark.parametrize("horses", [1, 6])
def test_queries_do_not_grow_with_the_yard(
    keeper: Client, yard: Yard, horses: int, django_assert_num_queries: Any
) -> None:
    tansy = make_youngster(yard)
    for number in range(1, horses):
        make_horse(yard, name=f"Horse {number}")
    for days_ago in range(horses * 3):
        make_session(tansy, days_ago)
        CareVisit.objects.create(
            horse=tansy, kind="teeth", on=today(yard) - timedelta(days=days_ago)
        )
    planned(yard)
    with django_assert_num_queries(SIGNED_IN + 3):  # horse, programme, outlook
        keeper.get(page("steps", tansy))
    with django_assert_num_queries(SIGNED_IN + 9):
        keeper.get(page("step", tansy, "bridle"))


def test_records_of_unknown_steps_do_no_harm(keeper: Client, tansy: Horse) -> None:
    StageRecord.objects.create(
        horse=tansy, stage="not_in_it", state="established", on=today(tansy.yard)
    )
    make_session(tansy, 1)
    tansy.sessions.update(stage="gone_step")
    planned(tansy.yard)
    assert keeper.get(page("steps", tansy)).status_code == 200
    assert "gone step" in words(keeper, page("sessions", tansy))
