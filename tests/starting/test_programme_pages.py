"""A yard's own programme: copied, changed step by step, kept by versions."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client

from fitting.models import Yard
from starting.models import Plan
from starting.programme import shipped, shipped_keys
from starting.reads.facts import programme_of
from starting.reads.programmes import versions_of
from starting.writes.plans import shipped_version
from tests.make import make_yard
from tests.starting.making_log import (
    make_youngster,
)
from tests.starting.making_programme_pages import at, jo, own, said, sent

pytestmark = pytest.mark.django_db


def test_every_shipped_programme_is_listed_with_who_follows_it(
    yard: Yard, keeper: Client
) -> None:
    make_youngster(yard, "Tansy")
    text = said(keeper.get(at(yard, "programmes")))
    for key in shipped_keys():
        assert shipped(key).name in text
    assert "Followed by Tansy" in text
    assert "None yet. Open one below" in text


@pytest.mark.parametrize("key", shipped_keys())
def test_a_shipped_programme_shows_each_step_with_its_ticks(
    yard: Yard, viewer: Client, key: str
) -> None:
    answer = viewer.get(at(yard, "programme", key))
    text = answer.content.decode()
    for stage in shipped(key).stages:
        assert stage.name in text
    assert text.count('<div class="row-e') >= len(shipped(key).stages)
    assert "Make a copy" not in text


def test_a_programme_of_another_yard_is_not_there(yard: Yard, keeper: Client) -> None:
    other = own(make_yard())
    for name in ("programme", "programme-versions", "copy-programme"):
        assert keeper.get(at(yard, name, other.pk)).status_code == 404
    assert keeper.get(at(yard, "programme", "nonsense")).status_code == 404
    assert keeper.get(at(yard, "programme", "0")).status_code == 404


def test_a_copy_is_a_version_of_the_yards_own(yard: Yard, keeper: Client) -> None:
    there = at(yard, "copy-programme", "small_pony")
    answer = keeper.post(there, {"name": " Our  ponies ", "why": "Smaller steps."})
    row = yard.programmes.get()
    assert answer.headers["Location"] == row.get_absolute_url()
    assert (row.name, row.key) == ("Our ponies", "small_pony")
    assert row.made_by == jo(yard)
    assert programme_of(row).stages == shipped("small_pony").stages
    assert programme_of(row).may_end_at == "long_reins_out"
    assert not Plan.objects.filter(programme=row).exists()


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("As we do it", "a programme of that name already"),
        ("as WE do it", "a programme of that name already"),
        ("Re-start", "a programme of that name already"),
        ("restart", "a programme of that name already"),
        ("Ours (2)", "No number in brackets"),
        ("", "required"),
    ],
)
def test_a_name_that_is_taken_is_refused_beside_it(
    yard: Yard, keeper: Client, name: str, words: str
) -> None:
    own(yard)
    there = at(yard, "copy-programme", "default")
    answer = keeper.post(there, {"name": name, "why": "Because."})
    assert answer.status_code == 422
    assert words in said(answer)
    assert yard.programmes.count() == 1


def test_a_copy_sent_twice_is_made_once(yard: Yard, keeper: Client) -> None:
    there = at(yard, "copy-programme", "default")
    data = {"name": "Ours", "why": "To try.", "token": "abc"}
    first, second = keeper.post(there, data), keeper.post(there, data)
    assert first.headers["Location"] == second.headers["Location"]
    assert yard.programmes.count() == 1


def test_a_changed_step_is_a_new_version_and_the_old_one_stays(
    yard: Yard, keeper: Client
) -> None:
    row = own(yard)
    there = at(yard, "change-programme-step", row.pk, "bridle")
    data = sent(keeper, there, earliest_months="32", typical_low="33", tick_0="")
    data |= {"tick_5": "Stands tied in it"}
    answer = keeper.post(there, data)
    first, second = versions_of(row)
    assert answer.headers["Location"] == second.get_absolute_url()
    assert programme_of(first).stages == shipped().stages
    bridle = programme_of(second).stage("bridle")
    assert (bridle.earliest_months, bridle.typical_months) == (32, (33, 35))
    usual = [check.key for check in shipped().stage("bridle").checks]
    assert [c.key for c in bridle.checks] == [*usual[1:], "stands_tied_in_it"]
    assert (second.made_by, second.what_changed) == (jo(yard), "Wetter springs.")
    text = said(keeper.get(at(yard, "programme-versions", second.pk)))
    assert "Earliest: 32 months, was 30 months." in text
    assert "A tick more: Stands tied in it." in text
    assert f"by {jo(yard)}: Wetter springs." in text
    assert "The same steps, under a name of the yard" in text


REFUSED: list[tuple[str, dict[str, Any], str]] = [
    ("bridle", {"earliest_months": "23"}, "Not under 24 months"),
    ("bridle", {"earliest_months": "soon"}, "Enter a number"),
    ("bridle", {"earliest_months": "nan"}, "Enter a number"),
    ("bridle", {"earliest_months": "1e999"}, ""),
    ("bridle", {"min_good_sessions": "-1"}, "greater than or equal to 0"),
    ("bridle", {"days_high": "9"}, "1 to 7 days a week"),
    ("bridle", {"prerequisites": ["yields_in_hand", "body_check", "roller"]},
     "They would wait in a circle: Bridle without a bit waits for First roller"),
    ("bridle", {"prerequisites": ["fly"]}, "fly is not one of the available choices"),
    ("bridle", {}, "Nothing is changed yet."),
    ("bridle", {"earliest_months": "31", "why": ""}, "This field is required."),
    ("person_above", {"prerequisites": ["saddle"]}, "has to come after Ready-to-back"),
    ("grow_at_grass", {"earliest_months": "31", "typical_low": "31",
                       "typical_high": "32"}, "It ends at 30 months"),
]  # fmt: skip


@pytest.mark.parametrize(("step", "changes", "words"), REFUSED)
def test_what_cannot_be_is_said_and_nothing_typed_is_lost(
    yard: Yard, keeper: Client, step: str, changes: dict[str, Any], words: str
) -> None:
    row = own(yard)
    there = at(yard, "change-programme-step", row.pk, step)
    answer = keeper.post(there, sent(keeper, there, tick_0="Typed by hand", **changes)
                         if changes else sent(keeper, there))  # fmt: skip
    assert answer.status_code == 422
    assert words in said(answer)
    if changes:
        assert "Typed by hand" in answer.content.decode()
    assert yard.programmes.count() == 1


def test_every_tick_struck_out_is_refused(yard: Yard, keeper: Client) -> None:
    row = own(yard)
    there = at(yard, "change-programme-step", row.pk, "bridle")
    none = {f"tick_{number}": "" for number in range(9)}
    answer = keeper.post(there, sent(keeper, there, **none))
    assert answer.status_code == 422
    assert "One tick at least" in said(answer)


def test_an_older_version_is_not_changed_but_says_who_was_quicker(
    yard: Yard, keeper: Client
) -> None:
    row = own(yard)
    there = at(yard, "change-programme-step", row.pk, "bridle")
    quick = sent(keeper, there, earliest_months="31")
    assert keeper.post(there, quick).status_code == 302
    late = sent(keeper, there, days_in_a_row="1", why="Slower.")
    answer = keeper.post(there, late)
    assert answer.status_code == 422
    newer = f"There is a newer version, by {jo(yard)}: Wetter springs."
    assert newer in said(answer)
    assert len(versions_of(row)) == 2


def test_a_shipped_programme_is_never_changed(yard: Yard, keeper: Client) -> None:
    for name in ("change-programme-step", "take-programme-step"):
        for ref in ("default", shipped_version().pk):
            there = at(yard, name, ref, "bridle")
            assert keeper.get(there).status_code == 404
            assert keeper.post(there, {"why": "x"}).status_code == 404


def test_a_step_is_taken_out_and_put_back(yard: Yard, keeper: Client) -> None:
    row = own(yard)
    there = at(yard, "take-programme-step", row.pk, "mouthing")
    assert "Led in the bit" in said(keeper.get(there))
    keeper.post(there, {"why": "No bit here."})
    out = versions_of(row)[-1]
    assert "mouthing" not in {s.key for s in programme_of(out).stages}
    assert "Put it back : Mouthing" in said(keeper.get(out.get_absolute_url()))
    keeper.post(at(yard, "take-programme-step", out.pk, "mouthing"), {"why": "A bit."})
    back = versions_of(row)[-1]
    assert programme_of(back).stages == shipped().stages


def test_a_check_is_not_taken_out(yard: Yard, keeper: Client) -> None:
    row = own(yard)
    there = at(yard, "take-programme-step", row.pk, "ready_check")
    assert "Ready-to-back check stays" in said(keeper.get(there))
    assert keeper.post(there, {"why": "No need."}).status_code == 422
    assert yard.programmes.count() == 1


def test_only_the_newest_version_that_nobody_follows_is_deleted(
    yard: Yard, keeper: Client
) -> None:
    row = own(yard)
    keeper.post(at(yard, "take-programme-step", row.pk, "feet"), {"why": "Shod."})
    first, second = versions_of(row)
    assert keeper.post(at(yard, "delete-programme", first.pk)).status_code == 422
    horse = make_youngster(yard)
    Plan.objects.filter(horse=horse).update(programme=second)
    assert keeper.post(at(yard, "delete-programme", second.pk)).status_code == 422
    Plan.objects.filter(horse=horse).update(programme=first)
    assert keeper.post(at(yard, "delete-programme", second.pk)).status_code == 302
    assert versions_of(row) == [first]
