"""What calibration showed, as lines of plain text."""

from __future__ import annotations

from collections.abc import Iterator

from fitting.body import measure_by_key
from fitting.calibration.counting import AHEAD_MONTHS, BANDS, Calibration, Coverage

_MM_A_CM = 10.0


def say_calibration(found: Calibration) -> str:
    """Return coverage in per cent and errors of grown height in cm, as a table."""
    return "\n".join(_lines(found))


def _lines(found: Calibration) -> Iterator[str]:
    yield (
        f"{found.world.name}, fitted as {found.world.horse_type};"
        f" {found.horses} horses, seed {found.seed}"
    )
    when = "".join(f"{_ahead(months):>11}" for months in AHEAD_MONTHS)
    yield f"  {'band held, %':24}{when}"
    for measure in dict.fromkeys(row.measure for row in found.coverage):
        rows = [row for row in found.coverage if row.measure == measure]
        yield from _measure_lines(measure, rows)
    yield "  grown height foretold less true, cm"
    yield f"  {'last measured at':24}  horses    bias    RMSE  half within"
    for error in found.grown:
        ages = f"{error.from_months} to {error.to_months} months"
        sizes = (error.bias, error.rmse)
        told = "".join(f"{size / _MM_A_CM:8.1f}" for size in sizes)
        yield f"  {ages:24}{error.horses:8}{told}{error.median_off / _MM_A_CM:13.1f}"


def _measure_lines(measure: str, rows: list[Coverage]) -> Iterator[str]:
    for at, band in enumerate(BANDS):
        name = f"{measure_by_key(measure).name}, {band:.0%}"
        yield f"  {name:24}" + "".join(f"{100 * row.held[at]:11.1f}" for row in rows)


def _ahead(months: int) -> str:
    return f"{months} months" if months else "now"
