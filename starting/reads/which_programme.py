"""Which programme a horse has, and which one to ask its keeper about."""

from __future__ import annotations

from datetime import date
from typing import Final, cast

from fitting.body import HorseType
from fitting.models import Horse
from starting.models import Plan, ProgrammeVersion
from starting.outlook import Outlook
from starting.programme import shipped
from starting.proposing import Proposal, proposal

USUAL: Final = "default"
BEGUN: Final = frozenset({"established", "under_way"})


def ref_of(row: ProgrammeVersion) -> str:
    """Return how a version is named in an address."""
    if row.yard_id is None and row.digest == shipped(row.key).digest:
        return row.key
    return str(row.pk)


def asked_of(
    horse: Horse, plan: Plan | None, outlook: Outlook | None, on: date
) -> Proposal | None:
    """Return the programme to ask a keeper about; None: none, or asked already."""
    if plan is None or plan.programme_chosen or horse.grown:
        return None
    if plan.programme.yard_id is not None or plan.programme.key != USUAL:
        return None
    height = outlook.measure("withers_height") if outlook else None
    begun = outlook is not None and any(s.state in BEGUN for s in outlook.stages)
    return proposal(
        horse.name,
        cast("HorseType", horse.horse_type),
        horse.foaled_days,
        on,
        begun=begun,
        grown_mm=height.grown.p50 if height and height.grown else None,
    )
