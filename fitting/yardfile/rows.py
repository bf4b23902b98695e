"""Rows made from a yard file: each is asked itself whether it may stand."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Final, TypeVar

from django.core.exceptions import ValidationError
from django.db import models

from fitting.models import Horse, Tack, TackSet, Yard
from fitting.readings import Units
from fitting.yardfile.days import day_or_none, read_day
from fitting.yardfile.place import Place, shown

NAMES_SHOWN: Final = 12
Row = TypeVar("Row", bound=models.Model)


@dataclass(frozen=True, slots=True, kw_only=True)
class Loading:
    """A yard while it is loaded: its day, its units, and what is there by name."""

    yard: Yard
    on: date
    units: Units
    horses: dict[str, Horse] = field(default_factory=dict)
    tack: dict[str, Tack] = field(default_factory=dict)
    sets: dict[str, TackSet] = field(default_factory=dict)

    def day(self, where: Place, text: str) -> date:
        """Return the day that a text means.

        Raises:
            YardFileError: it is no day.
        """
        return read_day(where, text, self.on)

    def maybe_day(self, where: Place, text: str | None) -> date | None:
        """Return the day that a text means; None where nothing is written.

        Raises:
            YardFileError: it is no day.
        """
        return day_or_none(where, text, self.on)

    def item_or_set(
        self, where: Place, item: str, made_up: str
    ) -> tuple[Tack | None, TackSet | None]:
        """Return the item, or the made-up set, that is named.

        Raises:
            YardFileError: neither or both are named, or it is not in the file.
        """
        if bool(item) == bool(made_up):
            found = f"found item {item!r} and set {made_up!r}"
            raise where.error(found, "one of item and set")
        if item:
            return find(where / "item", item, self.tack), None
        return None, find(where / "set", made_up, self.sets)


def keep(where: Place, row: Row, **keys: str) -> Row:
    """Save a row if each of its values may stand; ``keys``: the file's own words.

    Raises:
        YardFileError: a value is none of the choices, too long, or too large.
    """
    fields = row._meta.concrete_fields  # noqa: SLF001 - Django's public door to fields
    relations = {f.name for f in fields if f.is_relation}
    try:
        row.clean_fields(exclude=relations)
    except ValidationError as error:
        name, messages = next(iter(error.message_dict.items()))
        bad = next(f for f in fields if f.name == name)
        allowed = ", ".join(str(key) for key, _ in bad.choices or () if key)
        place = where / keys.get(name, name)
        said = allowed or " ".join(messages).rstrip(".")
        raise place.error(shown(getattr(row, name)), said) from error
    row.save()
    return row


def find(where: Place, name: str, rows: Mapping[str, Row]) -> Row:
    """Return the row of that name.

    Raises:
        YardFileError: the file has none.
    """
    if name not in rows:
        raise where.error(shown(name), listed(rows))
    return rows[name]


def one_of(where: Place, found: str, allowed: Iterable[str]) -> str:
    """Return the found word, if it is one of those allowed.

    Raises:
        YardFileError: it is not.
    """
    words = list(allowed)
    if found not in words:
        raise where.error(shown(found), listed(words, len(words)))
    return found


def listed(names: Iterable[str], most: int = NAMES_SHOWN) -> str:
    """Return what is allowed, in one line."""
    all_names = list(names)
    more = len(all_names) - most
    said = ", ".join(all_names[:most]) or "nothing: the file has none"
    return f"{said} and {more} more" if more > 0 else said


def each_once(where: Place, keys: Iterable[Hashable], *steps: str) -> None:
    """Check that no entry of a list stands twice.

    Raises:
        YardFileError: one does; ``steps`` lead from the entry to what is the same.
    """
    seen: dict[Hashable, int] = {}
    for at, key in enumerate(keys):
        if key in seen:
            place = where / at
            for step in steps:
                place = place / step
            said = " and ".join(str(k) for k in key) if isinstance(key, tuple) else key
            raise place.error(f"found {said} again", f"once (see entry {seen[key]})")
        seen[key] = at


def weekdays(where: Place, days: list[str], allowed: Iterable[str]) -> list[str]:
    """Return days of the week, or other words that stand once each, in their order.

    Raises:
        YardFileError: a word is not known, or stands twice.
    """
    order = list(allowed)
    for at, day in enumerate(days):
        one_of(where / at, day, order)
    each_once(where, days)
    return sorted(days, key=order.index)
