"""Who must be there for a step: told alike wherever it is told."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from django.test import Client

from fitting.models import Yard
from starting.diary import Task, stage_starts_entry
from starting.outlook.entries import step_of
from starting.people import SECOND, people_of
from starting.programme import Stage, shipped, shipped_keys
from starting.reads.step_facts import how
from tests.starting.making_log import make_youngster, page, planned

STEPS = [(key, stage) for key in shipped_keys() for stage in shipped(key).stages]
ASKED = [(key, stage) for key, stage in STEPS if SECOND & set(stage.gates_on_the_day)]


@pytest.mark.parametrize(
    "stage", [pytest.param(one, id=f"{key}/{one.key}") for key, one in ASKED]
)
def test_no_step_that_asks_for_a_second_person_says_that_one_is_enough(
    stage: Stage,
) -> None:
    task = Task(
        horse="Tansy", horse_key="tansy", on=date(2026, 3, 7), because="", path="/"
    )
    assert people_of(stage).startswith(("two people", "three people"))
    assert dict(how(stage))["Who must be there"] == people_of(stage)
    text = stage_starts_entry(task, step_of(stage)).text
    assert "one capable adult" not in text


def test_the_first_times_only_are_told_as_the_first_times() -> None:
    mouthing = shipped().stage("mouthing")
    assert (
        people_of(mouthing) == "two people at first, one at the head who knows horses"
    )
    alone = replace(mouthing, gates_on_the_day=())
    assert people_of(alone) == "one person"


def test_a_step_of_one_day_a_week_says_one_day() -> None:
    assert dict(how(shipped().stage("side_reins")))["How often"].startswith(
        "1 day a week"
    )
    assert dict(how(shipped().stage("bridle")))["How often"].startswith(
        "2 to 4 days a week"
    )


def test_a_step_and_its_card_ask_for_the_same_people(
    yard: Yard, keeper: Client
) -> None:
    tansy = make_youngster(yard)
    planned(yard)
    for step, who in (
        ("mouthing", "two people: one at the head who knows horses"),
        ("long_reins_on_bit", "two people: one at the head who knows horses"),
        ("bridle", "one person"),
    ):
        for name in ("step", "step-card"):
            assert who in keeper.get(page(name, tansy, step)).content.decode()
