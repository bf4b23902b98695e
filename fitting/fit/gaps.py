"""A finding held to the gap that was seen at the front of the nose."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from fitting.fit.answers import Answer, Finding, Gap, worse
from fitting.units import show_off, show_wanted

_SHORT: Final = {
    Answer.NO: "too tight at the front",
    Answer.WATCH: "snug at the front",
}


def with_gap(found: Finding, gap: Gap | None, gap_mm: float | None) -> Finding:
    """Return a finding that is no better than the gap seen under it (mm) allows."""
    if gap is None or gap_mm is None:
        return found
    answer = worse((found.answer, gap.answer(gap_mm)))
    good, by_gap = answer is Answer.GOOD, answer is gap.answer(gap_mm)
    return replace(
        found,
        answer=answer,
        why=f"{found.why} {_say(gap, gap_mm)}",
        decided=(*found.decided, *gap.decided),
        short=_SHORT.get(answer, "") if by_gap else found.short,
        good_until=found.good_until if good else None,
        looked_until=found.looked_until if good else None,
    )


def _say(gap: Gap, gap_mm: float) -> str:
    said = f"{show_off(gap_mm, gap.told_in, 'g')} clear at the front of the nose"
    answer = gap.answer(gap_mm)
    if answer is Answer.GOOD:
        return f"{said}."
    if answer is Answer.NO:
        least = show_wanted(gap.no_below, gap.told_in, "g")
        return f"Only {said}: under {least} it is too tight."
    return f"Only {said}: {show_wanted(gap.good_from, gap.told_in, 'g')} are wanted."
