"""What was ever changed of an item and its parts, and by whom."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date
from itertools import groupby
from typing import Any, Final
from zoneinfo import ZoneInfo

from fitting.models import Part, Tack
from fitting.pieces import CHOICES, COUNTS, SIZES, label_of, part_word
from fitting.reads.measure import Edit
from fitting.reads.units import day_words

_NAMES: Final = {
    "name": "name",
    "label_size": "size on the label",
    "belongs_to": "whose it is",
    "bought": "bought on",
    "note": "note",
}
MADE: Final = "put up"
_OF_PARTS: Final = (*SIZES, *COUNTS, *CHOICES, "material")


def edits_of(row: Tack) -> tuple[Edit, ...]:
    """Return every edit of an item and its parts, newest first (2 queries).

    What one person changed within the same minute is told as one edit.
    """
    zone = ZoneInfo(row.yard.timezone)
    of_parts: Any = Part.history.filter(tack_id=row.pk).select_related("history_user")
    of_item: Any = row.history.select_related("history_user")
    said = [
        *_told(of_item.order_by("pk"), _item_words),
        *_told(of_parts.order_by("pk"), _part_words),
    ]
    newest = sorted(said, key=lambda one: one[0].history_date, reverse=True)
    groups = groupby(newest, key=lambda one: _when_and_who(one[0], zone))
    edits = (_edit(*named, [*rows]) for named, rows in groups)
    return tuple(edit for edit in edits if edit.said)


def _told(rows: Iterable[Any], words: Any) -> Iterator[tuple[Any, str]]:
    """Return each row of a history with what it changed of the one before it."""
    before: dict[int, Any] = defaultdict(lambda: None)
    for row in rows:
        yield row, words(before[row.id], row)
        before[row.id] = row


def _when_and_who(row: Any, zone: ZoneInfo) -> tuple[str, str]:
    at = row.history_date.astimezone(zone)
    who = str(row.history_user or "somebody")
    return f"{day_words(at.date())}, {at:%H.%M}", who


def _edit(when: str, who: str, rows: list[tuple[Any, str]]) -> Edit:
    made = any(said == MADE for _, said in rows)
    changed = [said for _, said in reversed(rows) if said and said != MADE]
    said = MADE if made else "; ".join(changed)
    return Edit(at=rows[0][0].history_date, when=when, who=who, said=said)


def _item_words(before: Any, now: Any) -> str:
    """Return what an edit changed of the item itself."""
    if before is None:
        return MADE
    changed = [
        f"{said}: {_said(before, name)} became {_said(now, name)}"
        for name, said in _NAMES.items()
        if getattr(before, name) != getattr(now, name)
    ]
    if before.gone != now.gone:
        put = "put up again" if now.gone is None else f"taken down {_said(now, 'gone')}"
        changed.append(put)
    return "; ".join(changed)


def _part_words(before: Any, now: Any) -> str:
    """Return what an edit changed of a part: its sizes, or that it came or went."""
    name = part_word(now.part)
    if now.history_type == "-":
        return f"{name} struck off"
    if before is None:
        sizes = [f"{label_of(k).lower()} {_said(now, k)}" for k in _known(now)]
        return f"{name} added{': ' if sizes else ''}{', '.join(sizes)}"
    changed = [
        f"{label_of(key).lower()} {_said(before, key)} became {_said(now, key)}"
        for key in _OF_PARTS
        if _value(before, key) != _value(now, key)
    ]
    return f"{name}: {', '.join(changed)}" if changed else ""


def _known(row: Any) -> list[str]:
    return [key for key in _OF_PARTS if _value(row, key)]


def _value(row: Any, key: str) -> Any:
    return getattr(row, f"{key}_mm" if key in SIZES else key)


def _said(row: Any, name: str) -> str:
    """Return a field in words; a size as it was typed."""
    value = _value(row, name)
    if not value:
        return "nothing"
    if name in SIZES:
        return str(row.written.get(name) or f"{value:g} mm")
    if name in CHOICES:
        return str(getattr(row, f"get_{name}_display")())
    return day_words(value) if isinstance(value, date) else str(value)
