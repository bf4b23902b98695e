"""Trying on: what a person says, and what is kept of it."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client

from fitting.models import FirstWorn, Horse, Tack, TackSet, TryOn, Yard
from starting.writes.replan import ensure_planned
from tests.fitting.making_tried import fits_page, sent, today, try_on
from tests.make import make_measurement


def test_what_is_tried_on_is_chosen_first(
    helper: Client, tansy: Horse, made_up: TackSet
) -> None:
    page = helper.get(try_on(tansy)).content.decode()
    assert 'href="?set=best"' in page
    assert 'href="?item=brown"' in page


def test_nothing_to_try_says_so(keeper: Client, tansy: Horse) -> None:
    assert "No tack on the pegs" in keeper.get(try_on(tansy)).content.decode()


def test_the_form_asks_part_by_part_and_for_the_holes_there_are(
    helper: Client, yard: Yard, tansy: Horse, made_up: TackSet
) -> None:
    ensure_planned(yard)
    page = helper.get(try_on(tansy, "set=best")).content.decode()
    for part in ("headpiece", "cheekpieces", "browband", "mouthpiece"):
        assert f'name="seen-{part}"' in page
    assert page.count('name="hole-cheekpieces"') == 8  # seven, and not noted
    assert 'name="hole-browband"' not in page
    assert 'name="hole-headpiece"' not in page
    assert "not looked at" in page
    assert "Stop if she minds it" in page
    assert "Have the mouth looked at by a vet" in page
    assert f'value="{today().isoformat()}"' in page


def test_a_bit_that_sat_right_is_written_in_and_says_what_that_means(
    helper: Client, tansy: Horse, bit: Tack
) -> None:
    said = sent(**{"seen-mouthpiece": "sits_right"}, who="Jo", note="Quiet.")
    done = helper.post(try_on(tansy, f"item={bit.key}"), said, follow=True)
    row = TryOn.objects.get()
    assert (row.tack, row.how, row.who, row.note) == (bit, "worn", "Jo", "Quiet.")
    assert list(row.parts.values_list("part", "seen")) == [("mouthpiece", "sits_right")]
    page = done.content.decode()
    assert (
        "Small eggbutt put on Tansy: sits right; good until growth passes it." in page
    )
    assert "Mouthpiece: sits right." in page


@pytest.mark.parametrize(
    ("said", "means"),
    [
        ({"seen-mouthpiece": "too_long"}, "too long. That outranks the arithmetic: no"),
        ({"seen-mouthpiece": "rubs"}, "rubs; only just, at best"),
        ({"answer": "no"}, "no on the whole. That outranks the arithmetic: no"),
        ({"answer": "watch"}, "only just on the whole; only just, at best"),
        (
            {"seen-mouthpiece": "sits_right", "how": "held"},
            "held against Tansy: sits right. A hint",
        ),
    ],
)
def test_each_kind_of_answer_says_what_it_means(
    helper: Client, tansy: Horse, bit: Tack, said: dict[str, str], means: str
) -> None:
    address = try_on(tansy, f"item={bit.key}")
    page = helper.post(address, {**sent(), **said}, follow=True).content.decode()
    assert means in page


def test_a_set_keeps_a_row_a_part_with_its_hole(
    helper: Client, tansy: Horse, made_up: TackSet
) -> None:
    said = {"seen-cheekpieces": "sits_right", "hole-cheekpieces": "4"}
    said |= {"seen-browband": "too_short"}
    done = helper.post(try_on(tansy, "set=best"), sent(**said), follow=True)
    row = TryOn.objects.get()
    assert (row.tack, row.made_up) == (None, made_up)
    assert list(row.parts.values_list("part", "seen", "hole")) == [
        ("cheekpieces", "sits_right", 4),
        ("browband", "too_short", None),
    ]
    assert "cheekpieces sits right, browband too short" in done.content.decode()


def test_a_try_on_put_on_changes_the_answer_at_once(
    helper: Client,
    yard: Yard,
    tansy: Horse,
    bit: Tack,
    django_capture_on_commit_callbacks: Any,
) -> None:
    make_measurement(tansy, "mouth_width", value=112, method="dowel")
    ensure_planned(yard)
    assert "right for an eggbutt" in fits_page(helper, tansy)
    with django_capture_on_commit_callbacks(execute=True):
        said = sent(**{"seen-mouthpiece": "too_short"})
        helper.post(try_on(tansy, f"item={bit.key}"), said)
    assert "it was too short" in fits_page(helper, tansy)


def test_the_first_time_a_kind_is_put_on_is_noted_once(
    helper: Client, tansy: Horse, made_up: TackSet, bit: Tack
) -> None:
    assert "How the first" in helper.get(try_on(tansy, "set=best")).content.decode()
    said = {"seen-cheekpieces": "sits_right", "how_it_went": "Minded her ears."}
    helper.post(try_on(tansy, "set=best"), sent(**said))
    kinds = dict(tansy.first_worn.values_list("kind", "tack__name"))
    assert kinds == {"bridle": "Brown", "bit": "Small eggbutt"}
    assert tansy.first_worn.first().how_it_went == "Minded her ears."  # type: ignore[union-attr]
    page = helper.get(try_on(tansy, "set=best")).content.decode()
    assert "How the first" not in page
    later = sent(**{"seen-mouthpiece": "rubs"}, token="later")
    helper.post(try_on(tansy, f"item={bit.key}"), later)
    assert tansy.first_worn.count() == 2


def test_held_against_is_not_worn(helper: Client, tansy: Horse, bit: Tack) -> None:
    said = sent(**{"seen-mouthpiece": "sits_right", "how": "held"})
    helper.post(try_on(tansy, f"item={bit.key}"), said)
    assert TryOn.objects.count() == 1
    assert not FirstWorn.objects.exists()


def test_a_retry_on_poor_signal_tries_on_once(
    helper: Client, tansy: Horse, bit: Tack
) -> None:
    said = sent(**{"seen-mouthpiece": "sits_right"})
    first = helper.post(try_on(tansy, f"item={bit.key}"), said)
    again = helper.post(try_on(tansy, f"item={bit.key}"), said)
    assert again.headers["Location"] == first.headers["Location"]
    assert TryOn.objects.count() == 1


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ({}, "Nothing is said yet"),
        ({"how": "", "answer": "good"}, "This field is required"),
        ({"on": "2999-01-01", "answer": "good"}, "That day is still to come."),
        ({"on": "2001-01-01", "answer": "good"}, "On that day she was not foaled yet."),
        ({"seen-cheekpieces": "sits", "answer": "no"}, "Select a valid choice"),
        ({"hole-cheekpieces": "3"}, "What was seen on hole 3?"),
        (
            {"seen-cheekpieces": "sits_right", "hole-cheekpieces": "9"},
            "Select a valid choice",
        ),
        ({"answer": "good", "note": "x" * 301}, "at most 300 characters"),
        (
            {"seen-browband": "rubs", "answer": "good"},
            "Browband: rubs, so not good on the whole.",
        ),
    ],
)
def test_a_refused_try_on_keeps_what_was_said(
    helper: Client, tansy: Horse, bridle: Tack, said: dict[str, str], why: str
) -> None:
    address = try_on(tansy, f"item={bridle.key}")
    page = helper.post(address, {**sent(who="Jo at her head"), **said})
    assert page.status_code == 422
    assert why in page.content.decode()
    assert 'value="Jo at her head"' in page.content.decode()
    assert not TryOn.objects.exists()


def test_something_without_parts_is_answered_on_the_whole(
    helper: Client, yard: Yard, tansy: Horse
) -> None:
    rug = Tack.objects.create(yard=yard, key="rug", name="Rain rug", kind="rug")
    page = helper.get(try_on(tansy, "item=rug")).content.decode()
    assert "Length from chest to tail" in page
    helper.post(try_on(tansy, f"item={rug.key}"), sent(answer="good"))
    assert TryOn.objects.get().answer == "good"


def test_good_on_the_whole_goes_with_parts_that_all_sat_right(
    helper: Client, tansy: Horse, bridle: Tack
) -> None:
    said = sent(**{"seen-browband": "sits_right"}, answer="good")
    assert helper.post(try_on(tansy, f"item={bridle.key}"), said).status_code == 302
    assert TryOn.objects.get().answer == "good"


def test_a_long_page_says_at_its_head_what_is_refused_and_why(
    helper: Client, tansy: Horse, bridle: Tack
) -> None:
    address = try_on(tansy, f"item={bridle.key}")
    assert "Nothing is written in yet" not in helper.get(address).content.decode()
    said = sent(**{"seen-browband": "rubs"}, answer="good", on="2999-01-01")
    head, _, below = (
        helper.post(address, said).content.decode().partition("Stop if she")
    )
    assert "Nothing is written in yet." in head
    assert "And on the whole: Browband: rubs, so not good on the whole." in head
    assert "Day: That day is still to come." in head
    assert "That day is still to come." in below
