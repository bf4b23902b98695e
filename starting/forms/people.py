"""The form of one person of the yard."""

from __future__ import annotations

from typing import Any, Final

from django import forms

from fitting.forms.base import KeptForm, WeightField
from fitting.models import Yard
from fitting.units import Weight, WeightUnit, read_weight, show_weight
from starting.models import Person

CAN: Final = (
    ("handle", "lead and handle a youngster"),
    ("help", "stand by as the second person"),
    ("ride", "ride"),
    ("train", "bring on youngsters"),
)
LEAST_RIDER_KG: Final = 15.0  # ours: a child of four


class RiderWeightField(WeightField):
    """What somebody weighs dressed: a slip for 60 kg must not make a light rider."""

    def read(self, text: str) -> Weight:
        """Return the weight."""
        return read_weight(text, unit=self.unit, least_kg=LEAST_RIDER_KG)


class PersonForm(KeptForm):
    """Somebody of the yard: what they can do, what they weigh dressed."""

    instance: Person

    can = forms.MultipleChoiceField(
        label="Can", choices=CAN, widget=forms.CheckboxSelectMultiple, required=False
    )

    class Meta:
        model = Person
        fields = ("name", "can", "has_backed_horses", "child")
        labels = {"has_backed_horses": "Has backed horses before", "child": "A child"}
        help_texts = {
            "has_backed_horses": "Who has not counts a tenth heavier as a rider, and"
            " needs a trainer there.",
            "child": "A child is never the first to sit on, nor the trainer (ours).",
        }

    def __init__(self, *args: Any, yard: Yard, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.instance.yard = yard
        unit: WeightUnit = yard.weight_unit  # type: ignore[assignment]
        before = self.instance.weight_written
        if not before and self.instance.weight_kg:
            before = show_weight(self.instance.weight_kg, unit)
        self.fields["weight"] = RiderWeightField(
            unit=unit,
            label="Weight, dressed to ride",
            required=False,
            initial=before,
            help_text="With boots, hat, body protector and all: what the horse carries"
            " besides the tack. Only keepers see it; a step with a rider tells all who"
            " read it what share of the horse's weight it comes to.",
        )

    def clean_weight(self) -> Weight | None:
        """Hand the weight to the record."""
        weight: Weight | None = self.cleaned_data["weight"]
        self.instance.weight_kg = weight.kg if weight else None
        self.instance.weight_written = weight.written if weight else ""
        return weight
