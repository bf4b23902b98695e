"""All of it for one horse, from facts to one value."""

from starting.outlook.brief import Brief, NextStep, brief_of
from starting.outlook.compute import look_at_yard
from starting.outlook.facts import Aim, HorseFacts, MeasuredText, YardFacts
from starting.outlook.values import AimLook, DayAhead, Outlook, StageLook, Suggestion

__all__ = [
    "Aim",
    "AimLook",
    "Brief",
    "DayAhead",
    "HorseFacts",
    "MeasuredText",
    "NextStep",
    "Outlook",
    "StageLook",
    "Suggestion",
    "YardFacts",
    "brief_of",
    "look_at_yard",
]
