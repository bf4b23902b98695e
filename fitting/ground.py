"""What a device draws the pages on: paper, or slate."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

GROUND: Final = "ground"  # the cookie of a device that was told
PAPER: Final = "paper"
THEMES: Final = {PAPER: "light", "slate": "dark", "device": "auto"}


def ground_of(cookies: Mapping[str, str]) -> str:
    """Return what a device was told: ``slate`` or ``device``; else ``paper``."""
    kept = cookies.get(GROUND, "")
    return kept if kept in THEMES else PAPER
