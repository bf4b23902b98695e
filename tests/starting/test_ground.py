"""Paper or slate: what this device draws the pages on."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import Yard


def theme_at(client: Client, address: str) -> str:
    page = client.get(address).content.decode()
    return page.partition('data-bs-theme="')[2].partition('"')[0]


def test_paper_is_what_nobody_asked_to_change(keeper: Client, yard: Yard) -> None:
    assert theme_at(keeper, reverse("starting:today", args=[yard.slug])) == "light"


@pytest.mark.parametrize(
    ("ground", "theme"), [("slate", "dark"), ("device", "auto"), ("paper", "light")]
)
def test_a_device_keeps_what_it_was_told_and_leads_back(
    keeper: Client, yard: Yard, ground: str, theme: str
) -> None:
    back = reverse("fitting:horses", args=[yard.slug])
    asked = keeper.get(reverse("ground"), {"next": back}).content.decode()
    assert f'name="next" value="{back}"' in asked
    told = keeper.post(reverse("ground"), {"ground": ground, "next": back})
    assert told.headers["Location"] == back
    assert theme_at(keeper, back) == theme
    keeper.post(reverse("sign-out"))
    assert theme_at(keeper, reverse("sign-in")) == theme


def test_the_page_shows_what_holds_and_is_reached_from_every_foot(
    keeper: Client, yard: Yard
) -> None:
    today = reverse("starting:today", args=[yard.slug])
    link = f'href="{reverse("ground")}?next={today}"'
    assert link in keeper.get(today).content.decode()
    keeper.post(reverse("ground"), {"ground": "slate"})
    page = keeper.get(reverse("ground")).content.decode()
    assert page.count(" checked") == 1
    assert 'value="slate"' in page.partition(" checked")[0].rpartition("<input")[2]


@pytest.mark.parametrize("sent", [{}, {"ground": ""}, {"ground": "chalk"}])
def test_no_choice_is_said_and_nothing_is_kept(
    keeper: Client, yard: Yard, sent: dict[str, str]
) -> None:
    refused = keeper.post(reverse("ground"), sent)
    assert refused.status_code == 422
    assert "Choose one of the three." in refused.content.decode()
    assert "ground" not in refused.cookies


def test_a_cookie_that_was_tampered_with_is_paper(keeper: Client, yard: Yard) -> None:
    keeper.cookies["ground"] = 'dark" onload="'
    assert theme_at(keeper, reverse("starting:today", args=[yard.slug])) == "light"


def test_it_never_leads_to_another_site(keeper: Client, yard: Yard) -> None:
    sent = {"ground": "slate", "next": "https://elsewhere.example/"}
    told = keeper.post(reverse("ground"), sent)
    assert told.headers["Location"] == "/"
    asked = keeper.get(reverse("ground"), {"next": "//elsewhere.example/"})
    assert "elsewhere" not in asked.content.decode()
