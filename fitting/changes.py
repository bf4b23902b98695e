"""What a write changed for a horse: the answers of its tack, said in sentences."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from typing import Final

from fitting.fit.answers import WORST_FIRST, Answer, Finding
from fitting.looks import Seen

WORDS: Final = {
    Answer.GOOD: "good",
    Answer.WATCH: "only just",
    Answer.NO: "no",
    Answer.NOT_KNOWN: "can't say",
}
MOVED: Final = timedelta(days=30)  # ours: a day that moves less is no news
MOST_SAID: Final = 5


def changes(before: Seen | None, after: Seen | None) -> tuple[str, ...]:
    """Return what changed for the tack between two looks at a horse, worst first.

    An item counts as its worst part. Nothing is said of what stays as it was.
    """
    if before is None or after is None:
        return ()
    was = dict(_items(before.fits))
    found = []
    for item, finding in _items(after.fits):
        former = was.get(item)
        if former is not None and _differs(former, finding):
            found.append((WORST_FIRST.index(finding.answer), _said(finding, former)))
    return tuple(said for _, said in sorted(found)[:MOST_SAID])


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
    if before.answer != after.answer:
        return True
    if after.answer is not Answer.GOOD or after.good_until is None:
        return False
    moved = before.good_until is None or abs(after.good_until - before.good_until)
    return moved is True or moved >= MOVED


def _said(finding: Finding, before: Finding) -> str:
    said = f"{finding.item}: {WORDS[finding.answer]}"
    if finding.answer is Answer.GOOD and finding.good_until:
        said += f" until about {finding.good_until:%B %Y}"
    if before.answer is Answer.NOT_KNOWN and finding.answer is not Answer.NOT_KNOWN:
        said += "; nothing could be said before"
    elif before.answer != finding.answer:
        said += f"; it was {WORDS[before.answer]} before"
    return f"{said}."
