"""The sheet for others: every fact with its day, what was left out, no vetting."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import FirstWorn, Horse, TryOn, TryOnPart, Yard
from starting.forms.for_others import ALL
from starting.models import CareVisit, Incident, OffWork, StageRecord
from starting.reads.for_others import PARTS, SheetPage, sheet_page
from starting.writes import replan, today_in
from tests.make import make_bit, make_horse, make_measurement


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return make_horse(yard, name="Tansy", foaled="2024-04-19", dam_height_mm=1333.5)


def page_of(horse: Horse, chosen: frozenset[str] = ALL) -> SheetPage:
    today = today_in(horse.yard)
    replan(horse.yard, today)
    return sheet_page(Horse.objects.get(pk=horse.pk), today, chosen)


def lines(page: SheetPage, key: str) -> list[tuple[date | None, str, str]]:
    part = next(part for part in page.parts if part.key == key)
    return [(line.on, line.what, line.said) for line in part.lines]


def address(yard: Yard, query: str = "") -> str:
    return reverse("starting:for-others", args=[yard.slug, "tansy"]) + query


def test_who_it_is_says_the_true_age_and_how_sure_the_day_is(tansy: Horse) -> None:
    said = {what: text for _, what, text in lines(page_of(tansy), "who")}
    assert said["Name"] == "Tansy"
    assert said["What"] == "Filly, pony"
    assert said["Foaled"] == "19 Apr 2024"
    assert said["True age"].endswith("counted from the day of foaling")
    assert said["Dam's height"] == "13.0½ hands, as it was told"
    assert "Sire's height" not in said
    tansy.foaled = "2024-04"
    tansy.save()
    said = {what: text for _, what, text in lines(page_of(tansy), "who")}
    assert said["Foaled"] == (
        "Between 1 Apr 2024 and 30 Apr 2024; the day is not known"
    )


def test_a_size_stands_with_its_day_and_method_and_the_newest_counts(
    tansy: Horse,
) -> None:
    today = today_in(tansy.yard)
    make_measurement(tansy, value=1270.0, on=today - timedelta(days=400))
    make_measurement(tansy, value=1320.8, on=today - timedelta(days=4))
    make_measurement(tansy, value=1400.0, on=today, struck="Stood on a slope")
    make_measurement(
        tansy, "mouth_width", value=104.0, method="dowel",
        on=today - timedelta(days=300),
    )  # fmt: skip
    assert lines(page_of(tansy), "sizes") == [
        (today - timedelta(days=4), "Withers height", "13.0 hands, by stick"),
        (
            today - timedelta(days=300),
            "Mouth width",
            "4⅛\u2009in, by dowel; long ago for a growing horse",
        ),
    ]


def test_teeth_incidents_and_off_work_are_told_with_their_days(tansy: Horse) -> None:
    on = date(2026, 3, 2)
    CareVisit.objects.create(
        horse=tansy, kind="teeth", on=on, clear=False, wolf_teeth="left",
        who="The dental technician", note="Caps still in",
    )  # fmt: skip
    CareVisit.objects.create(horse=tansy, kind="farrier", on=on)
    Incident.objects.create(horse=tansy, on=on, what="bolt", note="A bird went up")
    OffWork.objects.create(
        horse=tansy, start=on, why="Lame in front", until=date(2026, 3, 12)
    )
    page = page_of(tansy)
    assert lines(page, "teeth") == [
        (
            on,
            "Teeth: something left open",
            "The dental technician. Wolf teeth: left in, on advice. Caps still in",
        )
    ]
    assert lines(page, "incidents") == [(on, "Bolted", "A bird went up")]
    ((day, why, said),) = lines(page, "off_work")
    assert (day, why) == (on, "Lame in front")
    assert said.startswith("off work ")
    assert "2026" in said


def test_tack_stands_with_its_first_day_and_its_newest_hole(tansy: Horse) -> None:
    bit = make_bit(tansy.yard, name="Small eggbutt")
    FirstWorn.objects.create(
        horse=tansy, kind="bit", tack=bit, on=date(2026, 8, 1), how_it_went="Chewed"
    )
    for day, hole, struck, how in (
        (date(2026, 9, 1), 3, "", "worn"),
        (date(2026, 10, 1), 4, "", "worn"),
        (date(2026, 10, 9), 5, "Wrong horse", "worn"),
        (date(2026, 10, 10), 6, "", "held"),
    ):
        tryon = TryOn.objects.create(
            horse=tansy, on=day, tack=bit, how=how, struck=struck
        )
        TryOnPart.objects.create(
            tryon=tryon, part="cheekpieces", seen="sits_right", hole=hole
        )
    assert lines(page_of(tansy), "tack") == [
        (
            date(2026, 8, 1),
            "Bit: Small eggbutt",
            "worn on 3 days, last 1 Oct 2026; cheekpieces in hole 4 on 1 Oct 2026",
        )
    ]


def test_steps_that_are_established_stand_with_the_last_true_level(
    tansy: Horse,
) -> None:
    today = today_in(tansy.yard)
    StageRecord.objects.create(
        horse=tansy, stage="company", state="established", on=today
    )
    StageRecord.objects.create(
        horse=tansy, stage="long_reins", state="left_out", on=today
    )
    told = lines(page_of(tansy), "steps")
    assert (today, "First handling", "") in told
    assert not any("ong rein" in what for _, what, _ in told)


def test_what_is_left_out_is_named_on_the_sheet(tansy: Horse, viewer: Client) -> None:
    Incident.objects.create(horse=tansy, on=date(2026, 3, 2), what="bolt")
    answer = viewer.get(address(tansy.yard, "?asked=yes&show=who&show=teeth"))
    text = answer.content.decode()
    assert answer.status_code == 200
    assert "Bolted" not in text
    assert "Left out of this sheet by choice:" in text
    assert "Incidents" in text.partition("Left out of")[2].partition("</p>")[0]
    assert "Not a vetting." in text


def test_the_whole_sheet_leaves_nothing_out(tansy: Horse, viewer: Client) -> None:
    text = viewer.get(address(tansy.yard)).content.decode()
    assert "Left out of" not in text
    assert "No incident is written down." in text
    assert "Nothing has been measured." in text
    for _, title in PARTS:
        assert f'aria-label="{title}"' in text


@pytest.mark.parametrize(
    ("query", "words"),
    [
        ("?asked=yes", "Tick at least one part."),
        ("?asked=yes&show=temper", "temper is no part of the sheet"),
    ],
)
def test_a_sheet_of_nothing_is_refused_in_words(
    tansy: Horse, viewer: Client, query: str, words: str
) -> None:
    answer = viewer.get(address(tansy.yard, query))
    assert answer.status_code == 422
    assert words in answer.content.decode()


def test_the_horse_page_leads_to_the_sheet(tansy: Horse, viewer: Client) -> None:
    assert address(tansy.yard) in viewer.get(tansy.get_absolute_url()).content.decode()


def test_a_grown_horse_has_a_sheet_without_steps(yard: Yard) -> None:
    old = make_horse(yard, name="Fennel", foaled="2014", grown=True)
    page = page_of(old)
    assert lines(page, "steps") == []
    foaled = {what: said for _, what, said in lines(page, "who")}["Foaled"]
    assert foaled.startswith("Between 1 Jan 2014 and 31 Dec 2014")
