"""Programmes: files become steps in order, with what each needs and what is checked."""

from starting.programme.reading import read_programme
from starting.programme.shipped import (
    DEFAULT,
    shipped,
    shipped_keys,
    shipped_table,
    shipped_text,
)
from starting.programme.values import (
    MOUNTED_FLOOR_MONTHS,
    Check,
    Programme,
    Stage,
    StopSign,
    mounted,
    needs_second_person,
    on_lines,
)
from starting.programme_fields import ProgrammeError, StageKind, StopLevel

__all__ = [
    "DEFAULT",
    "MOUNTED_FLOOR_MONTHS",
    "Check",
    "Programme",
    "ProgrammeError",
    "Stage",
    "StageKind",
    "StopLevel",
    "StopSign",
    "mounted",
    "needs_second_person",
    "on_lines",
    "read_programme",
    "shipped",
    "shipped_keys",
    "shipped_table",
    "shipped_text",
]
