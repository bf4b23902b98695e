"""What a stop sign in somebody's own words asks for."""

from __future__ import annotations

import json
import re

import pytest

from starting.programme import shipped
from starting.stop_words import WORDS, level_of

SIGNS = {sign.text: sign for stage in shipped().stages for sign in stage.stop_signs}


def test_every_sign_of_the_shipped_steps_reads_as_it_is_set() -> None:
    assert len(SIGNS) > 80
    read = {text: level_of(text) or "end_today" for text in SIGNS}
    assert read == {text: sign.level for text, sign in SIGNS.items()}


@pytest.mark.parametrize(
    ("text", "level"),
    [
        ("Nods on the left rein", "ring_vet"),
        ("BLOOD on her lip", "ring_vet"),
        ("off her feed since noon", "ring_vet"),
        ("Bucked twice", "go_back"),
        ("bucked, and lame after", "ring_vet"),  # the one that asks for more
        ("bolted to the gate", "go_back"),
        ("Would not stand", None),
        ("flame, vetch, buckle, boltless", None),  # no word inside a word
        ("", None),
    ],
)
def test_a_sign_in_own_words_is_read_by_whole_words(
    text: str, level: str | None
) -> None:
    assert level_of(text) == level


def test_the_words_are_patterns_that_a_browser_reads_alike() -> None:
    kept = json.loads(json.dumps(WORDS))
    assert [level for level, _ in kept] == ["ring_vet", "go_back"]
    for _, words in kept:
        assert not re.search(r"\(\?(?!:)|\\[AZ]|\(\?P", words)  # Python's alone
