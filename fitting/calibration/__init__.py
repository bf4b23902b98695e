"""How well growth foretells: simulated horses, measured, fitted and held to account."""

from __future__ import annotations

from fitting.calibration.counting import Calibration, Coverage, GrownError, calibrate
from fitting.calibration.telling import say_calibration
from fitting.calibration.worlds import BRODY, MEASURES, Brody, Drawn, World, worlds

__all__ = [
    "BRODY",
    "MEASURES",
    "Brody",
    "Calibration",
    "Coverage",
    "Drawn",
    "GrownError",
    "World",
    "calibrate",
    "say_calibration",
    "worlds",
]
