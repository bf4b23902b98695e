"""Stop signs to choose from, each with what it asks for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django import forms

from starting.programme import StopSign


class StopSelect(forms.RadioSelect):
    """Stop signs to choose from; each carries what it asks for."""

    def __init__(self, levels: Mapping[str, str]) -> None:
        super().__init__()
        self.levels = levels

    def create_option(self, *args: Any, **kwargs: Any) -> dict[str, Any]:
        """Say beside an option what it asks for."""
        option = super().create_option(*args, **kwargs)
        option["attrs"]["data-level"] = self.levels.get(str(option["value"]), "")
        return option


def with_level(sign: StopSign, words: Mapping[str, str]) -> str:
    """Return a stop sign with what it asks for, unless it says so itself."""
    asks = words[sign.level]
    return sign.text if asks in sign.text else f"{sign.text} ({asks})"
