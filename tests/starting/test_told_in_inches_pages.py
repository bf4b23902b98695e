"""A yard's unit on the pages that say why tack fits, and on gates that quote them."""

from __future__ import annotations

import re
import zlib
from datetime import date, timedelta

import msgspec
import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Tack, Yard
from fitting.reads.outlook import seen_of
from fitting.units.showing import THIN_SPACE
from starting.models import DiaryEntry, StoredOutlook
from starting.reads.outlook import outlook_of
from starting.writes import replan, today_in
from tests.make import make_bit, make_horse, make_measurement
from tests.starting.making_settings import at

IN = f"{THIN_SPACE}in"
ABOUT = r"About [\d.]+ mm clear each side: snug for an eggbutt"
SNUG = {  # by how much, to a tenth of a mm, growth says
    "in": rf"About (?:[\d.]+ mm \(under ⅛{IN}\)|⅛{IN} \([\d.]+ mm\)) clear each side:"
    " snug for an eggbutt",
    "cm": ABOUT,
    "mm": ABOUT,
}
WENT_BY = {
    "in": f"both sides together a no under 0{IN}: research; both sides"
    f" together good from ⅛{IN} (3 mm): ours",
    "cm": "both sides together a no under 0 mm (research); both sides together good"
    " from 3 mm (ours)",
    "mm": "both sides together a no under 0 mm (research); both sides together good"
    " from 3 mm (ours)",
}
UNITS = ("in", "cm", "mm")


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    """A pony of which the only bit here is 2 mm longer than its mouth is wide."""
    foaled = today_in(yard) - timedelta(days=950)
    horse = make_horse(yard, name="Tansy", foaled=foaled.isoformat())
    make_measurement(horse, "mouth_width", today_in(yard), 116.0, method="calliper")
    make_bit(yard, name="Plain eggbutt", length_mm=118.0)
    return horse


def planned(yard: Yard, unit: str) -> date:
    yard.length_unit = unit
    yard.save()
    today = today_in(yard)
    assert replan(yard, today)
    return today


def bare(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", "", page).replace("&quot;", '"').split(" "))


@pytest.mark.parametrize("unit", UNITS)
def test_every_page_on_fit_says_it_in_the_yards_unit(
    viewer: Client, yard: Yard, tansy: Horse, unit: str
) -> None:
    planned(yard, unit)
    bit = Tack.objects.get()
    pages = [
        reverse("fitting:horse-tack", args=[yard.slug, tansy.key]),
        reverse("fitting:tack", args=[yard.slug, bit.key]),
        reverse("fitting:does-it-fit", args=[yard.slug])
        + f"?horse={tansy.key}&item={bit.key}",
    ]
    for address in pages:
        said = bare(viewer.get(address).content.decode())
        assert re.search(SNUG[unit], said), address
        assert WENT_BY[unit] in said, address


@pytest.mark.parametrize("unit", UNITS)
def test_a_gate_that_quotes_it_says_it_in_the_yards_unit(
    yard: Yard, tansy: Horse, unit: str
) -> None:
    planned(yard, unit)
    outlook = outlook_of(Horse.objects.get())
    assert outlook is not None
    gates = {
        gate.why
        for stage in outlook.stages
        for gate in stage.gates
        if gate.gate == "fit:bit"
    }
    (why,) = gates
    assert re.fullmatch(f"Plain eggbutt only just fits Tansy: {SNUG[unit]}\\.", why)


def test_another_unit_written_in_is_told_at_once(
    keeper: Client, yard: Yard, tansy: Horse
) -> None:
    planned(yard, "cm")
    assert re.search(SNUG["cm"], seen_why(tansy))
    sent = {
        "name": yard.name, "timezone": "Europe/London", "hemisphere": "north",
        "height_unit": "hands", "length_unit": "in", "weight_unit": "kg",
        "free_days": ["tue"], "sessions_a_day": "2",
    }  # fmt: skip
    assert keeper.post(at("edit-yard", yard), sent).status_code == 302
    assert keeper.get(at("yard-settings", yard)).status_code == 200
    assert re.search(SNUG["in"], seen_why(tansy))


def seen_why(horse: Horse) -> str:
    seen = seen_of(Horse.objects.get(pk=horse.pk))
    assert seen is not None
    return " ".join(one.why for one in seen.fits)


def test_no_diary_entry_changes_between_cm_and_mm(yard: Yard, tansy: Horse) -> None:
    planned(yard, "cm")
    kept = set(DiaryEntry.objects.values_list("uid", "sequence", "digest"))
    planned(yard, "mm")
    assert kept
    assert set(DiaryEntry.objects.values_list("uid", "sequence", "digest")) == kept


def test_an_outlook_stored_before_there_was_a_unit_is_read_and_told_in_mm(
    viewer: Client, yard: Yard, tansy: Horse
) -> None:
    planned(yard, "cm")
    stored = StoredOutlook.objects.get()
    content = msgspec.json.decode(zlib.decompress(stored.content))
    for one in content["fits"]:
        for edge in one["decided"]:
            assert edge.pop("told_in") == "cm"
    stored.content = zlib.compress(msgspec.json.encode(content))
    stored.save()
    address = reverse("fitting:horse-tack", args=[yard.slug, tansy.key])
    assert WENT_BY["mm"] in bare(viewer.get(address).content.decode())
