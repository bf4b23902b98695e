"""Writing in care: what each record means, and that a retry saves once."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager
from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client

from fitting.models import Horse, Yard
from starting.care import Whose, incident_said, say_date
from starting.gates.mouth import FIRST_BIT_DAYS, HEALING_DAYS
from starting.models import CareVisit, Incident, OffWork, Rest
from starting.reads.outlook import outlook_of
from starting.writes import today_in
from tests.make import make_horse
from tests.starting.making_care import at, off, said, teeth, text_of

Commits = Callable[..., AbstractContextManager[Any]]


@pytest.fixture
def horse(yard: Yard) -> Horse:
    return make_horse(yard, name="Dunnock")


@pytest.fixture
def today(yard: Yard) -> date:
    return today_in(yard)


def test_a_clear_look_at_the_teeth_says_until_when_it_counts(
    keeper: Client, horse: Horse, today: date
) -> None:
    last = say_date(today + timedelta(days=FIRST_BIT_DAYS[0]))
    assert said(keeper, at("add-care", horse), teeth(today)) == (
        f"Written in: teeth, clear. They count for a first bit until {last}."
    )
    page = text_of(keeper, at("care", horse))
    assert 'For a first bit: <span class="w-met">yes</span>' in page
    assert "by Ann Moor: nothing left open" in page


def test_an_open_finding_keeps_the_bit_out(
    keeper: Client, horse: Horse, today: date
) -> None:
    assert said(keeper, at("add-care", horse), teeth(today, clear="False")) == (
        "Written in: teeth, something left open. No bit until a visit is written down"
        " with nothing left open."
    )
    page = text_of(keeper, at("care", horse))
    assert 'For a first bit: <span class="w-shut">not yet</span>' in page


def test_wolf_teeth_taken_out_heal_first(
    keeper: Client, horse: Horse, today: date
) -> None:
    heals = say_date(today + timedelta(days=HEALING_DAYS))
    told = said(keeper, at("add-care", horse), teeth(today, wolf_teeth="out"))
    assert f"Dunnock's mouth is healing until {heals}: no bit." in told
    page = text_of(keeper, at("care", horse))
    assert 'Wolf teeth: <span class="w-shut">not yet</span>' in page


def test_an_older_visit_written_in_later_does_not_count(
    keeper: Client, horse: Horse, today: date
) -> None:
    CareVisit.objects.create(horse=horse, kind="teeth", on=today, clear=False)
    before = today - timedelta(days=5)
    assert said(keeper, at("add-care", horse), teeth(before)) == (
        "Written in: teeth, clear. A later one, on"
        f" {say_date(today)}, is the one that counts."
    )


def test_after_a_look_at_the_teeth_the_first_bit_finds_its_gate_open(
    keeper: Client,
    horse: Horse,
    today: date,
    django_capture_on_commit_callbacks: Commits,
) -> None:
    def gate() -> str:
        outlook = outlook_of(horse)
        assert outlook is not None
        stage = outlook.stage("mouthing")
        assert stage is not None
        return next(g.answer for g in stage.gates if g.gate == "teeth")

    keeper.get(at("care", horse))
    assert gate() == "not_known"
    with django_capture_on_commit_callbacks(execute=True):
        keeper.post(at("add-care", horse), teeth(today))
    assert gate() == "met"


def test_off_work_leaves_nothing_to_do_now_until_it_is_cleared(
    keeper: Client,
    horse: Horse,
    today: date,
    django_capture_on_commit_callbacks: Commits,
) -> None:
    def can_do() -> int:
        outlook = outlook_of(horse)
        assert outlook is not None
        return len(outlook.can_do_now)

    keeper.get(at("care", horse))
    assert can_do() > 0
    sent = off(today - timedelta(days=4), cleared_by="Ann Moor")
    with django_capture_on_commit_callbacks(execute=True):
        told = said(keeper, at("add-off-work", horse), sent)
    assert told.endswith("Nothing is to be done with Dunnock until then.")
    assert can_do() == 0
    row = OffWork.objects.get()
    form = text_of(keeper, at("edit-off-work", horse, row.pk))
    assert "The day on which Ann Moor said so" in form
    cleared = {**sent, "cleared_on": today.isoformat(), "seen_revision": row.revision}
    with django_capture_on_commit_callbacks(execute=True):
        told = said(keeper, at("edit-off-work", horse, row.pk), cleared)
    assert told.endswith("It holds Dunnock back no more.")
    assert can_do() > 0


def test_each_record_says_what_it_means(
    keeper: Client, horse: Horse, today: date
) -> None:
    def day(days: int) -> date:
        return today + timedelta(days=days)

    def visit(kind: str, **more: str) -> str:
        sent = {"kind": kind, "on": today.isoformat(), **more}
        return said(keeper, at("add-care", horse), sent)

    assert visit("vaccination") == (
        f"Written in: vaccination. Nothing new with Dunnock until {say_date(day(2))}."
    )
    assert visit("farrier", next_due=day(42).isoformat()) == (
        f"Written in: farrier. Next on {say_date(day(42))}: it stands in the diary."
    )
    assert "write her off work" in visit("vet", clear="False")
    assert "Look into the mouth" in visit("tooth_change")
    assert "ring your vet" in said(
        keeper, at("add-incident", horse), {"what": "fall", "on": today.isoformat()}
    )
    assert said(keeper, at("add-rest", horse), {"start": today.isoformat()}) == (
        f"Written in: rest from {say_date(today)} with no last day yet. The plan"
        " counts on 90 days (ours) until you name one."
    )
    assert said(
        keeper, at("add-off-work", horse), off(today, until=day(7).isoformat())
    ) == (
        f"Written in: off work from {say_date(today)}, back on {say_date(day(7))}."
        f" Nothing is to be done with Dunnock before {say_date(day(7))}."
    )


def test_after_gelding_nothing_new_until_healed_and_cleared(
    keeper: Client, yard: Yard, today: date
) -> None:
    def day(ahead: int) -> date:
        return today + timedelta(days=ahead)

    colt = make_horse(yard, name="Rook", sex="colt")
    sent = {"kind": "gelding", "on": today.isoformat(), "clear": "False"}
    told = f"Nothing new with Rook until {say_date(day(14))}, and then only once your"
    assert told in said(keeper, at("add-care", colt), sent)
    page = text_of(keeper, at("care", colt))
    assert told in page
    assert "Gelding: not yet cleared" in page
    assert "Movement is needed every day" in page
    (visit,) = colt.care.all()
    longer = {**sent, "clear": "True", "healing_until": day(20).isoformat()}
    told = f"Nothing new with Rook before {say_date(day(21))}; movement every day."
    assert told in said(keeper, at("edit-care", colt, visit.pk), longer)


def test_a_retry_on_poor_signal_saves_once(
    keeper: Client, horse: Horse, today: date
) -> None:
    for name, sent, model in (
        ("add-care", teeth(today), CareVisit),
        ("add-rest", {"start": today.isoformat()}, Rest),
        ("add-off-work", off(today), OffWork),
        ("add-incident", {"what": "kick", "on": today.isoformat()}, Incident),
    ):
        once = {**sent, "token": f"token-{name}"}
        for _ in range(2):
            done = keeper.post(at(name, horse), once)
            assert done.headers["Location"] == at("care", horse)
        assert model.objects.count() == 1


def test_a_fall_says_what_waits_and_a_kick_moves_nothing() -> None:
    whose = Whose(name="Tansy", she="she", grown=False)
    fell = incident_said("fall", whose, grave=True)
    assert "wait 14 days (ours), and until vet and teeth" in fell
    assert "It moves no date by itself." in incident_said("kick", whose, grave=False)
    old = Whose(name="Marl", she="she", grown=True)
    assert "It moves no date by itself." in incident_said("fall", old, grave=True)
