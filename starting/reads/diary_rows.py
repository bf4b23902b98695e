"""An entry of the diary as a row of a page: how it stands, where it leads."""

from __future__ import annotations

from datetime import date, timedelta
from functools import lru_cache
from typing import Final
from urllib.parse import urlencode

import msgspec
from django.urls import reverse

from starting.dated import (
    Act,
    Became,
    DiaryRow,
    Doing,
    doing_of,
    short_title,
    standing_of,
    stands_words,
    told_of,
)
from starting.diary import OVERDUE, Entry, horse_key_of
from starting.models import DiaryEntry

NOBODYS: Final = "00000000-0000-0000-0000-000000000000"
SOON_DAYS: Final = 7  # ours: what is further off offers no form in a list


def entry_of(row: DiaryEntry) -> Entry:
    """Return a published entry."""
    kept: tuple[Entry, tuple[str, ...]] = msgspec.json.decode(
        row.content, type=tuple[Entry, tuple[str, ...]]
    )
    return kept[0]


def entry_address(slug: str, uid: str) -> str:
    """Return the address of an entry's page; the public host is no part of it."""
    return _address(slug).replace(NOBODYS, uid.partition("@")[0])


@lru_cache(maxsize=1024)
def _address(slug: str) -> str:
    """Return the address of an entry of a yard, asked once: a page has many."""
    return reverse("starting:diary-entry", args=[slug, NOBODYS])


def live_row(row: DiaryEntry, slug: str, today: date, *, acts: bool = True) -> DiaryRow:
    """Return a published entry as a row; ``acts``: with the form that makes it true."""
    entry = entry_of(row)
    soon = entry.on <= today + timedelta(days=SOON_DAYS)
    return DiaryRow(
        on=entry.on,
        title=entry.title.removesuffix(OVERDUE),
        short=short_title(entry),
        horse=entry.horse,
        horse_key=horse_key_of(entry.key),
        kind=entry.kind,
        reason=told_of(entry).reason,
        standing=standing_of(entry, today),
        words=stands_words(entry, today),
        href=entry_address(slug, row.uid),
        act=act_of(entry, slug) if soon and acts else None,
    )


def past_row(entry: Entry, told: Became, uid: str, slug: str) -> DiaryRow:
    """Return an entry that has gone, with what became of it, as a row."""
    return DiaryRow(
        on=entry.on,
        title=entry.title.removesuffix(OVERDUE),
        short=short_title(entry),
        horse=entry.horse,
        horse_key=horse_key_of(entry.key),
        kind=entry.kind,
        reason="",
        standing=told.standing,
        words=told.words,
        href=entry_address(slug, uid),
    )


def act_of(entry: Entry, slug: str) -> Act | None:
    """Return the form of the record that makes an entry true, filled in where known.

    None: its own page has the button, or says what is to be written.
    """
    doing, at = doing_of(entry), [slug, horse_key_of(entry.key)]
    if doing.record == "measure":
        asked = urlencode([("measure", key) for key in doing.measures])
        return Act(
            href=f"{reverse('fitting:measure', args=at)}?{asked}", text="Measure"
        )
    if doing.record == "try_on":
        return Act(href=reverse("fitting:try-on", args=at), text="Try on")
    if doing.record == "visit":
        return visit_act(doing.what, slug, at[1])
    return given_back_act(doing, slug) if doing.record == "given_back" else None


def visit_act(kind: str, slug: str, horse: str) -> Act:
    """Return the form of a visit, its kind filled in."""
    there = reverse("starting:add-care", args=[slug, horse])
    return Act(href=f"{there}?kind={kind}", text="Write the visit in", keepers=True)


def given_back_act(doing: Doing, slug: str) -> Act:
    """Return the page where what is lent is given back."""
    there = reverse("fitting:tack", args=[slug, doing.what])
    return Act(href=there, text="Give it back on its page", keepers=True)
