"""Croup and withers over time, for the body page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.body import HorseType
from fitting.croup import Croup, Judged, croup_on, edge_mm, judge, pauses_of
from fitting.drawings.croup import CroupChart, CroupMark
from fitting.drawings.marks import Mark
from fitting.drawings.scale import Unit
from fitting.models import Horse, Measurement
from fitting.readings import Units, show, show_difference
from fitting.reads.facts import taken_fact
from fitting.reads.units import day_words, units_of

NINE_IN_TEN_SDS: Final = 1.645
MARKS: Final[dict[str, Mark]] = {"level": "stick", "tape": "string"}
METHODS: Final = {"level": "stick or laser", "tape": "tape"}
NEVER: Final = (
    "Croup and withers were never taken on one day by one method, so nobody can say"
    " how far the one stands over the other."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class CroupRow:
    """One day's pair in figures."""

    on: date
    withers: str
    croup: str
    over: str
    method: str
    high: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CroupView:
    """Croup over withers: said, drawn, and in figures; the newest first."""

    sentence: str
    then: str = ""
    loud: str = ""  # good, watch, no
    chart: CroupChart | None = None
    key: tuple[tuple[Mark, str], ...] = ()
    any_high: bool = False
    any_pause: bool = False
    rows: tuple[CroupRow, ...] = ()
    mixed: bool = False  # taken by stick and by tape, which never mix


def croup_view(horse: Horse, rows: Sequence[Measurement], on: date) -> CroupView | None:
    """Return croup over withers of a youngster once it was measured (no query)."""
    taken = [taken_fact(row) for row in rows if not row.struck and row.on <= on]
    if horse.grown or not taken:
        return None
    horse_type: HorseType = horse.horse_type  # type: ignore[assignment]
    judged = judge(taken, horse_type)
    croup = croup_on(judged, on)
    if croup.newest is None:
        return CroupView(sentence=NEVER)
    units = units_of(horse.yard)
    sentence = _sentence(horse, croup.newest, units)
    pauses = tuple((one.second.pair.on, one.ends) for one in pauses_of(judged))
    families = dict.fromkeys(one.pair.family for one in judged)
    return CroupView(
        sentence=sentence,
        then=_then(horse, croup, on),
        loud=_loud(croup),
        chart=CroupChart(
            uid="croup-over-withers",
            title=f"{horse.name}: croup over withers by age",
            desc=sentence,
            unit=_unit(units),
            born=horse.foaled_days.last,
            today=on,
            pairs=tuple(_mark(one) for one in judged),
            edge_mm=edge_mm(horse_type),
            usual_mm=croup.newest.usual.over_mm if croup.newest.usual else None,
            pauses=pauses,
        ),
        key=tuple((MARKS[one], f"{METHODS[one]}, with its error") for one in families),
        any_high=any(one.high for one in judged),
        any_pause=bool(pauses),
        rows=tuple(_row(one, units) for one in reversed(judged)),
        mixed=len(families) > 1,
    )


def _unit(units: Units) -> Unit:
    return "in" if units.height == "hands" else "cm"


def _sentence(horse: Horse, one: Judged, units: Units) -> str:
    """Return ``Croup 3.1 cm over the withers; usual for her 2.6 cm.``."""
    usual = ""
    if one.usual is not None:
        her = "her" if horse.she == "she" else "him"
        usual = f"; usual for {her} {_over(one.usual.over_mm, units)}"
    return f"Croup {_beside(one.pair.over_mm, units)}{usual}."


def _beside(over_mm: float, units: Units) -> str:
    side = "over" if over_mm >= 0 else "under"
    return f"{show_difference(abs(over_mm), 'height', units)} {side} the withers"


def _over(over_mm: float, units: Units) -> str:
    """Return a difference; one under the withers says so."""
    said = show_difference(abs(over_mm), "height", units)
    return said if over_mm >= 0 else f"{said} under"


def _then(horse: Horse, croup: Croup, on: date) -> str:
    """Return what follows: nothing, one more reading, or a pause."""
    again = croup.again_from
    if croup.pause is not None:
        until = day_words(croup.pause.ends)
        return (
            f"High twice running: a growth pause until {until}. What loads"
            f" {horse.name} waits; then take both again."
        )
    if again is None:
        return "Not high, as read last."
    if again <= on:
        return "High by the last reading: take both again now, by the same person."
    return (
        f"High by one reading: take both again from {day_words(again)}, by the same"
        " person."
    )


def _loud(croup: Croup) -> str:
    if croup.pause is not None:
        return "no"
    return "good" if croup.again_from is None else "watch"


def _mark(one: Judged) -> CroupMark:
    return CroupMark(
        on=one.pair.on,
        over_mm=one.pair.over_mm,
        half_width_mm=NINE_IN_TEN_SDS * one.pair.error_mm,
        mark=MARKS[one.pair.family],
        high=one.high,
    )


def _row(one: Judged, units: Units) -> CroupRow:
    return CroupRow(
        on=one.pair.on,
        withers=show(one.pair.withers_mm, "height", units).removesuffix(" hands"),
        croup=show(one.pair.croup_mm, "height", units).removesuffix(" hands"),
        over=_over(one.pair.over_mm, units),
        method=METHODS[one.pair.family],
        high=one.high,
    )
