"""What a session leaves behind: signs, what was worn, corrections, the list."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client

from fitting.models import FirstWorn, Horse, SetPart, Tack, TackSet, Yard
from starting.models import OffWork, Session, SessionWorn
from starting.reads.facts import yard_facts
from tests.make import (
    SIGNED_IN,
    make_bit,
    make_horse,
    make_user,
    make_yard,
)
from tests.starting.making_log import (
    TICKS,
    make_session,
    make_youngster,
    page,
    planned,
    said,
    today,
    words,
)


def test_a_sign_to_ring_the_vet_puts_the_horse_off_work_until_cleared(
    keeper: Client, tansy: Horse
) -> None:
    sent = said(tansy, stop="own_words", stop_own="Nods on the left rein")
    sent["level"] = "ring_vet"
    answer = keeper.post(page("log-session", tansy) + "?step=bridle", sent, follow=True)
    off = OffWork.objects.get()
    assert (off.horse, off.start) == (tansy, today(tansy.yard))
    assert (off.why, off.cleared_by) == ("Nods on the left rein", "the vet")
    shown = answer.content.decode()
    assert "off work from" in shown
    assert "does not count as good: a stop sign" in shown


def test_a_second_such_sign_while_the_vet_is_awaited_adds_no_second_off_work(
    keeper: Client, tansy: Horse
) -> None:
    sent = said(tansy, stop="own_words", stop_own="Nods", level="ring_vet")
    for _ in range(2):
        keeper.post(page("log-session", tansy) + "?step=bridle", sent)
    assert tansy.sessions.count() == 2
    assert OffWork.objects.count() == 1


def test_a_sign_of_the_step_brings_its_own_level_and_may_be_given_another(
    keeper: Client, tansy: Horse
) -> None:
    there = page("log-session", tansy) + "?step=bridle"
    keeper.post(there, said(tansy, stop="head_shy", mood="a"))
    keeper.post(there, said(tansy, stop="head_shy", level="go_back", mood="b"))
    levels = dict(tansy.sessions.values_list("mood", "stop_level"))
    assert levels["b"] == "go_back"
    assert levels["a"] == "end_today"


def test_what_was_not_ticked_on_the_day_is_said_but_never_bars(
    keeper: Client, tansy: Horse
) -> None:
    planned(tansy.yard)
    there = page("log-session", tansy) + "?step=roller"
    assert "Are hat, gloves and boots on?" in words(keeper, there)
    sent = {"on": today(tansy.yard).isoformat(), "asked_second_person": "on"}
    shown = keeper.post(there, sent, follow=True).content.decode()
    session = tansy.sessions.get()
    assert session.on_the_day["second_person"] is True
    assert session.on_the_day["safety_gear"] is False
    assert "Written in without: hat, gloves and boots." in shown
    assert "never alone" in shown


def test_a_kind_of_tack_is_first_worn_on_its_first_session_only(
    keeper: Client, tansy: Horse
) -> None:
    bit = make_bit(tansy.yard, name="Small eggbutt")
    other = make_bit(tansy.yard, name="Loose ring")
    there = page("log-session", tansy) + "?step=bridle"
    for item in (bit, other):
        keeper.post(there, said(tansy, worn_0_thing=f"item:{item.pk}"))
    first = FirstWorn.objects.get()
    assert (first.kind, first.tack, first.on) == ("bit", bit, today(tansy.yard))


def test_a_step_without_a_bit_wears_the_set_without_its_bit(
    keeper: Client, tansy: Horse
) -> None:
    bridle = Tack.objects.create(
        yard=tansy.yard, key="brown", name="Brown bridle", kind="bridle"
    )
    made_up = TackSet.objects.create(yard=tansy.yard, key="set", name="Her bridle")
    for slot, item in (("whole", bridle), ("bit", make_bit(tansy.yard))):
        SetPart.objects.create(made_up=made_up, slot=slot, tack=item)
    worn = {"worn_0_thing": f"set:{made_up.pk}", "worn_0_seen": "sits_right"}
    keeper.post(page("log-session", tansy) + "?step=bridle", said(tansy, **worn))
    assert [row.kind for row in FirstWorn.objects.all()] == ["bridle"]
    (tried,) = yard_facts(tansy.yard).horses[0].tryons
    assert [part.part for part in tried.parts] == ["whole"]
    assert tried.answer is None
    on = today(tansy.yard).isoformat()
    keeper.post(page("log-session", tansy) + "?step=mouthing", {"on": on, **worn})
    assert FirstWorn.objects.filter(kind="bit").exists()


def test_how_the_whole_sat_counts_as_a_try_on(tansy: Horse) -> None:
    bit = make_bit(tansy.yard, name="Small eggbutt")
    session = make_session(tansy)
    SessionWorn.objects.create(session=session, tack=bit, seen="too_short")
    tried = yard_facts(tansy.yard).horses[0].tryons
    assert [(t.item, t.how, t.answer) for t in tried] == [
        ("Small eggbutt", "worn", "no")
    ]


def test_a_session_is_corrected_and_its_off_work_stays(
    keeper: Client, tansy: Horse
) -> None:
    there = page("log-session", tansy) + "?step=bridle"
    sent = said(tansy, stop="own_words", stop_own="Nods", level="ring_vet")
    keeper.post(there, sent)
    session = tansy.sessions.get()
    edit = page("edit-session", tansy, session.pk)
    shown = words(keeper, edit)
    assert 'value="Nods"' in shown
    better = said(tansy, "nearly", stop="", stop_own="Nods", level="ring_vet")
    better["seen_revision"] = str(session.revision)
    answer = keeper.post(edit, better, follow=True)
    session.refresh_from_db()
    assert (session.stop_sign, session.stop_level) == ("", "")
    assert set(session.checks.values()) == {"nearly"}
    assert OffWork.objects.count() == 1
    assert "stays off work" in answer.content.decode()
    assert session.history.count() == 2


def test_a_session_changed_meanwhile_is_not_overwritten(
    keeper: Client, tansy: Horse
) -> None:
    session = make_session(tansy)
    Session.objects.get(pk=session.pk).save()
    sent = said(tansy, mood="mine") | {"seen_revision": str(session.revision)}
    answer = keeper.post(page("edit-session", tansy, session.pk), sent)
    assert answer.status_code == 422
    assert "Somebody changed this meanwhile." in answer.content.decode()
    session.refresh_from_db()
    assert session.mood == ""


def test_deleting_asks_once_and_says_what_stays(keeper: Client, tansy: Horse) -> None:
    session = make_session(tansy, 0, stop_sign="Nods", stop_level="ring_vet")
    OffWork.objects.create(
        horse=tansy, start=session.on, why="Nods", cleared_by="the vet"
    )
    there = page("delete-session", tansy, session.pk)
    assert "stays off work" in words(keeper, there)
    assert tansy.sessions.exists()
    keeper.post(there)
    assert not tansy.sessions.exists()
    assert OffWork.objects.exists()


def test_a_step_without_sessions_is_led_to_where_it_is_written_in(
    keeper: Client, helper: Client, tansy: Horse
) -> None:
    there = page("log-session", tansy) + "?step=body_check"
    assert keeper.get(there)["Location"].endswith("/steps/body_check/record/")
    assert helper.get(there)["Location"].endswith("/steps/body_check/")
    assert keeper.get(page("log-session", tansy) + "?step=no_step").status_code == 404


def test_sessions_stand_newest_first_by_month_with_what_was_seen(
    viewer: Client, tansy: Horse
) -> None:
    make_session(tansy, 40, mood="older")
    make_session(tansy, 1, stop_sign="Nods", stop_level="ring_vet", mood="newer")
    shown = words(viewer, page("sessions", tansy))
    assert shown.index("newer") < shown.index("older")
    assert f"{len(TICKS)} yes" in shown
    assert "Nods <b>(ring the vet)</b>" in shown
    assert "Correct it" not in shown


def test_no_session_yet_says_what_will_stand_there(
    keeper: Client, tansy: Horse
) -> None:
    assert "No session written up yet" in words(keeper, page("sessions", tansy))


@pytest.mark.parametrize(("horses", "sessions"), [(1, 5), (6, 5), (1, 60), (6, 60)])
def test_queries_do_not_grow_with_horses_or_sessions(
    keeper: Client,
    yard: Yard,
    horses: int,
    sessions: int,
    django_assert_num_queries: Any,
) -> None:
    tansy = make_youngster(yard)
    for number in range(1, horses):
        make_horse(yard, name=f"Horse {number}")
    bit = make_bit(yard)
    for days_ago in range(sessions):
        session = make_session(tansy, days_ago)
        SessionWorn.objects.create(session=session, tack=bit, seen="sits_right")
    planned(yard)
    with django_assert_num_queries(SIGNED_IN + 5):  # horse, plan, count, rows, worn
        keeper.get(page("sessions", tansy))
    with django_assert_num_queries(SIGNED_IN + 9):
        keeper.get(page("log-session", tansy) + "?step=bridle")


def test_who_may_write_sessions(
    helper: Client, viewer: Client, tansy: Horse, client: Client
) -> None:
    session = make_session(tansy)
    pages = [
        page("log-session", tansy),
        page("edit-session", tansy, session.pk),
        page("delete-session", tansy, session.pk),
    ]
    assert [helper.get(path).status_code for path in pages] == [200] * 3
    assert [viewer.get(path).status_code for path in pages] == [403] * 3
    assert [client.get(path).status_code for path in pages] == [302] * 3
    client.force_login(make_user())
    for path in (*pages, page("sessions", tansy)):
        assert client.get(path).status_code == 404


def test_a_session_of_another_yards_horse_is_not_there(
    keeper: Client, tansy: Horse
) -> None:
    elsewhere = make_horse(make_yard(), name="Else")
    session = make_session(elsewhere)
    assert keeper.get(page("edit-session", tansy, session.pk)).status_code == 404
    assert keeper.get(page("sessions", elsewhere)).status_code == 404


def test_a_grown_horse_has_no_session_form(keeper: Client, yard: Yard) -> None:
    marl = make_horse(yard, name="Marl", grown=True, foaled="2012")
    assert keeper.get(page("log-session", marl)).status_code == 404
