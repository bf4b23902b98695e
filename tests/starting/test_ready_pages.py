"""Ready to back: every fact on one page, both sides, and who may sit on which horse."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from starting.gates import GateAnswer
from starting.models import CareVisit, Person, Plan, StageRecord
from starting.reads.outlook import outlook_of
from starting.reads.ready import ReadyPage, ready_page, worst_of
from starting.reads.seats import riders_page
from starting.writes import replan, today_in
from tests.make import make_horse, make_measurement


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return make_horse(yard, name="Tansy", foaled="2022-04-19", horse_type="light")


def page_of(horse: Horse, role: str = "keeper") -> ReadyPage:
    today = today_in(horse.yard)
    replan(horse.yard, today)
    return ready_page(Horse.objects.get(pk=horse.pk), role, today)


def weigh(horse: Horse, kg: float, method: str = "weighbridge") -> None:
    make_measurement(
        horse, "weight", on=today_in(horse.yard) - timedelta(days=2), value=kg,
        method=method, readings=[{"written": f"{kg:g} kg", "value": kg}],
    )  # fmt: skip


def ridden_by(horse: Horse, kg: float, tack: float = 10.0, **fields: object) -> Person:
    Plan.objects.filter(horse=horse).update(tack_weight_kg=tack)
    return Person.objects.create(
        yard=horse.yard, name="Sam", can=["ride"], weight_kg=kg, **fields
    )


def address(horse: Horse) -> str:
    return reverse("starting:ready", args=[horse.yard.slug, horse.key])


def test_the_page_asks_what_the_check_and_the_first_steps_ask(tansy: Horse) -> None:
    page = page_of(tansy)
    asked = {row.gate for group in page.gates for row in group.rows}
    assert {
        "age", "growth_pause", "teeth", "vet", "weight_trend", "rider_load",
        "rider_experience", "fit:saddle", "recent_sessions", "fresh:weight",
        "second_person",
    } <= asked  # fmt: skip
    assert page.stage == "ready_check"
    assert page.top.startswith("Not yet: ")
    assert not page.finish


def test_the_worst_answer_of_the_steps_stands_and_each_gate_once(tansy: Horse) -> None:
    page = page_of(tansy)
    gates = [row.gate for group in page.gates for row in group.rows]
    assert len(gates) == len(set(gates))
    before = next(
        row for group in page.gates for row in group.rows if row.gate == "stages_before"
    )
    assert "Ready-to-back" not in before.why  # the check is not asked for before itself


def test_growth_spine_weight_and_last_level_are_told(tansy: Horse) -> None:
    today = today_in(tansy.yard)
    make_measurement(tansy, value=1550.0)
    weigh(tansy, 430)
    StageRecord.objects.create(
        horse=tansy, stage="company", state="established", on=today
    )
    said = {fact.title: fact.said for fact in page_of(tansy).facts}
    assert "of the grown height is reached" in said["Growth left"]
    assert said["The spine"] == "Goes on growing until about 2027 to 2028."
    assert said["Weight to go by"].startswith("430\u2009kg on ")
    assert said["Last true level"] == "First handling."


def test_nothing_measured_is_not_known_and_never_fine(tansy: Horse) -> None:
    said = {fact.title: fact.said for fact in page_of(tansy).facts}
    assert said["Weight to go by"].startswith("Not known")
    assert said["Last true level"].startswith("None yet")


def test_a_small_pony_may_finish_at_long_reins(yard: Yard, keeper: Client) -> None:
    pip = make_horse(yard, name="Pip", foaled="2021-04-19", horse_type="small_pony")
    page = page_of(pip)
    assert page.finish.startswith("Pip is a small pony")
    assert not page.top
    text = keeper.get(address(pip)).content.decode()
    assert "Nothing below has to become a yes." in text
    assert "Not yet: " not in text
    assert "If a light rider comes one day" in text


def test_long_reins_done_are_said_to_be_enough(yard: Yard) -> None:
    pip = make_horse(yard, name="Pip", foaled="2020-04-19", horse_type="small_pony")
    replan(yard, today_in(yard))
    StageRecord.objects.create(
        horse=pip, stage="long_reins_out", state="established", on=today_in(yard)
    )
    assert "the way up is done as far as it needs to go" in page_of(pip).finish


def test_no_rider_light_enough_is_a_finish_too_but_only_if_known(
    yard: Yard,
) -> None:
    bell = make_horse(yard, name="Bell", foaled="2021-04-19", horse_type="pony")
    weigh(bell, 200)
    assert not page_of(bell).finish
    person = ridden_by(bell, 110.0)
    bell_page = page_of(bell)
    assert bell_page.finish.startswith("No rider of this yard is light enough")
    assert bell_page.seats is not None
    assert [row.word for row in bell_page.seats.rows] == ["too heavy"]
    (listed,) = riders_page(yard, today_in(yard))
    assert [row.word for row in listed.rows] == ["too heavy"]
    person.weight_kg = None
    person.save()
    assert not page_of(bell).finish


def test_riders_are_for_the_keepers_eyes(tansy: Horse, viewer: Client) -> None:
    weigh(tansy, 430)
    ridden_by(tansy, 60.0, has_backed_horses=True)
    assert page_of(tansy).seats is not None
    assert page_of(tansy, "viewer").seats is None
    text = viewer.get(address(tansy)).content.decode()
    assert "16.3 %, at most" not in text
    assert "Who may sit on" not in text
    riders = reverse("starting:riders", args=[tansy.yard.slug])
    assert viewer.get(riders).status_code == 403


def test_who_may_sit_on_which_horse_is_said_with_the_share(
    tansy: Horse, keeper: Client
) -> None:
    weigh(tansy, 500)
    ridden_by(tansy, 65.0, has_backed_horses=True)
    young = make_horse(tansy.yard, name="Young", foaled="2025-04-19")
    make_horse(tansy.yard, name="Fennel", foaled="2010", grown=True)
    found = {
        seats.name: seats for seats in riders_page(tansy.yard, today_in(tansy.yard))
    }
    assert set(found) == {"Tansy", "Young"}
    (row,) = found["Tansy"].rows
    assert (row.sign, row.word) == ("watch", "heavy, still within the limit")
    assert row.share == "15 %, at most 15.2 %"
    assert found["Young"].age.startswith(
        "Nobody yet, whoever it is: no rider before 36"
    )
    assert found["Young"].rows[0].sign == "not_known"
    page_of(young)
    riders = reverse("starting:riders", args=[tansy.yard.slug])
    text = keeper.get(riders).content.decode()
    assert "15 %, at most 15.2 %" in text
    assert "Heavy, still within the limit" in text


def test_both_sides_stand_with_their_sources(tansy: Horse, viewer: Client) -> None:
    page_of(tansy)
    text = viewer.get(address(tansy)).content.decode()
    for words in (
        "Where experts disagree",
        "How old before a rider?",
        "Rogers, Gee, Dittmer (2021)",
        "Haussler, Stover, Willits (1997)",
        "Dyson et al. (2019/20)",
        "British Dressage",
    ):
        assert words in text, words


def test_a_visit_of_the_vet_changes_the_count(tansy: Horse) -> None:
    before = page_of(tansy).top
    today = today_in(tansy.yard)
    for kind in ("vet", "teeth"):
        CareVisit.objects.create(horse=tansy, kind=kind, on=today - timedelta(days=3))
    assert page_of(tansy).top != before


def test_a_grown_horse_is_asked_nothing(yard: Yard, viewer: Client) -> None:
    old = make_horse(yard, name="Fennel", foaled="2010", grown=True)
    page = page_of(old)
    assert page.top == "Fennel is grown and has no way up here: nothing is asked."
    assert (page.gates, page.facts, page.seats) == ((), (), None)
    assert viewer.get(address(old)).status_code == 200


def test_the_way_up_leads_here(tansy: Horse, viewer: Client) -> None:
    page_of(tansy)
    steps = reverse("starting:steps", args=[tansy.yard.slug, tansy.key])
    assert address(tansy) in viewer.get(steps).content.decode()


def test_of_one_gate_the_worst_of_the_first_steps_stands(tansy: Horse) -> None:
    horse = Horse.objects.get(pk=tansy.pk)
    page_of(horse)
    outlook = outlook_of(horse)
    assert outlook is not None
    look = outlook.stage("ready_check")
    assert look is not None
    good = next(gate for gate in look.gates if gate.gate == "age")
    bad = replace(good, stage="leaned_over", answer=GateAnswer.SHUT)
    fine = replace(good, answer=GateAnswer.MET)
    for first, second in ((fine, bad), (bad, fine)):
        looks = [replace(look, gates=(first,)), replace(look, gates=(second,))]
        assert worst_of(looks) == (bad,)
