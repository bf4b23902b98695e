"""An outlook in the shape that other programs read; lengths in mm, weights in kg."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from fitting.fit import Finding
from fitting.looks import Band, Last, MeasureLook
from fitting.wanted import Wanted
from starting.diary import Entry
from starting.gates import Gate
from starting.outlook.values import Outlook, StageLook

Table = dict[str, Any]


def contract_of(outlook: Outlook, uid_of: Callable[[str], str]) -> Table:
    """Return an outlook as plain tables; ``None`` where nothing can be said.

    Args:
        outlook: everything computed for one horse on one day.
        uid_of: an entry's key to the UID it has in the calendar file.
    """
    return {
        "horse": outlook.horse,
        "yard": outlook.yard,
        "on": outlook.on.isoformat(),
        "age_months": outlook.age_months,
        "season_age": outlook.season_age,
        "measures": [_measure(look) for look in outlook.measures],
        "fits": [_fit(finding) for finding in outlook.fits],
        "stages": [_stage(stage) for stage in outlook.stages],
        "wanted": [_wanted(one) for one in outlook.wants.wanted if not one.got_on],
        "measuring_days": [
            {"on": day.on.isoformat(), "measures": list(day.measures)}
            for day in outlook.measuring_days
        ],
        "diary": [_entry(entry, uid_of) for entry in outlook.entries],
    }


def _day(day: date | None) -> str | None:
    return day.isoformat() if day else None


def _measure(look: MeasureLook) -> Table:
    return {
        "measure": look.measure,
        "unit": look.unit,
        "last": _last(look.last) if look.last else None,
        "now": _band(look.now),
        "grown": _band(look.grown),
        "standing": look.standing,
        "measure_by": _day(look.measure_by),
    }


def _last(last: Last) -> Table:
    return {
        "on": last.on.isoformat(),
        "value": last.value,
        "text": last.text,
        "method": last.method,
    }


def _band(band: Band | None) -> Table | None:
    return {"p5": band.p5, "p50": band.p50, "p95": band.p95} if band else None


def _fit(finding: Finding) -> Table:
    return {
        "item": finding.item,
        "kind": finding.kind,
        "part": finding.part,
        "answer": finding.answer.value,
        "why": finding.why,
        "chance_no": finding.chance_no,
        "good_until": _day(finding.good_until),
        "hole": finding.hole,
        "spare_longer": finding.spare_longer,
        "spare_shorter": finding.spare_shorter,
        "good_from": _day(finding.good_from),
    }


def _stage(stage: StageLook) -> Table:
    return {
        "stage": stage.stage,
        "state": stage.state,
        "go_over_again": stage.go_over_again,
        "last_true_level": stage.last_true_level,
        "gates": [_gate(gate) for gate in stage.gates],
        "start": _day(stage.start),
        "finish": _day(stage.finish),
        "finish_early": _day(stage.finish_early),
        "finish_late": _day(stage.finish_late),
        "because": stage.because,
        "sessions_left": stage.sessions_left,
    }


def _gate(gate: Gate) -> Table:
    return {
        "gate": gate.gate,
        "kind": gate.kind,
        "answer": gate.answer.value,
        "why": gate.why,
        "opens_on": _day(gate.opens_on),
        "went_ahead": gate.went_ahead,
    }


def _wanted(wanted: Wanted) -> Table:
    return {
        "stage": wanted.stage or None,
        "kind": wanted.kind,
        "part": wanted.part,
        "from": _mm(wanted.good.from_mm),
        "to": _mm(wanted.good.to_mm),
        "by": wanted.by.isoformat(),
        "keep": wanted.keep,
        "borrow": [
            {"item": offer.item, "until": _day(offer.until)} for offer in wanted.borrow
        ],
    }


def _mm(size_mm: float | None) -> float | None:
    return None if size_mm is None else round(size_mm, 1)


def _entry(entry: Entry, uid_of: Callable[[str], str]) -> Table:
    return {
        "uid": uid_of(entry.key),
        "on": entry.on.isoformat(),
        "kind": entry.kind,
        "title": entry.title,
        "forecast": entry.forecast,
    }
