"""A bridle made up for one horse from the parts that are at hand."""

from fitting.mixing.mix import mix
from fitting.mixing.values import (
    NOT_FOR_LONG,
    Chosen,
    Lacking,
    Mixed,
    Mixture,
    Room,
    Unknown,
)

__all__ = [
    "NOT_FOR_LONG",
    "Chosen",
    "Lacking",
    "Mixed",
    "Mixture",
    "Room",
    "Unknown",
    "mix",
]
