"""Weight from the tape: the published formulas, and which one is for this horse."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from fitting.age import completed_months
from fitting.units.sizes import factor
from fitting.weight.whom import Whom

GIRTH: Final = "heart_girth"
LENGTH: Final = "body_length"
BAND_SHARE: Final = 0.10  # ours; tapes and formulas were 5 to 25 % off the scale
# Ages, months: from which a foal counts as a weanling, a yearling, a two-year-old, and
# from which the rules for adults were made on horses of its age. All ours.
WEANLING_MONTHS: Final = 6
YEARLING_MONTHS: Final = 12
TWO_YEARS_MONTHS: Final = 24
ADULT_MONTHS: Final = 36
YOUNG_SAID: Final = (
    "The formula was made on horses of three or four years and more: it is less sure at"
    " this age."
)
_POUND_KG: Final = float(factor("lb", "kg"))
_UNIT_MM: Final = {
    "cm": float(factor("cm", "mm")),
    "in": float(factor("in", "mm")),
    "m": float(factor("m", "mm")),
}
_OUT_KG: Final = {"cm": 1.0, "m": 1.0, "in": _POUND_KG}


@dataclass(frozen=True, slots=True, kw_only=True)
class Formula:
    """One published formula: weight = ``times`` x girth² x length / ``over``.

    ``unit`` is that of the tape; inches give pounds, the others kilograms. Without a
    length in ``needs`` it is girth³. ``ages``: months from and to, the last outside.
    """

    key: str
    name: str
    needs: tuple[str, ...]
    unit: Literal["cm", "in", "m"]
    over: float
    made_on: str
    source: str
    ages: tuple[int, int | None]
    times: float = 1.0
    second_hand: bool = False
    weighs_kg: tuple[float, float] | None = None
    adults: bool = False
    band: float = BAND_SHARE


class OutsideFormulaError(ValueError):
    """A girth outside what a formula was made on; carries the limits, mm."""

    def __init__(self, girth_mm: float, low_mm: float, high_mm: float) -> None:
        super().__init__(
            f"girth {girth_mm:.0f} mm is outside {low_mm:.0f} to {high_mm:.0f} mm"
        )
        self.girth_mm = girth_mm
        self.low_mm = low_mm
        self.high_mm = high_mm


FOAL: Final = Formula(
    key="foal",
    name="girth³ × 90, in metres",
    needs=(GIRTH,),
    unit="m",
    times=90.0,
    over=1.0,
    made_on="80 Thoroughbred foals of 50 to 250 kg",
    source="rodriguez_2007",
    ages=(0, WEANLING_MONTHS),
    second_hand=True,
    weighs_kg=(50.0, 250.0),
)
WEANLING: Final = Formula(
    key="weanling",
    name="girth² × length ÷ 280, inches to pounds",
    needs=(GIRTH, LENGTH),
    unit="in",
    over=280.0,
    made_on="weanlings, as a farm's page says; no study found",
    source="young_divisors",
    ages=(WEANLING_MONTHS, YEARLING_MONTHS),
    second_hand=True,
)
YEARLING: Final = Formula(
    key="yearling",
    name="girth² × length ÷ 301, inches to pounds",
    needs=(GIRTH, LENGTH),
    unit="in",
    over=301.0,
    made_on="yearlings, as a farm's page says; no study found",
    source="young_divisors",
    ages=(YEARLING_MONTHS, TWO_YEARS_MONTHS),
    second_hand=True,
)
ADULT: Final = Formula(
    key="adult",
    name="girth² × length ÷ 11,900, in centimetres",
    needs=(GIRTH, LENGTH),
    unit="cm",
    over=11_900.0,
    made_on="281 grown horses that were weighed and taped",
    source="carroll_huntington_1988",
    ages=(TWO_YEARS_MONTHS, None),
    adults=True,
)
ADULT_INCHES: Final = Formula(
    key="adult_inches",
    name="girth² × length ÷ 330, inches to pounds",
    needs=(GIRTH, LENGTH),
    unit="in",
    over=330.0,
    made_on="grown horses; a veterinary school's own rule",
    source="minnesota_weight",
    ages=(TWO_YEARS_MONTHS, None),
    adults=True,
)
ICELANDIC: Final = Formula(
    key="icelandic",
    name="girth² × length ÷ 11,400, in centimetres",
    needs=(GIRTH, LENGTH),
    unit="cm",
    over=11_400.0,
    made_on="grown Icelandic horses only",
    source="icelandic_weight",
    ages=(TWO_YEARS_MONTHS, None),
    adults=True,
)
FORMULAS: Final = (FOAL, WEANLING, YEARLING, ADULT, ADULT_INCHES, ICELANDIC)
LEFT_OUT: Final = (
    "Left out: the formulas that also ask for the neck, the knee or the length of the"
    " foreleg, which are not measured here, and two that no source read could confirm."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The formula for this horse at its age, and why this one."""

    formula: Formula
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FormulaWeight:
    """What one formula says (kg); None: refused. ``said``: why not, or how sure."""

    formula: Formula
    kg: float | None
    said: str = ""


def kg_by(formula: Formula, girth_mm: float, length_mm: float | None = None) -> float:
    """Return the weight (kg) that a formula gives.

    Raises:
        OutsideFormulaError: the girth lies outside what the formula was made on.
        ValueError: a measure is missing, or not more than nothing.

    Source: named in the formula.
    """
    by_girth = LENGTH not in formula.needs
    along = girth_mm if by_girth else length_mm
    if along is None:
        raise ValueError(f"{formula.name} needs a body length")
    if girth_mm <= 0 or along <= 0:
        raise ValueError("a girth and a length are more than nothing")
    low, high = girth_limits(formula)
    if not low <= girth_mm <= high:
        raise OutsideFormulaError(girth_mm, low, high)
    unit = _UNIT_MM[formula.unit]
    size = (girth_mm / unit) ** 2 * along / unit
    return formula.times * size / formula.over * _OUT_KG[formula.unit]


def girth_limits(formula: Formula) -> tuple[float, float]:
    """Return the girths (mm) between which a formula by girth alone was made."""
    if formula.weighs_kg is None:
        return 0.0, float("inf")
    low, high = ((kg / formula.times) ** (1 / 3) for kg in formula.weighs_kg)
    return low * _UNIT_MM["m"], high * _UNIT_MM["m"]


def formula_for(whom: Whom, on: date) -> Chosen:
    """Return the formula for a horse of this age, and why.

    Months from the last possible foaling day. Source: ages ours.
    """
    months = completed_months(whom.foaled, on)
    if whom.grown or months >= ADULT_MONTHS:
        why = "The rule for grown horses, made on horses weighed on a scale."
        return Chosen(formula=ADULT, why=why)
    if months >= TWO_YEARS_MONTHS:
        return Chosen(formula=ADULT, why=_TWO_YEARS_WHY)
    if months >= YEARLING_MONTHS:
        return Chosen(formula=YEARLING, why=f"The yearling's rule. {_SECOND_HAND}")
    if months >= WEANLING_MONTHS:
        return Chosen(formula=WEANLING, why=f"The weanling's rule. {_SECOND_HAND}")
    why = f"The foal's rule, by the girth alone. {_SECOND_HAND}"
    return Chosen(formula=FOAL, why=why)


_SECOND_HAND: Final = "Read second-hand only, so trust it less."
_TWO_YEARS_WHY: Final = (
    "No rule for two-year-olds was found, so the grown horse's is used. It says about"
    " 9 % less than the yearling's: the safe side for what a horse may carry."
)


def weights_by_formula(
    girth_mm: float, length_mm: float | None, whom: Whom, on: date
) -> tuple[FormulaWeight, ...]:
    """Return what each formula says (kg) of the measures at hand, the chosen first.

    A formula for another age stands there to be put beside, and says so; outside its
    limits it is refused in words.
    """
    chosen = formula_for(whom, on).formula
    fits = [one for one in FORMULAS if length_mm is not None or LENGTH not in one.needs]
    fits.sort(key=lambda one: one is not chosen)
    return tuple(_weight(one, girth_mm, length_mm, whom, on) for one in fits)


def _weight(
    formula: Formula, girth_mm: float, length_mm: float | None, whom: Whom, on: date
) -> FormulaWeight:
    try:
        kg = kg_by(formula, girth_mm, length_mm)
    except OutsideFormulaError:
        said = "This girth lies outside what it was made on."
        return FormulaWeight(formula=formula, kg=None, said=said)
    return FormulaWeight(formula=formula, kg=kg, said=_said(formula, whom, on))


def _said(formula: Formula, whom: Whom, on: date) -> str:
    """Return how far a formula was made on such a horse; nothing where it was."""
    months = completed_months(whom.foaled, on)
    first, past = formula.ages
    young = not whom.grown and months < ADULT_MONTHS
    if formula.adults and young:
        return YOUNG_SAID
    too_old = past is not None and (whom.grown or months >= past)
    if too_old or months < first:
        return "For horses of another age."
    return ""
