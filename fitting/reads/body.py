"""What a horse's body page shows: its size now, its growth, what to measure again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fitting.drawings.standing import LETTERS
from fitting.looks import MeasureLook
from fitting.models import Horse, Measurement
from fitting.readings import Units, show, show_between
from fitting.reads.charts import HEIGHT, ChartView, between, growth_charts
from fitting.reads.horses import HorseHead, horse_head
from fitting.reads.outlook import seen_of
from fitting.reads.units import day_words, near_words, units_of

ASKED_WITHIN: Final = timedelta(days=365)  # ours


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerRow:
    """One measure: last taken, now, grown, when again."""

    measure: str
    title: str
    letter: str
    how: str
    last: str
    now: str
    grown: str
    again: str
    standing: str
    due: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyPage:
    """The body page of one horse."""

    head: HorseHead
    grown: bool
    planned: bool
    big: str
    sentence: str
    rests_on: str
    measured: bool
    main: ChartView | None
    others: tuple[ChartView, ...]
    more: tuple[str, ...]
    rows: tuple[LedgerRow, ...]
    not_taken: tuple[str, ...]

    @property
    def drawn(self) -> tuple[str, ...]:
        """The measures of the ledger."""
        return tuple(row.measure for row in self.rows)

    @property
    def drawn_names(self) -> tuple[str, ...]:
        """Their names, in the same order."""
        return tuple(row.title.lower() for row in self.rows)


def body_page(horse: Horse, on: date, *, all_charts: bool = False) -> BodyPage:
    """Return a horse's body page (2 queries: outlook, measurements).

    ``all_charts``: draw the other measures by age as well as the height.
    """
    seen = seen_of(horse)
    rows = list(horse.measurements.all())
    units = units_of(horse.yard)
    height = seen.measure(HEIGHT) if seen else None
    charts = growth_charts(horse, seen, rows, on) if seen else ()
    looks = seen.measures if seen else ()
    shown = [look for look in looks if look.last or _is_asked(look, on)]
    return BodyPage(
        head=horse_head(horse, on),
        grown=horse.grown,
        planned=seen is not None,
        big=_big(height, units, grown=horse.grown),
        sentence=_sentence(horse, height, units) if height else "",
        rests_on=_rests_on(horse, rows),
        measured=bool(rows),
        main=next((c for c in charts if c.measure == HEIGHT), None),
        others=tuple(c for c in charts if c.measure != HEIGHT) if all_charts else (),
        more=tuple(c.title.lower() for c in charts if c.measure != HEIGHT),
        rows=tuple(_ledger_row(look, units, on) for look in shown),
        not_taken=tuple(look.name for look in looks if look not in shown),
    )


def _is_asked(look: MeasureLook, on: date) -> bool:
    """Whether a measure never taken is asked for soon enough to stand in the ledger."""
    return look.measure_by is not None and look.measure_by <= on + ASKED_WITHIN


def _big(look: MeasureLook | None, units: Units, *, grown: bool) -> str:
    """Return the one big figure: the height now, or that it is not measured."""
    if look is None or look.last is None or look.now is None:
        return "Not measured yet"
    size = look.last.value if grown else look.now.p50
    return show(size, "height", units)


def _sentence(horse: Horse, look: MeasureLook, units: Units) -> str:
    """Return where the horse stands, how far it has grown, and how high it will be."""
    if horse.grown:
        return _grown_sentence(horse, look)
    if look.now is None or look.grown is None:
        return ""
    now = show_between(look.now.p5, look.now.p95, "height", units)
    grown = show_between(look.grown.p5, look.grown.p95, "height", units)
    if look.last is None:
        return (
            f"By type and age alone {horse.she} stands {now}, nine times in ten, and"
            f" will make {grown} grown. The first measurement narrows this."
        )
    share = round(100 * look.now.p50 / look.grown.p50)
    return (
        f"Today {horse.she} stands {now}, about {share} % of the height {horse.she} is"
        f" likely to reach. Grown, {horse.she} will make {grown}. Both nine times in"
        " ten."
    )


def _grown_sentence(horse: Horse, look: MeasureLook) -> str:
    if look.last is None:
        return f"Grown. Measure {_her(horse)} once, and youngsters can be put beside."
    return f"Grown; measured {day_words(look.last.on)}."


def _her(horse: Horse) -> str:
    return "her" if horse.she == "she" else "him"


def _rests_on(horse: Horse, rows: Sequence[Measurement]) -> str:
    """Return what the sizes rest on: readings, parents, or type and age alone."""
    counted = [row for row in rows if not row.struck]
    parents = [
        name
        for name, mm in (("dam", horse.dam_height_mm), ("sire", horse.sire_height_mm))
        if mm
    ]
    said = f"the height of the {' and the '.join(parents)}" if parents else ""
    if not counted:
        start = "Rests on no reading: on age and type alone"
        return f"{start}, and on {said}." if said else f"{start}."
    first = min(row.on for row in counted)
    count = f"{len(counted)} measurement{'s' if len(counted) > 1 else ''}"
    return (
        f"Rests on {count} since {day_words(first)}{f' and on {said}' if said else ''}."
    )


def _ledger_row(look: MeasureLook, units: Units, on: date) -> LedgerRow:
    last = look.last
    method = Measurement(method=last.method).get_method_display() if last else ""
    return LedgerRow(
        measure=look.measure,
        title=look.name.capitalize(),
        letter=LETTERS.get(look.measure, ""),
        how=f"{method}, {near_words(last.on, on)}" if last else "",
        last=_bare(show(last.value, look.dimension, units)) if last else "not measured",
        now=_bare(between(look.now, look, units)),
        grown=_bare(between(look.grown, look, units)),
        again=near_words(look.measure_by, on) if look.measure_by else "",
        standing=look.standing,
        due=bool(look.measure_by and look.measure_by <= on),
    )


def _bare(said: str) -> str:
    """Return a height as a ledger shows it, without the word that all of them share."""
    return said.removesuffix(" hands")
