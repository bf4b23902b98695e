"""What a horse's body page shows: its size now, its growth, what to measure again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.body import measure_by_key
from fitting.drawings.standing import LETTERS
from fitting.growth import Growth
from fitting.looks import MeasureLook, Seen
from fitting.models import Horse, Measurement
from fitting.readings import Units, show
from fitting.reads.apart import Apart, apart_of
from fitting.reads.asked import DayAnswer, PassAnswer, day_answer, pass_answer
from fitting.reads.charts import (
    HEIGHT,
    ChartView,
    Known,
    between,
    charted,
    growth_chart,
    read_of,
)
from fitting.reads.croup import CroupView, croup_view
from fitting.reads.growth import growth_of, tried_on
from fitting.reads.horses import HorseHead, horse_head
from fitting.reads.in_use import covers_in_use
from fitting.reads.outlook import seen_of
from fitting.reads.units import day_words, near_words, units_of
from fitting.sized import height_words, rests_words, speed_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is asked of the page: every chart, a limit of one measure, another day."""

    all_charts: bool = False
    limit: tuple[str, float] | None = None
    day: date | None = None


NOTHING_ASKED: Final = Asked()


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
    charted: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Top:
    """The height at the head of the page, and what is said of it."""

    big: str
    sentence: str
    speed: str
    rests_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyPage:
    """The body page of one horse."""

    head: HorseHead
    grown: bool
    planned: bool
    top: Top
    measured: bool
    main: ChartView | None
    croup: CroupView | None
    others: tuple[ChartView, ...]
    more: tuple[str, ...]
    rows: tuple[LedgerRow, ...]
    not_taken: tuple[str, ...]
    passes: PassAnswer | None
    on_day: DayAnswer | None
    apart: tuple[Apart, ...] = ()

    @property
    def drawn(self) -> tuple[str, ...]:
        """The measures of the ledger."""
        return tuple(row.measure for row in self.rows)

    @property
    def drawn_names(self) -> tuple[str, ...]:
        """Their names, in the same order."""
        return tuple(row.title.lower() for row in self.rows)


def body_page(horse: Horse, on: date, asked: Asked = NOTHING_ASKED) -> BodyPage:
    """Return a horse's body page (2 queries and growth's: outlook, measurements).

    With all charts, what the tack in use covers as well (1 query more).
    """
    seen, rows = seen_of(horse), tuple(horse.measurements.all())
    tried = tried_on(horse)
    growth = growth_of(horse, tried=tried)
    known = _known(horse, growth, seen, rows, on)
    if known and asked.all_charts:
        known = replace(known, covers=covers_in_use(horse, growth, tried, on))
    more = _more(known) if known else ()
    looks = seen.measures if seen else ()
    shown = [look for look in looks if look.last or look.is_asked(on)]
    return BodyPage(
        head=horse_head(horse, on),
        grown=horse.grown,
        planned=seen is not None,
        top=_top(horse, seen.measure(HEIGHT) if seen else None, rows),
        measured=bool(rows),
        main=growth_chart(known, HEIGHT) if known and not horse.grown else None,
        croup=croup_view(horse, rows, on),
        others=_charts(known, more) if known and asked.all_charts else (),
        more=tuple(measure_by_key(key).name for key in more),
        rows=tuple(_ledger_row(look, units_of(horse.yard), on, more) for look in shown),
        not_taken=tuple(look.name for look in looks if look not in shown),
        passes=_passes(horse, growth, asked, on),
        on_day=day_answer(horse, growth, asked.day, on) if asked.day else None,
        apart=apart_of(seen.contradictions, horse.yard) if seen else (),
    )


def _known(
    horse: Horse,
    growth: Growth,
    seen: Seen | None,
    rows: tuple[Measurement, ...],
    on: date,
) -> Known | None:
    """Return what the charts are drawn from; None before the first planning."""
    if seen is None:
        return None
    return Known(horse=horse, growth=growth, seen=seen, rows=rows, on=on)


def _more(known: Known) -> tuple[str, ...]:
    """Return the measures charted on demand: all, but the height at the page's head."""
    keys = charted(known)
    return keys if known.horse.grown else tuple(key for key in keys if key != HEIGHT)


def _top(horse: Horse, height: MeasureLook | None, rows: Sequence[Measurement]) -> Top:
    units = units_of(horse.yard)
    return Top(
        big=_big(height, units, grown=horse.grown),
        sentence=_sentence(horse, height, units) if height else "",
        speed=speed_words(height, units) if height and not horse.grown else "",
        rests_on=_rests_on(horse, rows, height),
    )


def _passes(horse: Horse, growth: Growth, asked: Asked, on: date) -> PassAnswer | None:
    if asked.limit is None:
        return None
    return pass_answer(horse, growth, *asked.limit, on)


def _charts(known: Known, keys: tuple[str, ...]) -> tuple[ChartView, ...]:
    drawn = (growth_chart(known, key) for key in keys)
    return tuple(chart for chart in drawn if chart is not None)


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
    return height_words(look, horse.she, units)


def _grown_sentence(horse: Horse, look: MeasureLook) -> str:
    if look.last is None:
        return f"Grown. Measure {_her(horse)} once, and youngsters can be put beside."
    return f"Grown; measured {day_words(look.last.on)}."


def _her(horse: Horse) -> str:
    return "her" if horse.she == "she" else "him"


def _rests_on(
    horse: Horse, rows: Sequence[Measurement], height: MeasureLook | None
) -> str:
    """Return what the sizes rest on: readings, parents, or type and age alone."""
    known = (("dam", horse.dam_height_mm), ("sire", horse.sire_height_mm))
    read = read_of(rows, tuple(name for name, mm in known if mm))
    return rests_words(height, read, day_words(read.first) if read.first else "")


def _ledger_row(
    look: MeasureLook, units: Units, on: date, charts: tuple[str, ...]
) -> LedgerRow:
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
        again=_again(look.measure_by, on) if look.measure_by else "",
        standing=look.standing,
        due=bool(look.measure_by and look.measure_by <= on),
        charted=look.measure in charts,
    )


def _again(day: date, on: date) -> str:
    """Return a day that breaks nowhere but before its year."""
    return near_words(day, on).replace(" ", "\u00a0", 1)


def _bare(said: str) -> str:
    """Return a height as a ledger shows it, without the word that all of them share."""
    return said.removesuffix(" hands")
