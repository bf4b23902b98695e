"""The boxes of a measure: what may be typed or chosen, and why it was refused."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from django import forms

from fitting.body import Measure
from fitting.readings import Units

FRACTIONS_OF_HANDS: Final = "¼ ½ ¾"
FRACTIONS_OF_INCHES: Final = "⅛ ¼ ⅜ ½ ⅝ ¾ ⅞"


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """One box that cannot be read: what was typed, why, what may be meant."""

    typed: str
    why: str
    name: str
    meant: tuple[tuple[str, str, bool], ...]  # value, label, chosen
    read_as: str = ""


class Box:
    """One reading box as the page draws it."""

    def __init__(
        self, field: forms.BoundField, label: str, refused: Refused | None
    ) -> None:
        self.field = field
        self.label = label
        self.refused = refused

    @property
    def error_id(self) -> str:
        """The id of the sentence that refuses the box."""
        return f"{self.field.auto_id}_error"


def box_widget(measure: Measure, units: Units) -> forms.TextInput:
    """Return the box for one reading of a measure, with its unit's fractions."""
    attrs = {"class": "reading", "inputmode": "text", "autocomplete": "off"}
    if measure.dimension == "height" and units.height == "hands":
        attrs["data-fractions"] = FRACTIONS_OF_HANDS
    elif measure.dimension == "length" and units.length == "in":
        attrs["data-fractions"] = FRACTIONS_OF_INCHES
    return forms.TextInput(attrs=attrs)


def method_field(measure: Measure, usual: str) -> forms.ChoiceField:
    """Return the choice of method, with the usual one chosen."""
    return forms.ChoiceField(
        label="Measured with",
        choices=[(m.key, m.name.split(",")[0]) for m in measure.methods],
        initial=usual,
        required=False,
        widget=forms.RadioSelect,
    )
