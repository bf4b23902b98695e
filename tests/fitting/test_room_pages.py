"""The pages of the figures tack is judged by: read, changed, refused, taken back."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from fitting.fit.edges import EDGES, GROUPS
from fitting.models import Horse, Yard
from fitting.reads.facts import edges_for
from fitting.reads.outlook import seen_of
from starting.writes import replan, today_in
from tests.make import make_bit, make_horse, make_measurement

NOSE = "strap.noseband"
FROM = f"{NOSE}.good_from"


def form_of(client: Client, url: str) -> dict[str, Any]:
    """Return what the form shows, as it would be sent."""
    form = client.get(url).context["form"]
    shown = {name: form[name].value() for name in form.fields}
    return {name: "" if value is None else value for name, value in shown.items()}


def change(client: Client, url: str, **typed: str) -> Any:
    return client.post(url, {**form_of(client, url), **typed})


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    return make_horse(yard, name="Tansy")


@pytest.fixture
def nose(yard: Yard) -> str:
    return reverse("fitting:change-room", args=[yard.slug, NOSE])


@pytest.fixture
def her_nose(yard: Yard, tansy: Horse) -> str:
    return reverse("fitting:change-horse-room", args=[yard.slug, tansy.key, NOSE])


def test_the_list_has_every_figure_with_its_evidence(
    keeper: Client, yard: Yard
) -> None:
    page = keeper.get(reverse("fitting:room", args=[yard.slug]))
    listed = [row for s in page.context["page"].sections for row in s.groups]
    assert sorted(row.key for row in listed) == sorted(group.key for group in GROUPS)
    assert sum(len(row.rows) for row in listed) == len(EDGES)
    said = page.content.decode()
    assert "Nothing is changed here: every figure stands as it came" in said
    assert "FEI Veterinary Regulations article 1044.8" in said
    assert "Common practice, no published source." in said
    for group in GROUPS:
        link = reverse("fitting:change-room", args=[yard.slug, group.key])
        assert (f'href="{link}"' in said) == group.may_change


def test_a_figure_of_the_yards_own_is_kept_with_who_when_and_why(
    keeper: Client, yard: Yard, nose: str, tansy: Horse
) -> None:
    answer = change(keeper, nose, good_from="1 1/2 in", why="They chew.")
    assert answer.status_code == 302
    yard.refresh_from_db()
    tansy.refresh_from_db()
    (kept,) = yard.settings["clearances"]
    assert kept["to"] == "1 1/2 in"
    assert kept["on"] == today_in(yard).isoformat()
    assert kept["by"]
    assert edges_for(tansy).value(FROM) == 38.1
    page = keeper.get(answer["Location"]).content.decode()
    assert "Yours, not ours" in page
    assert "They chew." in page
    assert "38.1 mm" in page
    assert form_of(keeper, nose)["good_from"] == "1 1/2 in"


def test_an_empty_box_goes_back_to_ours_and_both_are_remembered(
    keeper: Client, yard: Yard, nose: str, tansy: Horse
) -> None:
    change(keeper, nose, good_from="35 mm", why="They chew.")
    change(keeper, nose, good_from="", why="No more.")
    tansy.yard.refresh_from_db()
    assert edges_for(tansy).value(FROM) == EDGES[FROM].value
    page = keeper.get(nose).content.decode()
    assert page.index("back to what stood before. “No more.”") < page.index(
        "They chew."
    )


def test_one_button_takes_a_whole_table_back(
    keeper: Client, yard: Yard, nose: str
) -> None:
    assert 'name="back"' not in keeper.get(nose).content.decode()
    change(keeper, nose, good_from="35 mm", good_to="60 mm", why="They chew.")
    assert 'name="back"' in keeper.get(nose).content.decode()
    assert change(keeper, nose, back="all").status_code == 302
    yard.refresh_from_db()
    assert [one["to"] for one in yard.settings["clearances"][2:]] == [None, None]


def test_a_horse_has_figures_of_its_own_and_others_do_not(
    keeper: Client, yard: Yard, tansy: Horse, nose: str, her_nose: str
) -> None:
    other = make_horse(yard, name="Sorrel")
    change(keeper, nose, good_from="35 mm", why="They chew.")
    change(keeper, her_nose, good_from="40 mm", why="She chews more.")
    for horse in (tansy, other):
        horse.refresh_from_db()
        horse.yard.refresh_from_db()
    assert edges_for(tansy).value(FROM) == 40.0
    assert edges_for(other).value(FROM) == 35.0
    url = reverse("fitting:horse-room", args=[yard.slug, tansy.key])
    page = keeper.get(url)
    (only,) = page.context["page"].differing
    assert only.key == NOSE
    said = page.content.decode()
    assert "for Tansy, changed by" in said
    assert "She chews more." in said
    assert "The yard&#x27;s: " in keeper.get(her_nose).content.decode()
    change(keeper, her_nose, back="all")
    tansy.refresh_from_db()
    assert edges_for(tansy).value(FROM) == 35.0


def test_room_for_a_horse_is_shown_and_stays_beside_its_figures(
    keeper: Client, yard: Yard, tansy: Horse, her_nose: str
) -> None:
    tansy.clearances = {"bit": {"mm": 6.0, "written": "6 mm"}}
    tansy.save()
    change(keeper, her_nose, good_from="40 mm", why="She chews more.")
    tansy.refresh_from_db()
    assert tansy.clearances["bit"] == {"mm": 6.0, "written": "6 mm"}
    url = reverse("fitting:horse-room", args=[yard.slug, tansy.key])
    assert "bit: ¼\u2009in (6 mm), in all" in keeper.get(url).content.decode()


@pytest.mark.parametrize(
    ("group", "typed", "box", "said"),
    [
        (NOSE, {"good_from": "a hand"}, "good_from", "cannot be read"),
        (NOSE, {"good_from": "60 mm"}, "good_from", "less than “good up to”"),
        ("gap.noseband", {"no_below": "10 mm"}, "no_below", "Never under"),
        ("gap.noseband", {"no_below": "10 mm"}, "no_below", "FEI Veterinary"),
        ("bit.fixed", {"no_below": "-1 mm"}, "no_below", "narrower than the mouth"),
        (NOSE, {"good_from": "35 mm", "why": " "}, "why", "Say why"),
        ("bridle", {"spare_each_way": "1.5"}, "spare_each_way", "A whole number"),
    ],
)
def test_what_may_not_stand_is_refused_by_its_box_and_nothing_is_lost(
    keeper: Client, yard: Yard, group: str, typed: dict[str, str], box: str, said: str
) -> None:
    url = reverse("fitting:change-room", args=[yard.slug, group])
    answer = change(keeper, url, **{"why": "Because.", **typed})
    assert answer.status_code == 422
    form = answer.context["form"]
    assert said in " ".join(form.errors[box])
    for name, text in typed.items():
        assert form[name].value() == text
    yard.refresh_from_db()
    assert yard.settings == {}


def test_a_figure_of_the_yard_that_a_horses_own_cannot_stand_with_is_refused(
    keeper: Client, yard: Yard, nose: str, her_nose: str
) -> None:
    change(keeper, her_nose, good_from="50 mm", why="She chews more.")
    answer = change(keeper, nose, good_to="45 mm", why="They lose them.")
    assert answer.status_code == 422
    assert "The figures of Tansy alone do not go" in answer.content.decode()


def test_what_somebody_else_changed_meanwhile_is_not_overwritten(
    keeper: Client, yard: Yard, nose: str
) -> None:
    old = form_of(keeper, nose)
    change(keeper, nose, good_from="35 mm", why="They chew.")
    answer = keeper.post(nose, {**old, "good_to": "58 mm", "why": "Room."})
    assert answer.status_code == 422
    assert "Here they say now: good from 35 mm." in answer.content.decode()
    assert answer.context["form"]["good_to"].value() == "58 mm"
    yard.refresh_from_db()
    assert len(yard.settings["clearances"]) == 1


def test_a_retry_saves_once(keeper: Client, yard: Yard, nose: str) -> None:
    sent = {**form_of(keeper, nose), "good_from": "35 mm", "why": "They chew."}
    assert keeper.post(nose, sent).status_code == 302
    assert keeper.post(nose, sent).status_code == 302
    yard.refresh_from_db()
    assert len(yard.settings["clearances"]) == 1


def test_nothing_typed_changes_nothing(keeper: Client, yard: Yard, nose: str) -> None:
    version = yard.version
    assert change(keeper, nose).status_code == 302
    yard.refresh_from_db()
    assert (yard.version, yard.settings) == (version, {})


@pytest.mark.parametrize("group", ["saddle.recheck", "no.such", "strap"])
def test_others_word_and_unknown_tables_have_no_form(
    keeper: Client, yard: Yard, group: str
) -> None:
    url = reverse("fitting:change-room", args=[yard.slug, group])
    assert keeper.get(url).status_code == 404


@pytest.mark.django_db(transaction=True)
def test_a_change_moves_the_answer_and_the_answer_says_so(
    keeper: Client, yard: Yard, tansy: Horse
) -> None:
    make_bit(yard, name="Eggbutt", cheek="eggbutt", length_mm=126.0)
    make_measurement(
        tansy, "mouth_width", on=today_in(yard), value=118.0, method="calliper"
    )
    replan(yard, today_in(yard))
    url = reverse("fitting:change-room", args=[yard.slug, "bit.fixed"])
    tight = {"good_to": "4 mm", "no_above": "5 mm"}
    change(keeper, url, **tight, why="Narrow ones only.")
    seen = seen_of(Horse.objects.get(pk=tansy.pk))
    assert seen is not None
    (found,) = (one for one in seen.fits if one.part == "mouthpiece")
    assert {one.by for one in found.decided if one.edge.startswith("bit.fixed")} != {""}
    page = keeper.get(reverse("fitting:horse-tack", args=[yard.slug, tansy.key]))
    assert "yours, changed by" in page.content.decode()
    assert isinstance(found.decided[0].on, date)


def test_a_change_of_a_figure_that_is_no_more_stands_in_nobodys_way(
    keeper: Client, yard: Yard, nose: str
) -> None:
    gone = {"edge": "no.such", "to": "1 mm", "by": "Jo", "on": "2026-05-03", "why": ""}
    yard.settings = {"clearances": [gone]}
    yard.save()
    assert keeper.get(reverse("fitting:room", args=[yard.slug])).status_code == 200
    assert change(keeper, nose, good_from="35 mm", why="Chew.").status_code == 302
    yard.refresh_from_db()
    assert [one["edge"] for one in yard.settings["clearances"]] == ["no.such", FROM]


def test_a_stored_figure_under_a_floor_is_left_out_and_the_list_says_so(
    keeper: Client, yard: Yard
) -> None:
    low = {
        "edge": "gap.noseband.no_below",
        "to": "9 mm",
        "by": "Jo",
        "on": "2026-05-03",
        "why": "",
    }
    yard.settings = {"clearances": [low]}
    yard.save()
    page = keeper.get(reverse("fitting:room", args=[yard.slug])).content.decode()
    assert "A figure of yours is left out" in page
    assert "9 mm" not in page.partition("What was changed")[0]
