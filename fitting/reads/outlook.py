"""What body and tack show of the stored outlooks.

The outlook is stored by the way up; its rows hang on the horse by the name
``outlook``. Only the parts that this side knows are decoded here.
"""

from __future__ import annotations

import zlib
from typing import Any

import msgspec
from django.core.exceptions import ObjectDoesNotExist

from fitting.looks import Seen
from fitting.models import Horse, Yard

DECODE = msgspec.json.Decoder(Seen)


def seen_of(horse: Horse) -> Seen | None:
    """Return what is seen of one horse; None before its first planning (1 query)."""
    try:
        row: Any = horse.outlook
    except ObjectDoesNotExist:
        return None
    return DECODE.decode(zlib.decompress(row.content))


def seen(yard: Yard) -> dict[str, Seen]:
    """Return what is seen of every horse, by its key, by name (1 query)."""
    rows: Any = yard.horses.select_related("outlook").order_by("name")
    found = {}
    for horse in rows:
        got = seen_of(horse)
        if got is not None:
            found[horse.key] = got
    return found
