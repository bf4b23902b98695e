from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Tack, TryOn, Yard
from fitting.reads.today import today_in
from fitting.writes.tryons import strike_tryon, write_tryon
from starting.models import OffWork
from starting.writes import replan
from tests.make import make_bit, make_horse


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return make_horse(yard, name="Tansy")


@pytest.fixture
def bit(yard: Yard) -> Tack:
    return make_bit(yard)


def tried(horse: Horse, bit: Tack, days: int = 0, stop: str = "ring_vet") -> TryOn:
    on = today_in(horse.yard) - timedelta(days=days)
    row = TryOn(horse=horse, tack=bit, on=on, how="worn", stop=stop)
    row.stop_sign = "Blood on the lip."
    return write_tryon(row, [])


def test_a_tryon_that_rings_the_vet_puts_the_horse_off_work(
    keeper: Client, tansy: Horse, bit: Tack
) -> None:
    row = tried(tansy, bit, 9)
    off = OffWork.objects.get(horse=tansy)
    assert (off.start, off.why) == (row.on, "Blood on the lip.")
    assert (off.cleared_by, off.cleared_on) == ("the vet", None)
    replan(tansy.yard, today_in(tansy.yard))
    page = keeper.get(reverse("starting:today", args=[tansy.yard.slug]))
    text = page.content.decode()
    assert "Off work" in text
    assert "Blood on the lip" in text
    assert "Write up a session" not in text


def test_a_sign_to_end_for_today_puts_nobody_off_work(tansy: Horse, bit: Tack) -> None:
    tried(tansy, bit, stop="end_today")
    assert not OffWork.objects.exists()


def test_a_horse_that_waits_for_the_vet_is_put_off_work_once(
    tansy: Horse, bit: Tack
) -> None:
    row = tried(tansy, bit, 2)
    write_tryon(row, [])
    tried(tansy, bit)
    assert OffWork.objects.count() == 1


def test_what_the_vet_cleared_since_stays_cleared_but_a_new_sign_holds(
    tansy: Horse, bit: Tack
) -> None:
    row = tried(tansy, bit, 5)
    cleared = row.on + timedelta(days=2)
    OffWork.objects.update(cleared_on=cleared)
    write_tryon(row, [])  # corrected afterwards
    assert OffWork.objects.count() == 1
    tried(tansy, bit, 3)  # on the day the vet cleared it
    assert OffWork.objects.filter(cleared_on__isnull=True).count() == 1


def test_a_struck_out_sign_holds_nothing_until_it_counts_again(
    tansy: Horse, bit: Tack
) -> None:
    row = TryOn(horse=tansy, tack=bit, on=today_in(tansy.yard), how="worn")
    row.stop, row.struck = "ring_vet", "It was another horse."
    write_tryon(row, [])
    assert not OffWork.objects.exists()
    row.struck = ""
    strike_tryon(row, "", "")
    assert OffWork.objects.get().why == "A stop sign at a try-on"
