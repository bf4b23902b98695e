"""The diary's pages: list and month, of one horse or many."""

from __future__ import annotations

import html
import re
from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from starting.dated import month_of, open_until
from starting.models import CareVisit
from starting.writes import replan, today_in
from starting.writes.publish import published
from tests.make import SIGNED_IN, make_bit, make_horse, make_measurement
from tests.starting.making_diary import address, again, diary, number_of, tansy, today

__all__ = ["tansy", "today"]

LONG = "Marjoram of the Thistlethwaitesbottom Meadows, called Marjie"


# The whole diary


def test_an_empty_yard_says_what_comes_first(
    keeper: Client, viewer: Client, yard: Yard
) -> None:
    for query in ("", "?as=month"):
        assert "Add a horse" in diary(keeper, query)
        assert "Add a horse" not in diary(viewer, query)


def test_the_diary_is_reached_from_plan_today_and_the_horse(
    keeper: Client, tansy: Horse
) -> None:
    whole = reverse("starting:diary", args=["sallow-end"])
    for name in ("today", "plan"):
        page = keeper.get(reverse(f"starting:{name}", args=["sallow-end"]))
        assert f'href="{whole}"' in page.content.decode()
    own = reverse("starting:horse-diary", args=["sallow-end", tansy.key])
    assert f'href="{own}"' in keeper.get(tansy.get_absolute_url()).content.decode()
    assert f'href="{whole}"' in keeper.get(own).content.decode()


def test_the_list_tells_due_set_and_likely_apart_by_word_and_sign(
    keeper: Client, tansy: Horse
) -> None:
    page = diary(keeper)
    for sign, words in (("due", "Due today"), ("set", "Day set"), ("likely", "Likely")):
        pattern = rf'<use href="#diary-{sign}"/></svg><span>{words}</span>'
        assert re.search(pattern, page), words


def test_what_was_left_undone_stands_first_and_says_overdue(
    keeper: Client, yard: Yard, tansy: Horse, today: date
) -> None:
    due = today - timedelta(days=8)
    CareVisit.objects.update(next_due=due)
    again(yard, due - timedelta(days=1))
    again(yard, today)
    said = f"Overdue since {due.day} "
    page = diary(keeper)
    assert page.index("Still to do") < page.index(said) < page.index('id="month-')
    waiting = page.partition("Still to do")[2].partition("</section>")[0]
    assert "#diary-overdue" in waiting
    month = diary(keeper, f"?as=month&month={due:%Y-%m}")
    cell = month.partition(f'datetime="{due}"')[2].partition("</ul>")[0]
    assert "<small>overdue</small>" in cell


def test_the_month_has_every_day_once_and_marks_today(
    keeper: Client, tansy: Horse, today: date
) -> None:
    page = diary(keeper, "?as=month")
    grid = page.partition('<ol class="month">')[2].partition("</ol>")[0]
    days = re.findall(r'<h3><time datetime="([0-9-]+)"', grid)
    assert days == sorted(set(days))
    assert len(days) >= 28
    assert grid.count("is-today") == 1
    marked = grid.partition("is-today")[2].partition("</h3>")[0]
    assert f"{today}" in marked
    assert "<b>today</b>" in marked


def test_months_lead_back_and_forth_and_to_this_one(
    keeper: Client, tansy: Horse
) -> None:
    page = diary(keeper, "?month=2031-01&as=month&kind=care")
    assert "?month=2030-12&amp;as=month&amp;kind=care" in page
    assert "?month=2031-02&amp;as=month&amp;kind=care" in page
    assert "This month" in page
    assert "This month" not in diary(keeper)


@pytest.mark.parametrize(
    "query",
    ["?month=2026-99", "?month=x", "?as=x", "?kind=x", "?horse=nobody", "?month=",
     "?month=2000-01", "?month=2099-12&as=month", "?horse=%00", "?kind='", "?month=0"],
)  # fmt: skip
def test_no_address_of_the_diary_is_a_fault(
    keeper: Client, tansy: Horse, query: str
) -> None:
    assert "The diary" in diary(keeper, query)


def test_it_is_filtered_by_horse_and_kind(
    keeper: Client, yard: Yard, tansy: Horse, today: date
) -> None:
    make_measurement(make_horse(yard, name="Hazel"), on=today - timedelta(days=40))
    again(yard, today)
    assert {"Hazel: measure", "Tansy: measure"} <= _titles(diary(keeper))
    assert "Hazel: measure" not in _titles(diary(keeper, f"?horse={tansy.key}"))
    own = reverse("starting:horse-diary", args=["sallow-end", tansy.key])
    of_one = _titles(keeper.get(own).content.decode())
    assert "Tansy: measure" in of_one
    assert "Hazel: measure" not in of_one
    care = _titles(diary(keeper, "?kind=care"))
    assert "Tansy: farrier" in care
    assert "Tansy: measure" not in care


def _titles(page: str) -> set[str]:
    return set(re.findall(r'<h3><a href="[^"]+">([^:<]+: \w+)', page))


def test_no_entry_is_lost_between_the_pages_of_a_list(
    keeper: Client, yard: Yard, today: date, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("starting.reads.diary.AT_ONCE", 20)
    for name in ("Tansy", "Hazel", "Sorrel"):
        make_horse(yard, name=name, foaled=f"{today - timedelta(days=900)}")
    again(yard, today)
    everything = {address(r.uid.partition("@")[0]) for r in published(yard)}
    query, seen, pages = "", set[str](), 0
    while True:
        page, pages = diary(keeper, query), pages + 1
        seen |= set(re.findall(r'<h3><a href="([^"]+)"', page))
        beyond = int("0" + "".join(re.findall(r" on: (\d+)\.</p>", page)))
        assert beyond == len(everything) - len(seen), "said, so that paper says it too"
        more = re.search(r'<a href="([^"]+)">From \w+ \d{4} on</a>', page)
        if more is None:
            break
        query = more[1].replace("&amp;", "&")
    assert seen == everything
    assert pages > 1


def test_a_long_list_folds_its_later_months_and_says_what_is_in_them(
    keeper: Client, yard: Yard, today: date
) -> None:
    for name in ("Tansy", "Hazel", "Sorrel"):
        make_horse(yard, name=name, foaled=f"{today - timedelta(days=900)}")
    again(yard, today)
    page = diary(keeper)
    folds = re.findall(
        r'<details class="fold-month" id="month-([0-9-]+)" data-whole(.*?)>\s*<summary>'
        r".*?</h2>\s*<span[^>]*>([^<]+)</span>(.*?)</details>\s*(?=<|$)",
        page,
        flags=re.DOTALL,
    )
    until = open_until(month_of(today), today)
    later = {on for on in yard.diary.values_list("on", flat=True) if on > until}
    shown = max(month for month, *_ in folds)
    assert {month for month, *_ in folds} == {
        f"{on:%Y-%m}" for on in later if f"{on:%Y-%m}" <= shown
    }
    assert not any("open" in is_open for _, is_open, *_ in folds)
    assert all(re.match(r"\d+ \w+", counted) for *_, counted, _ in folds)


def test_a_month_is_jumped_to_on_the_page_or_on_its_own(
    keeper: Client, yard: Yard, today: date, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("starting.reads.diary.AT_ONCE", 20)
    for name in ("Tansy", "Hazel", "Sorrel"):
        make_horse(yard, name=name, foaled=f"{today - timedelta(days=900)}")
    again(yard, today)
    page = diary(keeper)
    jumps = page.partition("Jump to a month")[2].partition("</details>")[0]
    links = re.findall(r'href="([^"]+)"', jumps)
    months = [re.sub(r"\D*(\d+-\d+).*", r"\1", link) for link in links]
    days = yard.diary.values_list("on", flat=True)
    assert months == sorted({f"{on:%Y-%m}" for on in days})
    here = [link[1:] for link in links if link.startswith("#")]
    assert here
    assert len(here) < len(links)
    assert all(f'id="{anchor}"' in page for anchor in here)
    apart = html.unescape(links[-1])
    assert f'id="month-{months[-1]}"' in diary(keeper, apart)
    month = diary(keeper, "?as=month").partition("Jump to a month")[2]
    assert f"?month={months[-1]}&amp;as=month" in month


def test_a_reason_is_said_once_a_day(keeper: Client, tansy: Horse) -> None:
    reasons: dict[tuple[object, str], int] = {}
    for revised in published(tansy.yard):
        key = (revised.entry.on, revised.entry.text.partition("\n")[0])
        reasons[key] = reasons.get(key, 0) + 1
    (_, reason), times = max(reasons.items(), key=lambda item: item[1])
    assert times > 1
    page = html.unescape(diary(keeper))
    assert page.count(reason) < times


# Many horses


@pytest.mark.parametrize("horses", [1, 30])
@pytest.mark.parametrize(
    ("name", "queries"),
    [("diary", 15), ("diary-month", 15), ("horse-diary", 16), ("diary-entry", 16)],
)
def test_queries_do_not_grow_with_the_yard(
    keeper: Client,
    yard: Yard,
    django_assert_num_queries: Any,
    horses: int,
    name: str,
    queries: int,
) -> None:
    horse = make_horse(yard, name="Tansy")
    make_measurement(horse)
    for number in range(1, horses):
        make_measurement(make_horse(yard, name=f"Horse {number}"))
        make_bit(yard)
    replan(yard, today_in(yard))
    named = name.removesuffix("-month")
    args: dict[str, list[object]] = {
        "horse-diary": [horse.key],
        "diary-entry": [number_of(horse, "measure/")],
    }
    at = reverse(f"starting:{named}", args=["sallow-end", *args.get(named, [])])
    at += "?as=month" if named != name else ""
    keeper.get(at)
    with django_assert_num_queries(SIGNED_IN + queries):
        keeper.get(at)


def test_thirty_long_names_fit_a_month_in_few_lines(
    keeper: Client, yard: Yard, today: date
) -> None:
    for number in range(30):
        make_horse(yard, name=f"{LONG[:55]} {number}")
    again(yard, today)
    assert yard.diary.count() >= 300
    page = diary(keeper, "?as=month")
    assert re.search(r">30 horses: measure<", page)
    assert page.count("Marjoram") >= 30
    assert "Marjoram" in diary(keeper)
