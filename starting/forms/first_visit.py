"""The forms of the first visit: a horse, and its first measurement."""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from django import forms

from fitting.body import measure_by_key
from fitting.forms.base import DayField, OnceForm
from fitting.forms.days import day_with
from fitting.forms.horses import PARENTS, HorseForm
from fitting.forms.readings import ReadingsForm
from fitting.models import Horse

MEASURE: Final = "withers_height"
METHOD: Final = "stick"


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
    """The withers height, read as on the page of measuring; its day."""

    on = DayField(label="Day")

    def __init__(self, *args: Any, horse: Horse, today: date, **kwargs: Any) -> None:
        super().__init__(*args, initial={"on": today}, **kwargs)
        self.horse = horse
        self.today = today
        self.ask = ReadingsForm(
            self.data if self.is_bound else None,
            horse=horse,
            measure=measure_by_key(MEASURE),
            method=METHOD,
            prefix=MEASURE,
        )

    @property
    def draft(self) -> str:
        """The name under which the phone keeps what is typed."""
        return f"first-measurement-{self.horse.yard.slug}-{self.horse.key}"

    def clean_on(self) -> date:
        """Refuse a day to come, or before the horse was foaled."""
        return day_with(self.horse, self.cleaned_data["on"], self.today)

    def clean(self) -> dict[str, Any] | None:
        """Read the readings; one at least."""
        cleaned = super().clean() or {}
        self.ask.day = cleaned.get("on") or self.today
        if self.ask.is_valid() and not self.ask.readings:
            self.add_error(None, "Write one reading at least.")
        return cleaned

    def is_valid(self) -> bool:
        """Whether the height may be saved."""
        return super().is_valid() and self.ask.is_valid()
