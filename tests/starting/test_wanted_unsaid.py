"""To buy or borrow: what is not known yet is said, never left out."""

from __future__ import annotations

from datetime import timedelta
from html import unescape

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from django.utils.html import strip_tags

from fitting.models import Horse, Yard
from starting.writes.replan import replan
from tests.make import make_horse, make_measurement

pytestmark = pytest.mark.django_db
TODAY = timezone.localdate()  # the pages go by today
BORN = (TODAY - timedelta(days=900)).isoformat()


def text_of(client: Client, name: str, horse: Horse) -> str:
    said = client.get(reverse(f"starting:{name}", args=[horse.yard.slug, horse.key]))
    assert said.status_code == 200
    return " ".join(unescape(strip_tags(said.content.decode())).split())


def test_a_size_that_is_not_known_yet_is_asked_for_on_list_and_card(
    viewer: Client, yard: Yard
) -> None:
    pip = make_horse(yard, name="Pip", foaled=BORN)
    make_measurement(pip, "head_length", TODAY, 900, method="tape")
    replan(yard, TODAY)
    for address in ("horse-to-get", "shop-cards"):
        page = text_of(viewer, address, pip)
        _, _, collar = page.partition("A headcollar")
        sizes, _, _ = collar.partition("Borrow")
        assert "Crown, ring to ring over the top" in sizes
        assert "no size yet: measure round the nose first" in sizes


def test_no_card_says_nothing_to_get_while_sizes_are_to_be_found_out(
    viewer: Client, yard: Yard
) -> None:
    pip = make_horse(yard, name="Pip", foaled=BORN)
    replan(yard, TODAY)
    page = text_of(viewer, "shop-cards", pip)
    assert "No size can be named yet" in page
    assert "Nothing to get" not in page
