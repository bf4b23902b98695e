"""Which bodies an item is good for, drawn under the sizes of horses, or of days."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from fitting.body import measure_by_key
from fitting.drawings.reach import Reach, ReachRow
from fitting.drawings.signs import word_of
from fitting.fit import Finding
from fitting.fit.answers import Answer, worst
from fitting.fit.covers import Cover
from fitting.fit.staleness import stale_words
from fitting.readings import Units, show, show_between
from fitting.tryons import BODY_OF_PART

FEW: Final = 2  # stretches of sizes that are listed; more are read off the drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachFigure:
    """One row of the drawing in figures."""

    said: str
    likely: str
    between: str
    stale: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachView:
    """One drawing with its words, and the same in figures.

    ``left_out``: how many horses more it fits, that are not drawn.
    """

    title: str
    drawn: Reach
    covered: str
    holed: bool
    figures: tuple[ReachFigure, ...]
    stale: tuple[str, ...]
    left_out: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class OneSize:
    """A horse, or a day: its words, its bands by measure, what is covered, answers."""

    said: str
    bands: Mapping[str, tuple[float, float, float]]
    covers: tuple[Cover, ...]
    findings: tuple[Finding, ...]


def reaches(item: str, sizes: Sequence[OneSize], units: Units) -> tuple[ReachView, ...]:
    """Return a drawing for each measure that an item goes by, its rows in order."""
    measures = dict.fromkeys(cover.measure for one in sizes for cover in one.covers)
    found = (_view(item, measure, sizes, units) for measure in measures)
    return tuple(view for view in found if view is not None)


def _view(
    item: str, measure: str, sizes: Sequence[OneSize], units: Units
) -> ReachView | None:
    rows = [(one, row) for one in sizes if (row := _row(one, measure)) is not None]
    if not rows:
        return None
    cover = next(c for one, _ in rows for c in one.covers if c.measure == measure)
    name = measure_by_key(measure).name
    figures = tuple(_figure(one, row, measure, units) for one, row in rows)
    covered = _covered(cover, units)
    drawn = Reach(
        uid=f"reach-{measure}".replace("_", "-"),
        title=f"{item}: {name}",
        desc=f"{covered} {' '.join(f'{f.said}: {f.between}.' for f in figures)}",
        unit=units.length,
        rows=tuple(row for _, row in rows),
    )
    return ReachView(
        title=name[:1].upper() + name[1:],
        drawn=drawn,
        covered=covered,
        holed=bool(cover.holes),
        figures=figures,
        stale=tuple(
            f"{one.said}: {figure.stale}."
            for (one, _), figure in zip(rows, figures, strict=True)
            if figure.stale
        ),
    )


def _row(one: OneSize, measure: str) -> ReachRow | None:
    cover = next((c for c in one.covers if c.measure == measure), None)
    band = one.bands.get(measure)
    if cover is None or band is None:
        return None
    of_it = [f for f in one.findings if BODY_OF_PART.get(f.part) == measure]
    answer = worst(of_it)
    hole = next((f.hole for f in of_it if f.hole is not None), None)
    named = f", hole {hole}" if hole and answer is not Answer.NO else ""
    return ReachRow(
        said=f"{one.said}: {word_of(answer)}{named}",
        band=band,
        good=cover.good,
        least=cover.least_mm,
        most=cover.most_mm,
        holes=cover.holes,
        hole=hole,
    )


def _figure(one: OneSize, row: ReachRow, measure: str, units: Units) -> ReachFigure:
    low, middle, high = row.band
    of_it = (f for f in one.findings if BODY_OF_PART.get(f.part) == measure)
    return ReachFigure(
        said=row.said,
        likely=show(middle, "length", units),
        between=show_between(low, high, "length", units),
        stale=stale_words(of_it),
    )


def _covered(cover: Cover, units: Units) -> str:
    """Return the sizes it is good for; near each hole, where that is many stretches."""
    if len(cover.good) > FEW:
        ends = [end for span in cover.good for end in span]
        good = _span(min(ends), max(ends), units)
        wide = _span(cover.least_mm, cover.most_mm, units)
        return f"Good near each hole, {good}; only just between them, and for {wide}."
    spans = ", ".join(_span(*span, units) for span in cover.good)
    if cover.least_mm >= cover.from_mm and cover.most_mm <= cover.to_mm:
        return f"Good for {spans}."
    wide = _span(cover.least_mm, cover.most_mm, units)
    return f"Good for {spans}, only just for {wide}."


def _span(low_mm: float, high_mm: float, units: Units) -> str:
    """Return a span of sizes; inches are coarse, so mm stand beside them."""
    said = show_between(low_mm, high_mm, "length", units)
    return (
        f"{said} ({low_mm:.0f} to {high_mm:.0f} mm)" if units.length == "in" else said
    )


def findings_of(item: str, found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings of one item or set."""
    return tuple(finding for finding in found if finding.item == item)
