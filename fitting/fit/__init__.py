"""Whether tack fits a horse, from when until when, and why."""

from fitting.fit.answers import Answer, Finding, Wearer, worse, worst
from fitting.fit.findings import fits
from fitting.fit.hung import lent_parts
from fitting.fit.tack import Cheek, MadeUp, Part, Tack

__all__ = [
    "Answer",
    "Cheek",
    "Finding",
    "MadeUp",
    "Part",
    "Tack",
    "Wearer",
    "fits",
    "lent_parts",
    "worse",
    "worst",
]
