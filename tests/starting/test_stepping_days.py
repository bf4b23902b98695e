"""Days pass and nobody writes: what of the calendar file may change, and what not."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest

from fitting.models import Yard
from fitting.writes.touch import touch
from starting.diary import OVERDUE, Entry, Step, Task, stage_starts_entry
from starting.edition import EDITION
from starting.models import CareVisit, StoredFeed
from starting.settling import FORECAST_MOVES_FROM_DAYS, settle
from starting.writes import replan
from starting.writes.links import make_link
from starting.writes.publish import published
from tests.make import make_horse, make_measurement

ON = date(2026, 11, 25)
DAYS = 12
NAMED = re.compile(r"\d{1,2} (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) \d{4}")
ROLLER = Step(key="roller", name="First roller", work="line", people=2)


@pytest.fixture
def tansy(yard: Yard) -> Yard:
    """Return a yard with a link, where what is due is left undone."""
    yard.free_days = ["wed", "sat", "sun"]
    yard.save()
    filly = make_horse(yard, name="Tansy")
    make_measurement(filly, on=ON - timedelta(days=40))
    for kind, due in (("farrier", 2), ("vaccination", 60)):
        CareVisit.objects.create(
            horse=filly, kind=kind, on=ON - timedelta(days=30), clear=True,
            next_due=ON + timedelta(days=due),
        )  # fmt: skip
    replan(yard, ON)
    make_link(yard, label="Phone", options={})
    return yard


def test_a_new_day_changes_the_file_only_where_it_is_stated(tansy: Yard) -> None:
    still = 0
    reasons = set()
    before, body = _diary(tansy), _body()
    for passed in range(1, DAYS + 1):
        replan(tansy, ON + timedelta(days=passed))
        after, now = _diary(tansy), _body()
        changes = {_why(before.get(k), after.get(k)) for k in {*before, *after}} - {""}
        assert (body == now) is not bool(changes)
        still += body == now
        reasons |= changes
        before, body = after, now
    assert reasons <= {
        "came", "went", "fell due", "fell overdue", "moved", "another task",
        "a day named moved",
    }  # fmt: skip
    assert {"moved", "fell overdue"} <= reasons
    assert still, "no day left the file as it was"


def _diary(yard: Yard) -> dict[str, Entry]:
    return {revised.entry.key: revised.entry for revised in published(yard)}


def _body() -> bytes:
    return bytes(StoredFeed.objects.get().body)


def _why(old: Entry | None, new: Entry | None) -> str:
    """Return why an entry changed; empty: it did not."""
    if old is None or new is None:
        return "came" if new else "went"
    if replace(old, due_since=None) == replace(new, due_since=None):
        return ""
    if abs((new.on - old.on).days) >= FORECAST_MOVES_FROM_DAYS:
        return "moved"
    return "fell due" if old.forecast > new.forecast else _why_its_words(old, new)


def _why_its_words(old: Entry, new: Entry) -> str:
    if old.title != new.title:
        late = new.title.removesuffix(OVERDUE) == old.title
        return "fell overdue" if late else "another task"
    pairs = zip(_named(old), _named(new), strict=True)
    if any(abs((b - a).days) >= FORECAST_MOVES_FROM_DAYS for a, b in pairs):
        return "a day named moved"
    return f"{old} became {new}"


def _named(entry: Entry) -> list[date]:
    """Return the days that the text names."""
    days = NAMED.findall(entry.text)
    return [datetime.strptime(day, "%d %b %Y").date() for day in days]  # noqa: DTZ007


def an_entry(because: str, on: date = ON, after: tuple[str, ...] = ()) -> Entry:
    task = Task(
        horse="Tansy", horse_key="t", on=on, because=because, forecast=True, after=after
    )
    return stage_starts_entry(task, ROLLER)


def a_day_later(old: Entry, *new: Entry, only_the_day: bool = True) -> Entry:
    today = ON - timedelta(days=20)
    settled = settle([old], new, today, only_the_day=only_the_day)
    return next(entry for entry in settled if entry.key == old.key)


@pytest.mark.parametrize(("day", "told"), [(11, 10), (12, 10), (13, 13), (7, 7)])
def test_a_reason_keeps_its_day_until_that_moves_by_three(day: int, told: int) -> None:
    old = an_entry("Waits for Led out, likely done on 10 Nov 2026.")
    new = an_entry(f"Waits for Led out, likely done on {day} Nov 2026.")
    assert f"done on {told} Nov 2026." in a_day_later(old, new).text


def test_a_day_named_crosses_months_and_weekdays() -> None:
    old = an_entry("The first day is Saturday 28 Nov 2026.")
    near = an_entry("The first day is Monday 30 Nov 2026.")
    far = an_entry("The first day is Tuesday 1 Dec 2026.")
    assert a_day_later(old, near) == old
    assert a_day_later(old, far) == far


def test_another_reason_for_the_same_day_waits_for_a_write() -> None:
    old, new = an_entry("Usual from 24 months."), an_entry("From 24 months.")
    assert a_day_later(old, new) == old
    assert a_day_later(old, new, only_the_day=False) == new


def test_what_the_task_is_never_waits() -> None:
    old = an_entry("Usual from 24 months.")
    new = replace(an_entry("From 24 months."), title="Planned start for Tansy: Rug")
    assert a_day_later(old, new) == new


def test_a_link_to_an_entry_that_went_goes_with_it() -> None:
    teeth = replace(an_entry("Due."), key="t/care/teeth-1")
    old = an_entry("Usual from 24 months.", after=(teeth.key,))
    new = an_entry("Usual from 24 months.")
    assert a_day_later(old, new).after == ()
    assert a_day_later(old, new, teeth).after == (teeth.key,)


def test_after_a_write_the_words_are_the_new_ones(tansy: Yard) -> None:
    said = {key: entry.text for key, entry in _diary(tansy).items()}
    for row in tansy.diary.all():
        row.content = bytes(row.content).replace(b"Next: ", b"Once: ")
        row.save()
    replan(tansy, ON)
    assert all("Once: " in entry.text for entry in _diary(tansy).values())
    touch(tansy)
    tansy.refresh_from_db()
    replan(tansy, ON)
    assert {key: entry.text for key, entry in _diary(tansy).items()} == said


def test_after_an_update_too_though_nobody_wrote(tansy: Yard) -> None:
    said = {key: entry.text for key, entry in _diary(tansy).items()}
    for row in tansy.diary.all():
        row.content = bytes(row.content).replace(b"Next: ", b"Once: ")
        row.save()
    Yard.objects.filter(pk=tansy.pk).update(planned_by="another edition")
    replan(tansy, ON)
    assert {key: entry.text for key, entry in _diary(tansy).items()} == said
    tansy.refresh_from_db()
    assert tansy.planned_by == EDITION
