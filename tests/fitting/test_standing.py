"""The horse standing to be measured, and pictures that share one horse."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from fitting.body import MEASURES
from fitting.drawings.how_to import how_to, shared_art
from fitting.drawings.standing import LETTERS, standing


def test_only_the_measures_of_the_table_have_a_line_and_a_letter() -> None:
    drawn = standing(["withers_height", "brow"], ["withers height", "brow"])
    ET.fromstring(drawn)  # noqa: S314 - our own drawing
    assert ">A<" in drawn
    assert ">B<" not in drawn
    assert "Lettered lines: A withers height." in drawn


def test_the_letters_follow_the_order_of_the_table() -> None:
    order = [LETTERS[m.key] for m in MEASURES if m.key in LETTERS]
    assert order == sorted(order)


def test_names_are_escaped() -> None:
    assert "<b>" not in standing(["withers_height"], ["<b>"])


@pytest.mark.parametrize("measure", ["withers_height", "heart_girth", "head_length"])
def test_a_shared_picture_refers_to_the_horse_drawn_once(measure: str) -> None:
    shared = how_to(measure, shared=True)
    art = "art-head" if measure == "head_length" else "art-horse"
    assert f'href="#{art}"' in shared
    assert f'id="{art}"' in shared_art()
    assert len(shared) < len(how_to(measure)) / 5
