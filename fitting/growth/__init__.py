"""Readings and published curves become a size on any day, with its spread."""

from __future__ import annotations

from fitting.growth.bands import quantiles
from fitting.growth.horse import Growth, fit_growth
from fitting.growth.observed import Observation, growth_key
from fitting.growth.spread import Spread
from fitting.growth.subject import Subject

__all__ = [
    "Growth",
    "Observation",
    "Spread",
    "Subject",
    "fit_growth",
    "growth_key",
    "quantiles",
]
