"""One entry's page: why, what to bring, on what it rests, and what to press."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from starting.models import DiaryEntry, OffWork
from starting.writes.publish import published
from tests.make import make_horse
from tests.starting.making_diary import address, again, entry, number_of, tansy, today

__all__ = ["tansy", "today"]


def test_an_entry_says_why_what_to_bring_and_what_it_rests_on(
    keeper: Client, tansy: Horse
) -> None:
    page = entry(keeper, number_of(tansy, "measure/"))
    for said in (
        "Why", "What is done", "What to bring", "Measuring stick",
        "What it rests on", "Withers height", "Due today",
    ):  # fmt: skip
        assert said in page
    assert "measure=withers_height" in page
    assert reverse("fitting:measured", args=["sallow-end", tansy.key]) in page


def test_a_step_says_who_must_be_there_and_what_it_waits_for(
    keeper: Client, tansy: Horse
) -> None:
    page = entry(keeper, number_of(tansy, "stage_starts/roller"))
    for said in (
        "Who must be there", "What must be worn", "Asked on the day",
        "An entry is never permission", "What it waits for", "Steps before",
        "See the step",
    ):  # fmt: skip
        assert said in page
    assert "Write up a session" not in page, "nothing is urged months ahead"


@pytest.mark.parametrize("off_work", [False, True])
def test_a_step_offers_a_session_only_once_nothing_holds_it(
    keeper: Client, yard: Yard, today: date, off_work: bool
) -> None:
    horse = make_horse(yard, name="Sorrel", foaled=f"{today - timedelta(days=950)}")
    if off_work:
        OffWork.objects.create(
            horse=horse, start=today, why="A stone", until=today + timedelta(days=2)
        )
    again(yard, today)
    soon = [
        revised
        for revised in published(yard)
        if revised.entry.kind == "stage_starts"
        and revised.entry.on <= today + timedelta(days=7)
    ]
    assert soon
    for revised in soon:
        page = entry(keeper, revised.uid.partition("@")[0])
        assert ("Write up a session" in page) != off_work
        assert ("See the step" in page) == off_work


def test_every_entry_of_the_diary_has_its_page(keeper: Client, tansy: Horse) -> None:
    for row in DiaryEntry.objects.all():
        page = entry(keeper, row.uid.partition("@")[0])
        assert "Download it as it is today" in page, row.key


def test_an_entry_of_another_yard_is_not_there(
    stranger: Client, keeper: Client, tansy: Horse
) -> None:
    assert stranger.get(address(number_of(tansy, "measure/"))).status_code == 404
    assert (
        keeper.get(address("8d1c16c1-a243-5019-80ec-0ca67936a862")).status_code == 404
    )


def test_a_viewer_reads_it_and_is_offered_no_form(
    viewer: Client, helper: Client, tansy: Horse
) -> None:
    for key in ("measure/", "care/farrier", "stage_starts/", "stage_opens/"):
        page = entry(viewer, number_of(tansy, key))
        assert "<form" not in page.partition("<main")[2].partition("<footer")[0]
        for form in ("/measure/?", "/care/new/", "/session/?"):
            assert form not in page
    page = entry(helper, number_of(tansy, "care/farrier"))
    assert "The keeper writes this in." in page
    assert "/care/new/" not in page
