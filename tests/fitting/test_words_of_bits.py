"""What kinds of bit do for a young mouth, and which suit as a first one."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest
from django.test import Client
from django.urls import reverse

from fitting.drawings import bits
from fitting.drawings.ink import Said
from fitting.models import Part, Yard
from fitting.sources import SOURCES
from fitting.words_of_bits import (
    CHEEKS,
    MATERIALS,
    MOUTHPIECES,
    NAMES,
    as_first_bit,
    of_material,
    words_of,
)
from tests.make import make_bit


def test_every_kind_there_is_has_its_sentence_its_name_and_a_source() -> None:
    assert set(CHEEKS) == set(Part.Cheek.values)
    assert set(MOUTHPIECES) == set(Part.Mouthpiece.values)
    every = [*CHEEKS.values(), *MOUTHPIECES.values(), *(m[2] for m in MATERIALS)]
    for said in every:
        assert said.does.endswith(".")
        assert not said.against.endswith(".")
        assert set(said.sources) <= set(SOURCES)
        assert said.rests_on
    for kind in (*Part.Cheek, *Part.Mouthpiece):
        assert NAMES.get(kind.value, kind.value) == kind.label


@pytest.mark.parametrize("cheek", ["eggbutt", "dee", "full_cheek", "hanging_cheek"])
@pytest.mark.parametrize("mouthpiece", ["single_jointed", "double_jointed"])
def test_plain_and_still_suits_a_first_bit(cheek: str, mouthpiece: str) -> None:
    assert as_first_bit(cheek, mouthpiece, "steel").answer == "suits"


@pytest.mark.parametrize(
    ("cheek", "mouthpiece", "material", "why"),
    [
        ("loose_ring", "single_jointed", "", "Rings that slide can pinch"),
        ("eggbutt", "with_keys", "", "Opinions differ on keys"),
        ("eggbutt", "straight_bar", "", "Nothing bends"),
        ("eggbutt", "single_jointed", "Soft rubber", "Chewed rubber"),
        ("loose_ring", "", "", "Rings that slide can pinch"),
    ],
)
def test_what_speaks_against_a_first_bit_is_a_caution(
    cheek: str, mouthpiece: str, material: str, why: str
) -> None:
    first = as_first_bit(cheek, mouthpiece, material)
    assert first.answer == "caution"
    assert why in " ".join(first.said)


def test_what_is_not_written_down_is_never_fine() -> None:
    assert as_first_bit("", "single_jointed", "steel").answer == "not_known"
    assert as_first_bit("eggbutt", "", "").said == (
        "Write down which mouthpiece it has.",
    )
    assert words_of("", "", "unobtainium") == ()


def test_a_material_is_found_in_what_was_typed() -> None:
    found = of_material("Stainless STEEL")
    assert found is not None
    assert found[0] == "steel"
    assert of_material("") is None


def test_every_bit_is_drawn_and_no_two_alike() -> None:
    said = Said(uid="bit", title="A <bit>", desc="4 & more")
    cheeks, mouths = ["", *Part.Cheek.values], ["", *Part.Mouthpiece.values]
    drawn = {bits.bit(c, m, said, "4¾ in") for c in cheeks for m in mouths}
    for art in drawn:
        ET.fromstring(art)  # noqa: S314 - our own drawing
        assert "4¾ in" in art
    # A straight bar and one with keys differ by the keys.
    assert len(drawn) == len(cheeks) * len(mouths)
    assert "4¾ in" not in bits.bit("dee", "mullen", said)


def test_what_is_not_known_of_a_bit_is_dotted() -> None:
    dotted = "stroke-dasharray"
    assert dotted not in bits.outline("eggbutt", "mullen")
    assert dotted in bits.outline("", "mullen")
    assert dotted in bits.outline("eggbutt", "")


def test_the_page_of_a_bit_shows_it_and_says_what_it_does(
    keeper: Client, yard: Yard
) -> None:
    bit = make_bit(yard, cheek="loose_ring", mouthpiece="straight_bar")
    page = keeper.get(bit.get_absolute_url()).content.decode()
    assert "For a young mouth" in page
    assert "The bit laid flat" in page
    assert "Rings that slide can pinch" in page
    assert CHEEKS["loose_ring"].does in page
    assert "Common practice, no published source" in page
    bare = make_bit(yard, cheek="", mouthpiece="")
    page = keeper.get(bare.get_absolute_url()).content.decode()
    assert "Write down which cheeks and mouthpiece it has." in page


def test_the_form_of_a_bit_pictures_each_kind(keeper: Client, yard: Yard) -> None:
    address = reverse("fitting:add-tack", args=[yard.slug]) + "?kind=bit"
    page = keeper.get(address).content.decode()
    kinds = len(Part.Cheek) + len(Part.Mouthpiece)
    assert page.count('class="bit-kind"') == kinds
    assert MOUTHPIECES["with_keys"].does in page
    other = reverse("fitting:add-tack", args=[yard.slug]) + "?kind=bridle"
    assert "bit-kind" not in keeper.get(other).content.decode()
