"""The boxes of a hole, of how many there are, and of a gap."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from fitting.nose_gap import NoseGap, UnreadableGapError, read_gap
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


class GapField(forms.CharField):
    """Typed text that becomes a gap and keeps its text."""

    def to_python(self, value: Any) -> NoseGap | None:  # type: ignore[override]
        """Read the text, or refuse it in words."""
        text = super().to_python(value)
        if not text:
            return None
        try:
            return read_gap(text)
        except UnreadableGapError as error:
            raise ValidationError(str(error), code="unreadable") from error

    def run_validators(self, value: Any) -> None:
        """Check what was typed."""
        super().run_validators(value.written if value else "")
