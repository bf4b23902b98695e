"""The citations behind the numbers, by short key."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One citation; ``kind`` says how far to trust it."""

    key: str
    text: str
    kind: str


SOURCES: dict[str, Source] = {}
