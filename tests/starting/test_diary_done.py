"""What was done makes an entry go; what became of it is kept; a tick is taken back."""

from __future__ import annotations

import re
from datetime import date, timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from starting.models import (
    Bought,
    CareVisit,
    DiaryTick,
    PastEntry,
    StageRecord,
)
from starting.writes import replan
from starting.writes.publish import published
from tests.make import make_horse, make_measurement
from tests.starting.making_diary import (
    again,
    diary,
    entry,
    number_of,
    tansy,
    today,
)
from tests.starting.making_outlook import BEFORE_THE_BRIDLE

__all__ = ["tansy", "today"]


# Done: the record makes it go


def test_a_visit_written_in_from_its_entry_makes_the_entry_go(
    keeper: Client, yard: Yard, tansy: Horse, today: date
) -> None:
    number = number_of(tansy, "care/farrier")
    there = reverse("starting:add-care", args=["sallow-end", tansy.key])
    assert f'href="{there}?kind=farrier"' in entry(keeper, number)
    form = keeper.get(f"{there}?kind=farrier").content.decode()
    assert re.search(r'<option value="farrier" selected', form)
    token = re.search(r'name="token" value="([^"]+)"', form)
    assert token is not None
    answer = keeper.post(
        there,
        {"kind": "farrier", "on": f"{today}", "clear": "True", "token": token[1]},
    )
    assert answer.status_code == 302
    yard.refresh_from_db()
    replan(yard, today)
    assert not yard.diary.filter(uid__startswith=number).exists()
    told = f"Written in as done on {today.day} "
    assert told in entry(keeper, number)
    due = today + timedelta(days=3)
    for shape in ("list", "month"):
        page = diary(keeper, f"?month={due:%Y-%m}&as={shape}")
        assert "Tansy: farrier" in page
        assert "diary-done" in page


def test_what_was_measured_is_told_and_comes_back_when_struck_out(
    keeper: Client, yard: Yard, tansy: Horse, today: date
) -> None:
    first = next(r for r in published(yard) if r.entry.kind == "measure")
    number, leader = first.uid.partition("@")[0], first.entry.key.split("/")[2]
    measure = leader.rpartition("-")[0]
    rows = [
        make_measurement(tansy, name, on=today, value=1300.0)
        for name in ("withers_height", "croup_height")
    ] + [make_measurement(tansy, measure, on=today, value=400.0, method="tape")]
    again(yard, today)
    assert f"Measured on {today.day} " in entry(keeper, number)
    for row in rows:
        row.struck = "The tape had slipped."
        row.save()
    again(yard, today)
    page = entry(keeper, number)
    assert "Measured on" not in page
    assert "Due today" in page
    assert "Not asked for any more" not in diary(keeper)


def test_what_was_got_is_ticked_from_its_entry(
    keeper: Client, yard: Yard, today: date
) -> None:
    horse = make_horse(yard, name="Sorrel", foaled=f"{today - timedelta(days=950)}")
    make_measurement(horse, "mouth_width", today, 112.0, method="dowel")
    make_measurement(horse, "head_length", today, 900.0, method="tape")
    StageRecord.objects.bulk_create(
        StageRecord(horse=horse, stage=key, state="established", on=today)
        for key in BEFORE_THE_BRIDLE
    )
    again(yard, today)
    number = number_of(horse, "get/")
    page = entry(keeper, number)
    there = reverse("starting:got", args=["sallow-end", horse.key])
    assert there in page
    sent = dict(re.findall(r'name="(kind|part)" value="(\w*)"', page))
    assert keeper.post(there, sent).status_code == 302
    again(yard, today)
    assert Bought.objects.get().kind == sent["kind"]
    assert not yard.diary.filter(uid__startswith=number).exists()
    assert f"Ticked off as got on {today.day} " in entry(keeper, number)


# Plain tasks: a tick, kept and taken back


@pytest.fixture
def foal(yard: Yard, today: date) -> Horse:
    """Return a weanling for whom a step opens within days."""
    horse = make_horse(yard, name="Bramling", foaled=f"{today - timedelta(days=210)}")
    make_measurement(horse, on=today)
    again(yard, today)
    return horse


def test_a_plain_task_is_ticked_says_by_whom_and_is_taken_back(
    helper: Client, viewer: Client, yard: Yard, foal: Horse, today: date
) -> None:
    soon = [
        r.uid.partition("@")[0]
        for r in published(yard)
        if r.entry.kind == "stage_opens" and r.entry.on <= today + timedelta(days=7)
    ]
    assert soon, "nothing opens soon"
    number = soon[0]
    there = reverse("starting:tick-entry", args=["sallow-end", number])
    assert there in entry(helper, number)
    assert there not in entry(viewer, number)
    assert viewer.post(there).status_code == 403
    for _ in range(2):  # a retry on poor signal ticks once
        assert helper.post(there).status_code == 302
    tick = DiaryTick.objects.get()
    yard.refresh_from_db()
    replan(yard, today)
    assert not yard.diary.filter(uid__startswith=number).exists()
    assert f"Ticked by {tick.who} on {today.day} " in entry(helper, number)
    assert f"Ticked by {tick.who}" in diary(viewer, f"?month={tick.due_on:%Y-%m}")
    back = reverse("starting:untick-entry", args=["sallow-end", number, tick.pk])
    assert back in entry(helper, number)
    assert helper.post(back).status_code == 302
    yard.refresh_from_db()
    replan(yard, today)
    assert yard.diary.filter(uid__startswith=number).exists()
    assert not DiaryTick.objects.exists()
    assert "Ticked by" not in entry(helper, number)


def test_what_has_a_record_is_never_ticked(keeper: Client, tansy: Horse) -> None:
    number = number_of(tansy, "care/farrier")
    there = reverse("starting:tick-entry", args=["sallow-end", number])
    answer = keeper.post(there, follow=True)
    assert "write its record in instead" in answer.content.decode()
    assert not DiaryTick.objects.exists()


# The past


def test_what_went_without_a_record_is_said_so_and_kept(
    keeper: Client, yard: Yard, tansy: Horse, today: date
) -> None:
    number = number_of(tansy, "care/farrier")
    day = today + timedelta(days=4)
    assert replan(yard, day)  # its day has come, and gone
    CareVisit.objects.all().delete()
    again(yard, day)
    due = today + timedelta(days=3)
    page = diary(keeper, f"?month={due:%Y-%m}")
    assert "no record of it." in page
    assert "diary-went" in page
    gone = entry(keeper, number)
    assert "So it stood until" in gone
    file = reverse("starting:diary-entry-file", args=["sallow-end", number])
    assert keeper.get(file).status_code == 404


def test_a_month_of_which_nothing_is_kept_says_so(keeper: Client, tansy: Horse) -> None:
    assert "Nothing kept of this month" in diary(keeper, "?month=2019-05")


def test_what_was_far_ahead_leaves_nothing_behind(
    yard: Yard, tansy: Horse, today: date
) -> None:
    tansy.grown = True
    tansy.save()
    again(yard, today)
    far = today + timedelta(days=60)
    assert not PastEntry.objects.filter(on__gt=far).exists()
    assert PastEntry.objects.exists()
