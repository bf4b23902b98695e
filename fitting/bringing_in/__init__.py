"""Readings brought in from a list that the keeper has: a text becomes measurements."""

from fitting.bringing_in.checking import come_to
from fitting.bringing_in.columns import ROLES, match_headings
from fitting.bringing_in.days import Order, find_order
from fitting.bringing_in.table import DELIMITERS, Table, find_delimiter, read_table
from fitting.bringing_in.text import (
    MOST_BYTES,
    Decoded,
    UnreadableFileError,
    decode,
    plain_text,
)
from fitting.bringing_in.values import (
    Entry,
    How,
    Known,
    KnownHorse,
    Outcome,
    Stands,
    Trouble,
)

__all__ = [
    "DELIMITERS",
    "MOST_BYTES",
    "ROLES",
    "Decoded",
    "Entry",
    "How",
    "Known",
    "KnownHorse",
    "Order",
    "Outcome",
    "Stands",
    "Table",
    "Trouble",
    "UnreadableFileError",
    "come_to",
    "decode",
    "find_delimiter",
    "find_order",
    "match_headings",
    "plain_text",
    "read_table",
]
