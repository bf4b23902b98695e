"""Stored outlooks, as the pages read them."""

from __future__ import annotations

import zlib

import msgspec

from fitting.models import Horse, Yard
from starting.models import StoredOutlook
from starting.outlook import Brief, Outlook

WHOLE = msgspec.json.Decoder(Outlook)
BRIEF = msgspec.json.Decoder(Brief)


def outlook_of(horse: Horse) -> Outlook | None:
    """Return a horse's stored outlook; None before its first planning (1 query)."""
    row = StoredOutlook.objects.filter(horse=horse).defer("brief", "fits").first()
    return WHOLE.decode(zlib.decompress(row.content)) if row else None


def outlooks(yard: Yard) -> dict[str, Outlook]:
    """Return every stored outlook of a yard, by the horse's key (1 query)."""
    rows = StoredOutlook.objects.filter(horse__yard=yard).order_by("horse__name")
    found = (
        WHOLE.decode(zlib.decompress(row.content))
        for row in rows.defer("brief", "fits")
    )
    return {outlook.key: outlook for outlook in found}


def briefs(yard: Yard) -> dict[str, Brief]:
    """Return the brief of every stored outlook, by the horse's key (1 query)."""
    rows = StoredOutlook.objects.filter(horse__yard=yard).values_list(
        "brief", flat=True
    )
    return {brief.key: brief for brief in (BRIEF.decode(row) for row in rows)}
