"""Stored outlooks, as the pages read them."""

from __future__ import annotations

import msgspec

from fitting.models import Horse, Yard
from starting.models import StoredOutlook
from starting.outlook import Outlook

DECODE = msgspec.json.Decoder(Outlook)


def outlook_of(horse: Horse) -> Outlook | None:
    """Return a horse's stored outlook; None before its first planning (1 query)."""
    row = StoredOutlook.objects.filter(horse=horse).first()
    return DECODE.decode(row.content) if row else None


def outlooks(yard: Yard) -> dict[str, Outlook]:
    """Return every stored outlook of a yard, by the horse's key (1 query)."""
    rows = StoredOutlook.objects.filter(horse__yard=yard).order_by("horse__name")
    found = (DECODE.decode(row.content) for row in rows)
    return {outlook.key: outlook for outlook in found}
