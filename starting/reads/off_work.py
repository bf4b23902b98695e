"""When each horse of a yard is off work, told to whoever asks."""

from __future__ import annotations

from collections import defaultdict
from typing import Any

from fitting.models import Yard
from fitting.ringing import Span
from fitting.signals import off_work_asked
from starting.gates.time_off import back_on
from starting.models import OffWork
from starting.reads.facts import off_fact


def off_work_in(yard: Yard) -> dict[int, list[Span]]:
    """Return first day off and first day back by the horse's pk (1 query)."""
    found: dict[int, list[Span]] = defaultdict(list)
    for row in OffWork.objects.filter(horse__yard=yard):
        found[row.horse_id].append((row.start, back_on(off_fact(row))))
    return found


def listen() -> None:
    """Tell when horses are off work."""
    off_work_asked.connect(_asked, sender=Yard, dispatch_uid="off-work")


def _asked(sender: type[Yard], *, yard: Yard, **_: Any) -> dict[int, list[Span]]:
    return off_work_in(yard)
