"""Rows of the yard, its horses' bodies and its tack."""

from fitting.models.bringing_in import BroughtIn
from fitting.models.horse import Horse
from fitting.models.measurement import Measurement, Photo
from fitting.models.tack import Loan, Part, SetPart, Tack, TackSet
from fitting.models.tryon import FirstWorn, TryOn, TryOnPart
from fitting.models.yard import Membership, WrittenOnce, Yard

__all__ = [
    "BroughtIn",
    "FirstWorn",
    "Horse",
    "Loan",
    "Measurement",
    "Membership",
    "Part",
    "Photo",
    "SetPart",
    "Tack",
    "TackSet",
    "TryOn",
    "TryOnPart",
    "WrittenOnce",
    "Yard",
]
