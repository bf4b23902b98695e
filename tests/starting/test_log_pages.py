"""A session written in: what its form offers, refuses and says."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.test import Client

from fitting.models import Horse, Part, SetPart, Tack, TackSet, Yard
from starting.models import OffWork, Person, SessionWorn
from starting.programme import shipped
from starting.reads.outlook import outlook_of
from tests.make import (
    make_bit,
    make_horse,
    make_measurement,
)
from tests.starting.making_log import (
    TICKS,
    make_session,
    page,
    planned,
    said,
    today,
    words,
)


def test_the_form_opens_on_the_step_asked_for_with_its_ticks(
    keeper: Client, tansy: Horse
) -> None:
    planned(tansy.yard)
    shown = words(keeper, page("log-session", tansy), step="bridle")
    assert "Bridle without a bit" in shown
    assert "Lowers its head for the headpiece" in shown
    assert 'name="minutes" value="5"' in shown  # of 5 to 10, the first time
    assert "the log is the truth" in shown  # no bridle is written down: not yet


def test_without_a_step_the_form_opens_on_what_is_under_way(
    keeper: Client, tansy: Horse
) -> None:
    make_session(tansy)
    planned(tansy.yard)
    shown = words(keeper, page("log-session", tansy))
    assert "<h1>Bridle without a bit</h1>" in shown
    assert "Last time: yes." in shown


def test_a_session_is_written_in_and_says_what_it_means(
    keeper: Client, tansy: Horse
) -> None:
    make_session(tansy)
    sent = said(tansy, people=[], others="Jo", mood="easy")
    answer = keeper.post(page("log-session", tansy) + "?step=bridle", sent, follow=True)
    session = tansy.sessions.get(mood="easy")
    assert session.checks == dict.fromkeys(TICKS, "yes")
    assert (session.minutes, session.who) == (8, "Jo")
    assert session.written_by is not None
    shown = answer.content.decode()
    assert "Written in: Bridle without a bit, 2 good sessions of 3." in shown
    assert f"session-sallow-end-{tansy.key}-bridle" in shown  # the draft is forgotten


def test_a_session_changes_the_state_of_its_step_once_planned_again(
    keeper: Client, tansy: Horse, django_capture_on_commit_callbacks: Any
) -> None:
    planned(tansy.yard)
    before = outlook_of(tansy)
    with django_capture_on_commit_callbacks(execute=True):
        keeper.post(page("log-session", tansy) + "?step=bridle", said(tansy))
    after = outlook_of(tansy)
    assert before is not None
    assert after is not None
    assert before.stage("bridle").state == "waiting"  # type: ignore[union-attr]
    assert after.stage("bridle").state == "under_way"  # type: ignore[union-attr]


def test_the_third_good_session_says_that_the_step_is_established(
    keeper: Client, tansy: Horse
) -> None:
    for days_ago in (9, 6):
        make_session(tansy, days_ago)
    answer = keeper.post(
        page("log-session", tansy) + "?step=bridle", said(tansy), follow=True
    )
    assert "Written in: Bridle without a bit, established." in answer.content.decode()


@pytest.mark.parametrize(
    ("more", "why"),
    [
        ({"on": "2999-01-01"}, "That day is still to come."),
        ({"on": "1999-01-01"}, "On that day she was not foaled yet."),
        ({"minutes": "900"}, "A session is no longer than four hours."),
        ({"stop": "own_words"}, "Write the sign down."),
        ({"stop_own": "Would not stand"}, "Say what it asks for."),
        ({"stop_own": "Coughs"}, "Read as: ring the vet."),
        ({"level": "go_back"}, "Say which sign was seen."),
        ({"worn_0_seen": "rubs"}, "Say what was worn."),
        ({"others": "x" * 60, "people": ["Jo"]}, "All names together"),
    ],
)
def test_what_cannot_be_is_refused_and_kept_on_the_page(
    keeper: Client, tansy: Horse, more: dict[str, Any], why: str
) -> None:
    Person.objects.create(yard=tansy.yard, name="Jo")
    sent = said(tansy, mood="uncommon", **more)
    answer = keeper.post(page("log-session", tansy) + "?step=bridle", sent)
    assert answer.status_code == 422
    shown = answer.content.decode()
    assert why in shown
    assert 'value="uncommon"' in shown
    assert not tansy.sessions.exists()


def test_a_sign_in_own_words_is_read_back_before_it_puts_anybody_off_work(
    keeper: Client, tansy: Horse
) -> None:
    there = page("log-session", tansy) + "?step=bridle"
    sent = said(tansy, stop="own_words", stop_own="Bucked at the gate")
    shown = keeper.post(there, sent).content.decode()
    assert '<option value="go_back" selected>' in shown
    assert not tansy.sessions.exists()
    keeper.post(there, sent | {"level": "end_today"})
    assert tansy.sessions.get().stop_level == "end_today"


def test_after_a_session_the_next_one_is_suggested(
    keeper: Client, yard: Yard, django_capture_on_commit_callbacks: Any
) -> None:
    foal = make_horse(yard, name="Foal", foaled=str(today(yard) - timedelta(days=40)))
    Person.objects.create(yard=yard, name="Jo")
    planned(yard)
    there = page("log-session", foal) + "?step=company"
    first = shipped().stage("company").checks[3]
    sent = {"on": today(yard).isoformat(), "minutes": "6", f"check_{first.key}": "no"}
    with django_capture_on_commit_callbacks(execute=True):
        answer = keeper.post(there, sent)
    assert answer["Location"] == page("next-session", foal)
    shown = words(keeper, answer["Location"])
    assert "First handling" in shown
    assert "4 minutes: shorter: the last one was not good" in shown
    assert f"A no last time, so ask for less of it: {first.text}." in shown
    assert "Two people" in shown
    assert "Its card, to print" in shown


def test_the_next_session_says_why_there_is_none(
    keeper: Client, viewer: Client, tansy: Horse, yard: Yard
) -> None:
    there = page("next-session", tansy)
    assert "not worked out yet" in words(keeper, there)
    OffWork.objects.create(
        horse=tansy, start=today(yard), why="Lame", cleared_by="the vet"
    )
    planned(yard)
    shown = words(viewer, there)
    assert "No next session yet" in shown
    assert "Off work until cleared by the vet: Lame." in shown
    assert "Write up a session" not in shown
    marl = make_horse(yard, name="Marl", grown=True, foaled="2012")
    assert keeper.get(page("next-session", marl)).status_code == 404


def test_a_hole_needs_its_strap_unless_there_is_only_one(
    keeper: Client, tansy: Horse
) -> None:
    made_up = TackSet.objects.create(yard=tansy.yard, key="set", name="Brown set")
    bit = make_bit(tansy.yard, name="Small eggbutt")
    sent = said(tansy, worn_0_thing=f"set:{made_up.pk}", worn_0_hole="4")
    answer = keeper.post(page("log-session", tansy) + "?step=bridle", sent)
    assert "Say which strap the hole is on." in answer.content.decode()
    sent |= {"worn_0_thing": f"item:{bit.pk}", "worn_0_hole": "", "worn_0_seen": "rubs"}
    keeper.post(page("log-session", tansy) + "?step=bridle", sent)
    assert SessionWorn.objects.get().part == "mouthpiece"


def test_a_hole_of_a_set_is_on_the_strap_that_stands_for_it(
    keeper: Client, tansy: Horse
) -> None:
    made_up = TackSet.objects.create(yard=tansy.yard, key="set", name="Her bridle")
    bridle = Tack.objects.create(
        yard=tansy.yard, key="brown", name="Brown bridle", kind="bridle"
    )
    Part.objects.create(
        tack=bridle, part="whole", length_mm=900, holes=7, spacing_mm=20, hole=3
    )
    SetPart.objects.create(made_up=made_up, slot="whole", tack=bridle)
    make_measurement(tansy, "head_length", value=900.0, method="tape")
    planned(tansy.yard)
    worn = {"worn_0_thing": f"set:{made_up.pk}", "worn_0_hole": "4"}
    sent = said(tansy, **worn, worn_0_seen="sits_right")
    keeper.post(page("log-session", tansy) + "?step=bridle", sent)
    rows = SessionWorn.objects.values_list("part", "seen", "hole")
    assert set(rows) == {("", "sits_right", None), ("whole", "", 4)}
    shown = words(keeper, page("log-session", tansy), step="bridle")
    assert "on hole 4" in shown


def test_the_same_form_sent_twice_is_saved_once(keeper: Client, tansy: Horse) -> None:
    sent = said(tansy, token="once-only")
    there = page("log-session", tansy) + "?step=bridle"
    first, second = keeper.post(there, sent), keeper.post(there, sent)
    assert first.status_code == second.status_code == 302
    assert first["Location"] == second["Location"]
    assert tansy.sessions.count() == 1
