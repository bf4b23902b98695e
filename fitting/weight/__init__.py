"""What a horse weighs: by scale, weigh tape, formula or eye, and how it changes."""

from __future__ import annotations

from fitting.weight.best import NEVER_DOSE, BestWeight, Weight, best_weight
from fitting.weight.formulas import (
    FORMULAS,
    Chosen,
    Formula,
    FormulaWeight,
    OutsideFormulaError,
    formula_for,
    kg_by,
    weights_by_formula,
)
from fitting.weight.trend import Series, Trend, percent, series, trend, trends
from fitting.weight.whom import Whom, is_small
from fitting.weight.worked_out import WorkedOut, worked_out

__all__ = [
    "FORMULAS",
    "NEVER_DOSE",
    "BestWeight",
    "Chosen",
    "Formula",
    "FormulaWeight",
    "OutsideFormulaError",
    "Series",
    "Trend",
    "Weight",
    "Whom",
    "WorkedOut",
    "best_weight",
    "formula_for",
    "is_small",
    "kg_by",
    "percent",
    "series",
    "trend",
    "trends",
    "weights_by_formula",
    "worked_out",
]
