"""Wherever tack and horses are listed by name, 2 stands before 10."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from fitting.models import SetPart, TackSet, Yard
from starting.writes.replan import ensure_planned
from tests.make import make_bit, make_horse

NUMBERS = (10, 2, 1)
OF_HORSES = ("tack-room", "who-fits", "does-it-fit")


@pytest.fixture
def room(yard: Yard) -> Yard:
    for number in NUMBERS:
        bit = make_bit(yard, name=f"Peg {number} eggbutt", length_mm=117.0)
        make_horse(yard, name=f"Foal {number} here")
        made = TackSet.objects.create(
            yard=yard, name=f"Set {number} up", key=f"{number}"
        )
        SetPart.objects.create(made_up=made, slot="bit", tack=bit)
    ensure_planned(yard)
    return yard


def order(page: str, start: str, end: str) -> list[int]:
    """Return the numbers in the order in which their names first stand on a page."""
    places = {number: page.find(f"{start} {number} {end}") for number in NUMBERS}
    assert -1 not in places.values()
    return sorted(places, key=lambda number: places[number])


def test_tack_stands_by_its_number_wherever_it_is_listed(
    keeper: Client, room: Yard
) -> None:
    key = room.horses.get(name="Foal 2 here").key
    pages: list[tuple[str, list[str], dict[str, str]]] = [
        ("tack-room", [], {}),
        ("who-fits", [], {"by": "kind"}),
        ("who-fits", [], {"by": "item"}),
        ("who-fits", [], {"by": "horse"}),
        ("tack-beside", [], {}),
        ("does-it-fit", [], {"horse": key}),
        ("horse-tack", [key], {}),
        ("try-on", [key], {}),
    ]
    for name, of, asked in pages:
        page = keeper.get(reverse(f"fitting:{name}", args=[room.slug, *of]), asked)
        said = page.content.decode().split("<main")[-1]
        assert order(said, "Peg", "eggbutt") == [1, 2, 10], name
        assert order(said, "Set", "up") == [1, 2, 10], name
    page = keeper.get(reverse("fitting:make-up", args=[room.slug]))
    assert order(page.content.decode(), "Peg", "eggbutt") == [1, 2, 10]


def test_horses_stand_by_their_number_wherever_tack_is_listed(
    keeper: Client, room: Yard
) -> None:
    pages = [reverse(f"fitting:{n}", args=[room.slug]) for n in OF_HORSES]
    pages.append(room.tack.get(name="Peg 2 eggbutt").get_absolute_url())
    for address in pages:
        page = keeper.get(address).content.decode()
        assert order(page, "Foal", "here") == [1, 2, 10], address
