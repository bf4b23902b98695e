"""Rows of the way up: programme, log, care, the stored outlook, the diary."""

from starting.models.calendar import (
    CalendarKey,
    DiaryEntry,
    DiaryTick,
    PastEntry,
    RetiredEntry,
    StoredFeed,
)
from starting.models.care import CareVisit, Incident, OffWork, Rest
from starting.models.log import Session, SessionWorn, StageRecord, WentAhead
from starting.models.plan import (
    Bought,
    LastTold,
    Moved,
    Person,
    Plan,
    ProgrammeVersion,
    StoredOutlook,
)

__all__ = [
    "Bought",
    "CalendarKey",
    "CareVisit",
    "DiaryEntry",
    "DiaryTick",
    "Incident",
    "LastTold",
    "Moved",
    "OffWork",
    "PastEntry",
    "Person",
    "Plan",
    "ProgrammeVersion",
    "Rest",
    "RetiredEntry",
    "Session",
    "SessionWorn",
    "StageRecord",
    "StoredFeed",
    "StoredOutlook",
    "WentAhead",
]
