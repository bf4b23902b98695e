"""The box of a hole, or of how many there are."""

from __future__ import annotations

from typing import Any

from django import forms

from fitting.pieces import MOST_HOLES


class HoleField(forms.IntegerField):
    """A whole number from 1; what is none is refused in words of ours."""

    def __init__(
        self, *, most: int = MOST_HOLES, too_many: str = "", **more: Any
    ) -> None:
        said = {
            "invalid": "Holes are counted: a whole number, as 4.",
            "min_value": "Holes are counted from 1.",
            "max_value": too_many or f"At most {most}.",
        }
        more.setdefault("required", False)
        super().__init__(min_value=1, max_value=most, error_messages=said, **more)
