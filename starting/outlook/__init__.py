"""All of it for one horse, from facts to one value."""

from starting.outlook.compute import look_at_yard
from starting.outlook.facts import HorseFacts, MeasuredText, YardFacts
from starting.outlook.values import Outlook, StageLook, Suggestion

__all__ = [
    "HorseFacts",
    "MeasuredText",
    "Outlook",
    "StageLook",
    "Suggestion",
    "YardFacts",
    "look_at_yard",
]
