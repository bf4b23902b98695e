"""What a write changed for a horse: its sizes and its tack, said in sentences."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from typing import Final

from fitting.fit.answers import WORST_FIRST, Answer, Finding
from fitting.looks import Band, MeasureLook, Seen
from fitting.readings import Units, show_between
from fitting.units import LengthUnit, show_off

WORDS: Final = {
    Answer.GOOD: "good",
    Answer.WATCH: "only just",
    Answer.NO: "no",
    Answer.NOT_KNOWN: "can't say",
}
MOVED: Final = timedelta(days=30)  # ours: a day that moves less is no news
ROOM_MOVED_MM: Final = 0.5  # ours: a bit's room each side that moves less is no news
MOST_SAID: Final = 5


def changes(
    before: Seen | None, after: Seen | None, unit: LengthUnit
) -> tuple[str, ...]:
    """Return what changed for the tack between two looks at a horse, worst first.

    An item counts as its worst part. Nothing is said of what stays as it was. ``unit``:
    the yard's, that room is told in.
    """
    if before is None or after is None:
        return ()
    was = dict(_items(before.fits))
    found = []
    for item, finding in _items(after.fits):
        former = was.get(item)
        if former is not None and _differs(former, finding):
            said = _said(finding, former, unit)
            found.append((WORST_FIRST.index(finding.answer), said))
    return tuple(said for _, said in sorted(found)[:MOST_SAID])


def stands_now(
    before: Seen | None, after: Seen | None, item: str, unit: LengthUnit
) -> str:
    """Return how one item stands after a write, and what it was before if that differs.

    Nothing is said of what cannot be reckoned.
    """
    if after is None:
        return ""
    finding = dict(_items(after.fits)).get(item)
    former = dict(_items(before.fits)).get(item) if before else None
    return _said(finding, former or finding, unit) if finding else ""


def _items(fits: Iterable[Finding]) -> list[tuple[str, Finding]]:
    """Return each item with its worst part, or the good one soonest outgrown."""
    worst: dict[str, Finding] = {}
    for finding in fits:
        kept = worst.get(finding.item)
        if kept is None or _badness(finding) < _badness(kept):
            worst[finding.item] = finding
    return list(worst.items())


def _badness(finding: Finding) -> tuple[int, date]:
    return WORST_FIRST.index(finding.answer), finding.good_until or date.max


def _differs(before: Finding, after: Finding) -> bool:
    if before.answer != after.answer or before.hole != after.hole:
        return True
    if after.answer not in {Answer.GOOD, Answer.WATCH}:
        return False
    return _room_moved(before, after) or _day_moved(before, after)


def _room_moved(before: Finding, after: Finding) -> bool:
    was, room = before.clear_each_side_mm, after.clear_each_side_mm
    if room is None or was is None:
        return room is not was
    return abs(room - was) >= ROOM_MOVED_MM


def _day_moved(before: Finding, after: Finding) -> bool:
    if after.answer is not Answer.GOOD or after.good_until is None:
        return False
    moved = before.good_until is None or abs(after.good_until - before.good_until)
    return moved is True or moved >= MOVED


def _said(finding: Finding, before: Finding, unit: LengthUnit) -> str:
    parts = (_answer(finding), _room(finding, unit), _hole(finding))
    said = f"{finding.item}: {', '.join(filter(None, parts))}"
    if before.answer is Answer.NOT_KNOWN and finding.answer is not Answer.NOT_KNOWN:
        said += "; nothing could be said before"
    elif before.answer != finding.answer:
        said += f"; it was {WORDS[before.answer]} before"
    return f"{said}."


def _answer(finding: Finding) -> str:
    if finding.answer is Answer.GOOD and finding.good_until:
        return f"good until about {finding.good_until:%B %Y}"
    if finding.answer is Answer.GOOD and finding.looked_until:
        return f"good to {finding.looked_until:%B %Y} at least"
    return WORDS[finding.answer]


def _room(finding: Finding, unit: LengthUnit) -> str:
    """Return the room of a bit each side; nothing where none can be said."""
    room = finding.clear_each_side_mm
    if room is None or finding.answer is Answer.NOT_KNOWN:
        return ""
    if room < 0:
        return f"{show_off(round(-2 * room, 1), unit, 'g')} too narrow"
    return f"{show_off(round(room, 1), unit, 'g')} each side"


def _hole(finding: Finding) -> str:
    """Return the hole, and how many are spare each way."""
    if finding.hole is None:
        return ""
    longer, shorter = finding.spare_longer, finding.spare_shorter
    if longer is None or shorter is None:
        return f"hole {finding.hole}"
    return f"hole {finding.hole} ({longer} to let down, {shorter} to take up)"


def size_changes(
    before: Seen, after: Seen, measures: Sequence[str], units: Units, *, grown: bool
) -> tuple[str, ...]:
    """Return what changed of the sizes that were measured, one sentence each.

    Nothing is said of a size that reads the same. A height is foretold as well, unless
    the horse is ``grown``.
    """
    looks = ((before.measure(key), after.measure(key)) for key in measures)
    said = (_size(was, now, units, grown=grown) for was, now in looks if was and now)
    return tuple(filter(None, said))


def _size(was: MeasureLook, now: MeasureLook, units: Units, *, grown: bool) -> str:
    today = _moved(was.now, now.now, now, units)
    foretold = now.dimension == "height" and not grown
    later = _moved(was.grown, now.grown, now, units) if foretold else ""
    moved = (("today", today), ("grown", later))
    said = "; ".join(f"{words} {band}" for words, band in moved if band)
    return f"{now.name.capitalize()} {said}." if said else ""


def _moved(was: Band | None, now: Band | None, look: MeasureLook, units: Units) -> str:
    """Return a band and what it was before; nothing where it reads the same."""
    shown = _between(now, look, units)
    before = _between(was, look, units)
    if not shown or shown == before:
        return ""
    return f"{shown} (before: {before})" if before else shown


def _between(band: Band | None, look: MeasureLook, units: Units) -> str:
    if band is None or look.dimension == "score":
        return ""
    return show_between(band.p5, band.p95, look.dimension, units)
