"""What an item covers, in a sentence above its drawing."""

from __future__ import annotations

import pytest

from fitting.fit.covers import Cover
from fitting.readings import Units
from fitting.reads.reach import OneSize, reaches


def covered(*good: tuple[float, float], length: str = "mm") -> str:
    cover = Cover(
        item="Brown cavesson",
        kind="cavesson",
        measure="nose_round",
        good=good,
        least_mm=525.0,
        most_mm=700.0,
    )
    one = OneSize(
        said="Tansy",
        bands={"nose_round": (550.0, 555.0, 560.0)},
        covers=(cover,),
        findings=(),
    )
    (view,) = reaches("Brown cavesson", (one,), Units(length=length))  # type: ignore[arg-type]
    return view.covered.replace("\u2009", " ")


HOLES = ((545.0, 565.0), (570.0, 590.0), (595.0, 615.0), (620.0, 640.0))


def test_two_stretches_are_listed_and_more_are_left_to_the_drawing() -> None:
    assert covered(*HOLES[:2]) == (
        "Good for 545 to 565 mm, 570 to 590 mm, only just for 525 to 700 mm."
    )
    assert covered(*HOLES) == (
        "Good near each hole, 545 to 640 mm; only just between them, and for 525 to"
        " 700 mm."
    )


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_the_ends_of_what_is_good_are_always_told(count: int) -> None:
    said = covered(*HOLES[:count], length="in")
    assert "(545 to " in said
    assert f" {HOLES[count - 1][1]:.0f} mm)" in said
