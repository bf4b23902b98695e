"""Readings and published curves become a size on any day, with its spread."""

from __future__ import annotations

from fitting.growth.bands import quantiles
from fitting.growth.bounds import Bound
from fitting.growth.horse import Growth, fit_growth
from fitting.growth.observed import Observation, growth_key
from fitting.growth.shares import Shares, share_quantiles
from fitting.growth.spread import Spread
from fitting.growth.subject import Subject

__all__ = [
    "Bound",
    "Growth",
    "Observation",
    "Shares",
    "Spread",
    "Subject",
    "fit_growth",
    "growth_key",
    "quantiles",
    "share_quantiles",
]
