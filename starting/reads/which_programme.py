"""How a programme is named in an address."""

from __future__ import annotations

from starting.models import ProgrammeVersion
from starting.programme import shipped


def ref_of(row: ProgrammeVersion) -> str:
    """Return the name of a shipped programme, else the number of its version."""
    if row.yard_id is None and row.digest == shipped(row.key).digest:
        return row.key
    return str(row.pk)
