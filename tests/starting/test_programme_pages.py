"""Programmes on their pages: read, copied, changed, and given to a horse."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from starting.models import Plan, ProgrammeVersion, Rest, StageRecord
from starting.programme import shipped, shipped_keys, shipped_table
from starting.programme.tables import table_of
from starting.reads.facts import programme_of
from starting.reads.programmes import versions_of
from starting.writes.plans import give_plan, shipped_version
from starting.writes.programmes import copy_programme
from starting.yardfile import dump_yard, load_yard
from tests.make import make_horse, make_yard
from tests.starting.making_log import (
    make_session,
    make_youngster,
    page,
    planned,
    today,
)

pytestmark = pytest.mark.django_db


def at(yard: Yard, name: str, *parts: object) -> str:
    return reverse(f"starting:{name}", args=[yard.slug, *parts])


def own(yard: Yard, base: str = "default", name: str = "As we do it") -> Any:
    return copy_programme(yard, shipped_version(base), name, "To try.", "Jo", "")


def jo(yard: Yard) -> str:
    """Return the keeper's name."""
    return yard.memberships.get(role="keeper").user.username


def said(answer: Any) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.content.decode()))


def sent(client: Client, there: str, **changes: Any) -> dict[str, Any]:
    """Return what the step's form would send as it stands, with some changes."""
    form = client.get(there).context["form"]
    fields = {n: form[n].value() for n in form.fields if form[n].value() is not None}
    return fields | {"why": "Wetter springs."} | changes


# The list, and one of them


def test_every_shipped_programme_is_listed_with_who_follows_it(
    yard: Yard, keeper: Client
) -> None:
    make_youngster(yard, "Tansy")
    text = said(keeper.get(at(yard, "programmes")))
    for key in shipped_keys():
        assert shipped(key).name in text
    assert "Followed by Tansy" in text
    assert "None yet. Open one below" in text


@pytest.mark.parametrize("key", shipped_keys())
def test_a_shipped_programme_shows_each_step_with_its_ticks(
    yard: Yard, viewer: Client, key: str
) -> None:
    answer = viewer.get(at(yard, "programme", key))
    text = answer.content.decode()
    for stage in shipped(key).stages:
        assert stage.name in text
    assert text.count('<div class="row-e') >= len(shipped(key).stages)
    assert "Make a copy" not in text


def test_a_programme_of_another_yard_is_not_there(yard: Yard, keeper: Client) -> None:
    other = own(make_yard())
    for name in ("programme", "programme-versions", "copy-programme"):
        assert keeper.get(at(yard, name, other.pk)).status_code == 404
    assert keeper.get(at(yard, "programme", "nonsense")).status_code == 404
    assert keeper.get(at(yard, "programme", "0")).status_code == 404


# A copy of one's own


def test_a_copy_is_a_version_of_the_yards_own(yard: Yard, keeper: Client) -> None:
    there = at(yard, "copy-programme", "small_pony")
    answer = keeper.post(there, {"name": " Our  ponies ", "why": "Smaller steps."})
    row = yard.programmes.get()
    assert answer.headers["Location"] == row.get_absolute_url()
    assert (row.name, row.key) == ("Our ponies", "small_pony")
    assert row.made_by == jo(yard)
    assert programme_of(row).stages == shipped("small_pony").stages
    assert programme_of(row).may_end_at == "long_reins_out"
    assert not Plan.objects.filter(programme=row).exists()


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("As we do it", "a programme of that name already"),
        ("as WE do it", "a programme of that name already"),
        ("Re-start", "a programme of that name already"),
        ("restart", "a programme of that name already"),
        ("Ours (2)", "No number in brackets"),
        ("", "required"),
    ],
)
def test_a_name_that_is_taken_is_refused_beside_it(
    yard: Yard, keeper: Client, name: str, words: str
) -> None:
    own(yard)
    there = at(yard, "copy-programme", "default")
    answer = keeper.post(there, {"name": name, "why": "Because."})
    assert answer.status_code == 422
    assert words in said(answer)
    assert yard.programmes.count() == 1


def test_a_copy_sent_twice_is_made_once(yard: Yard, keeper: Client) -> None:
    there = at(yard, "copy-programme", "default")
    data = {"name": "Ours", "why": "To try.", "token": "abc"}
    first, second = keeper.post(there, data), keeper.post(there, data)
    assert first.headers["Location"] == second.headers["Location"]
    assert yard.programmes.count() == 1


# A step changed


def test_a_changed_step_is_a_new_version_and_the_old_one_stays(
    yard: Yard, keeper: Client
) -> None:
    row = own(yard)
    there = at(yard, "change-programme-step", row.pk, "bridle")
    data = sent(keeper, there, earliest_months="32", typical_low="33", tick_0="")
    data |= {"tick_5": "Stands tied in it"}
    answer = keeper.post(there, data)
    first, second = versions_of(row)
    assert answer.headers["Location"] == second.get_absolute_url()
    assert programme_of(first).stages == shipped().stages
    bridle = programme_of(second).stage("bridle")
    assert (bridle.earliest_months, bridle.typical_months) == (32, (33, 35))
    usual = [check.key for check in shipped().stage("bridle").checks]
    assert [c.key for c in bridle.checks] == [*usual[1:], "stands_tied_in_it"]
    assert (second.made_by, second.what_changed) == (jo(yard), "Wetter springs.")
    text = said(keeper.get(at(yard, "programme-versions", second.pk)))
    assert "Earliest: 32 months, was 30 months." in text
    assert "A tick more: Stands tied in it." in text
    assert f"by {jo(yard)}: Wetter springs." in text
    assert "The same steps, under a name of the yard" in text


REFUSED: list[tuple[str, dict[str, Any], str]] = [
    ("bridle", {"earliest_months": "23"}, "Not under 24 months"),
    ("bridle", {"earliest_months": "soon"}, "Enter a number"),
    ("bridle", {"earliest_months": "nan"}, "Enter a number"),
    ("bridle", {"earliest_months": "1e999"}, ""),
    ("bridle", {"min_good_sessions": "-1"}, "greater than or equal to 0"),
    ("bridle", {"days_high": "9"}, "1 to 7 days a week"),
    ("bridle", {"prerequisites": ["yields_in_hand", "body_check", "roller"]},
     "They would wait in a circle: Bridle without a bit waits for First roller"),
    ("bridle", {"prerequisites": ["fly"]}, "fly is not one of the available choices"),
    ("bridle", {}, "Nothing is changed yet."),
    ("bridle", {"earliest_months": "31", "why": ""}, "This field is required."),
    ("person_above", {"prerequisites": ["saddle"]}, "has to come after Ready-to-back"),
    ("grow_at_grass", {"earliest_months": "31", "typical_low": "31",
                       "typical_high": "32"}, "It ends at 30 months"),
]  # fmt: skip


@pytest.mark.parametrize(("step", "changes", "words"), REFUSED)
def test_what_cannot_be_is_said_and_nothing_typed_is_lost(
    yard: Yard, keeper: Client, step: str, changes: dict[str, Any], words: str
) -> None:
    row = own(yard)
    there = at(yard, "change-programme-step", row.pk, step)
    answer = keeper.post(there, sent(keeper, there, tick_0="Typed by hand", **changes)
                         if changes else sent(keeper, there))  # fmt: skip
    assert answer.status_code == 422
    assert words in said(answer)
    if changes:
        assert "Typed by hand" in answer.content.decode()
    assert yard.programmes.count() == 1


def test_every_tick_struck_out_is_refused(yard: Yard, keeper: Client) -> None:
    row = own(yard)
    there = at(yard, "change-programme-step", row.pk, "bridle")
    none = {f"tick_{number}": "" for number in range(9)}
    answer = keeper.post(there, sent(keeper, there, **none))
    assert answer.status_code == 422
    assert "One tick at least" in said(answer)


def test_an_older_version_is_not_changed_but_says_who_was_quicker(
    yard: Yard, keeper: Client
) -> None:
    row = own(yard)
    there = at(yard, "change-programme-step", row.pk, "bridle")
    quick = sent(keeper, there, earliest_months="31")
    assert keeper.post(there, quick).status_code == 302
    late = sent(keeper, there, days_in_a_row="1", why="Slower.")
    answer = keeper.post(there, late)
    assert answer.status_code == 422
    newer = f"There is a newer version, by {jo(yard)}: Wetter springs."
    assert newer in said(answer)
    assert len(versions_of(row)) == 2


def test_a_shipped_programme_is_never_changed(yard: Yard, keeper: Client) -> None:
    for name in ("change-programme-step", "take-programme-step"):
        for ref in ("default", shipped_version().pk):
            there = at(yard, name, ref, "bridle")
            assert keeper.get(there).status_code == 404
            assert keeper.post(there, {"why": "x"}).status_code == 404


def test_a_step_is_taken_out_and_put_back(yard: Yard, keeper: Client) -> None:
    row = own(yard)
    there = at(yard, "take-programme-step", row.pk, "mouthing")
    assert "Led in the bit" in said(keeper.get(there))
    keeper.post(there, {"why": "No bit here."})
    out = versions_of(row)[-1]
    assert "mouthing" not in {s.key for s in programme_of(out).stages}
    assert "Put it back : Mouthing" in said(keeper.get(out.get_absolute_url()))
    keeper.post(at(yard, "take-programme-step", out.pk, "mouthing"), {"why": "A bit."})
    back = versions_of(row)[-1]
    assert programme_of(back).stages == shipped().stages


def test_a_check_is_not_taken_out(yard: Yard, keeper: Client) -> None:
    row = own(yard)
    there = at(yard, "take-programme-step", row.pk, "ready_check")
    assert "Ready-to-back check stays" in said(keeper.get(there))
    assert keeper.post(there, {"why": "No need."}).status_code == 422
    assert yard.programmes.count() == 1


def test_only_the_newest_version_that_nobody_follows_is_deleted(
    yard: Yard, keeper: Client
) -> None:
    row = own(yard)
    keeper.post(at(yard, "take-programme-step", row.pk, "feet"), {"why": "Shod."})
    first, second = versions_of(row)
    assert keeper.post(at(yard, "delete-programme", first.pk)).status_code == 422
    horse = make_youngster(yard)
    Plan.objects.filter(horse=horse).update(programme=second)
    assert keeper.post(at(yard, "delete-programme", second.pk)).status_code == 422
    Plan.objects.filter(horse=horse).update(programme=first)
    assert keeper.post(at(yard, "delete-programme", second.pk)).status_code == 302
    assert versions_of(row) == [first]


# A horse moved


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


# A small pony that may finish in long reins


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


# The yard file


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


# What was written down before, of steps that the new programme has not got


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
