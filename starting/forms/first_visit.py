"""The forms of the first visit: a horse, and its first measurement."""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError

from fitting.age import months_old
from fitting.body import HorseType, middle, plausible
from fitting.forms.base import DayInput, HeightField, OnceForm
from fitting.forms.horses import PARENTS, HorseForm
from fitting.models import Horse
from fitting.units import HeightUnit, Length, show_range, understood_height

MEASURE: Final = "withers_height"
METHODS: Final = (("stick", "stick"), ("tape", "tape over the shoulder"))
READINGS: Final = ("first", "second", "third")
# How far readings of one day may lie apart before one is doubted; ours: about four
# times what one reading differs from the next.
FAR_APART_MM: Final = 30.0


class FirstHorseForm(HorseForm):
    """A horse: name, sex, foaling date, type, grown or not; the rest can wait."""

    grown = forms.TypedChoiceField(
        label="A youngster, or grown?",
        choices=(
            ("False", "A youngster, to be brought on"),
            ("True", "Grown: for comparison, and to lend tack"),
        ),
        coerce=lambda text: text == "True",
        widget=forms.RadioSelect,
    )

    class Meta(HorseForm.Meta):
        fields = ("name", "sex", "foaled", "horse_type", "grown")  # type: ignore[assignment]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for parent in PARENTS:
            del self.fields[f"{parent}_height"]


class FirstMeasurementForm(OnceForm):
    """The withers height: up to three readings by stick or tape."""

    method = forms.ChoiceField(
        label="Measured with",
        choices=METHODS,
        initial="stick",
        widget=forms.RadioSelect,
    )
    on = forms.DateField(label="Day", widget=DayInput)
    keep = forms.BooleanField(
        label="Keep it: it is read rightly", required=False, initial=False
    )

    def __init__(self, *args: Any, horse: Horse, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.horse = horse
        self.today = today
        self.unit: HeightUnit = horse.yard.height_unit  # type: ignore[assignment]
        self.doubt = ""
        self.fields["on"].initial = today
        for number, name in enumerate(READINGS):
            attrs = {"class": "reading", "inputmode": "text", "autocomplete": "off"}
            if self.unit == "hands":
                attrs["data-fractions"] = "¼ ½ ¾"
            self.fields[name] = HeightField(
                unit=self.unit,
                label=name,
                required=number == 0,
                widget=forms.TextInput(attrs=attrs),
                error_messages={"required": "Write one reading at least."},
            )

    @property
    def boxes(self) -> list[forms.BoundField]:
        """The three reading boxes."""
        return [self[name] for name in READINGS]

    @property
    def readings(self) -> list[Length]:
        """What was read."""
        found = (self.cleaned_data.get(name) for name in READINGS)
        return [size for size in found if size is not None]

    @property
    def understood(self) -> str:
        """What was understood, in both units; nothing where nothing was read."""
        if not self.is_bound or not hasattr(self, "cleaned_data") or not self.readings:
            return ""
        sizes = [size.mm for size in self.readings]
        return understood_height(middle(tuple(sizes)), self.unit)

    def clean_on(self) -> date:
        """Refuse a day before the horse was foaled, or still to come."""
        on: date = self.cleaned_data["on"]
        if on > self.today:
            raise ValidationError("That day is still to come.", code="to_come")
        if on < self.horse.foaled_days.first:
            she = self.horse.she
            raise ValidationError(f"On that day {she} was not foaled yet.")
        return on

    def clean(self) -> dict[str, Any] | None:
        """Ask again about what is hard to believe; keep it if it is said to be so."""
        cleaned = super().clean() or {}
        if not self.errors and self.readings:
            self.doubt = self._doubt(cleaned["on"])
            if self.doubt and not cleaned.get("keep"):
                self.add_error(None, self.doubt)
        return cleaned

    def _doubt(self, on: date) -> str:
        """Return a sentence about readings that are hard to believe."""
        sizes = [size.mm for size in self.readings]
        if max(sizes) - min(sizes) > FAR_APART_MM:
            return (
                "The readings lie further apart than a stick or tape does from one"
                " time to the next. Measure once more, or keep it."
            )
        low, high = self._believed(on)
        if low <= middle(tuple(sizes)) <= high:
            return ""
        at = show_range(low, high, self.unit)
        return (
            f"{self.understood} is far from what this type stands at that age:"
            f" {at}{' hands' if self.unit == 'hands' else ''}. Look again, or keep it."
        )

    def _believed(self, on: date) -> tuple[float, float]:
        """Return the range (mm) that is not doubted, at any age possible."""
        foaled = self.horse.foaled_days
        kind: HorseType = self.horse.horse_type  # type: ignore[assignment]
        ages = (months_old(foaled.last, on), months_old(foaled.first, on))
        ranges = [plausible(MEASURE, kind, max(0.0, age)) for age in ages]
        return min(low for low, _ in ranges), max(high for _, high in ranges)
