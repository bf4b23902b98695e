"""Put a yard's or a horse's own figures in place of ours, or take them back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db import transaction

from fitting.fit.edge_text import kept_of
from fitting.fit.edges import Change
from fitting.models import Horse, Yard
from fitting.models.horse import OWN_EDGES
from fitting.models.yard import YARD_EDGES
from fitting.writes.touch import remember_token, touch


class ChangedMeanwhileError(Exception):
    """Somebody else changed the figures since they were shown."""


@transaction.atomic
def change_yard_edges(
    yard: Yard, changes: Sequence[Change], *, seen: int, token: str, led_to: str
) -> None:
    """Add changes of the figures for the whole yard; ``seen``: how many there were.

    Raises:
        ChangedMeanwhileError: there are more by now.
    """
    row = Yard.objects.select_for_update().get(pk=yard.pk)
    row.settings = _with(row.settings, YARD_EDGES, changes, seen)
    row.save(update_fields=["settings"])
    remember_token(yard, token, led_to)
    touch(yard)


@transaction.atomic
def change_horse_edges(
    horse: Horse, changes: Sequence[Change], *, seen: int, token: str, led_to: str
) -> None:
    """Add changes of the figures for one horse; ``seen``: how many there were.

    Raises:
        ChangedMeanwhileError: there are more by now.
    """
    row = Horse.objects.select_for_update().get(pk=horse.pk)
    row.clearances = _with(row.clearances, OWN_EDGES, changes, seen)
    row.save(update_fields=["clearances"])
    remember_token(horse.yard, token, led_to)
    touch(horse.yard)


def _with(
    held: dict[str, Any], key: str, changes: Sequence[Change], seen: int
) -> dict[str, Any]:
    """Return what a row holds, with changes added to those of its figures."""
    kept = held.get(key, ())
    if len(kept) != seen:
        raise ChangedMeanwhileError
    return {**held, key: [*kept, *map(kept_of, changes)]}
