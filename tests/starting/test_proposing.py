"""Which programme a keeper is asked about: by type and age, never imposed."""

from __future__ import annotations

from datetime import date

import pytest

from fitting.age import read_foaled
from starting.proposing import proposal

ON = date(2031, 5, 1)


@pytest.mark.parametrize(
    ("horse_type", "foaled", "begun", "grown_mm", "wanted"),
    [
        ("small_pony", "2030-04-20", False, None, "small_pony"),
        ("pony", "2030-04-20", False, None, None),
        ("light", "2030-04-20", False, 1600.0, None),
        ("light", "2030-04-20", False, 1676.4, None),  # 16.2 hands is not over it
        ("light", "2030-04-20", False, 1680.0, "late_big_heavy"),
        ("warmblood", "2030-04-20", False, None, "late_big_heavy"),
        ("heavy", "2030-04-20", True, None, "late_big_heavy"),
        ("light", "2027-05-01", False, None, "late_starter"),  # four today
        ("light", "2027-05-02", False, None, None),  # four tomorrow
        ("small_pony", "2025-05-01", False, None, "late_starter"),
        ("small_pony", "2025-05-01", True, None, "small_pony"),  # begun long ago
        ("light", "2025", True, None, None),
    ],
)
def test_who_is_asked_about_what(
    horse_type: str, foaled: str, begun: bool, grown_mm: float | None, wanted: str
) -> None:
    found = proposal(
        "Tansy",
        horse_type,  # type: ignore[arg-type]
        read_foaled(foaled),
        ON,
        begun=begun,
        grown_mm=grown_mm,
    )
    assert (found.programme if found else None) == wanted
    assert found is None or "Tansy" in found.why
