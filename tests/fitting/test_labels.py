"""Labels beside what was measured."""

from __future__ import annotations

import pytest

from fitting.labels import FAR_MM, label_is_off, label_mm


@pytest.mark.parametrize(
    ("label", "mm"),
    [
        ("4 1/2", 114.3), ("4½", 114.3), ("12.5", 125), ("125", 125), ("5 in", 127),
        ("115 mm", 115), ("cob", None), ("", None), ("large 5", None), ("23.5", None),
    ],
)  # fmt: skip
def test_a_label_on_a_bit_is_read_by_where_its_number_lies(
    label: str, mm: float | None
) -> None:
    assert label_mm(label, "bit") == (None if mm is None else pytest.approx(mm))


def test_a_bare_number_on_anything_else_means_nothing() -> None:
    assert label_mm("5", "bridle") is None
    assert label_mm("125 mm", "bridle") == 125


def test_a_label_is_off_from_where_another_size_is_nearer() -> None:
    assert label_is_off("5", "bit", 127 - FAR_MM) is None
    assert label_is_off("5", "bit", 120) == pytest.approx(7)
    assert label_is_off("5", "bit", 134) == pytest.approx(-7)
    assert label_is_off("5", "bit", None) is None
    assert label_is_off("cob", "bit", 120) is None
