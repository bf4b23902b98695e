"""What may be asked of a growing body: when it passes a limit, its size on a day.

Nothing is written: both are asked by the address, so that the answer can be kept.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError

from fitting.body import MEASURES, measure_by_key
from fitting.forms.base import DayField
from fitting.forms.boxes import Refused
from fitting.models import Horse
from fitting.readings import Reading, UnreadableReadingError, read_reading
from fitting.reads.units import day_words, units_of

HEIGHT: Final = "withers_height"
MOST_AHEAD: Final = timedelta(days=3653)  # ours: ten years


class PassForm(forms.Form):
    """A limit of one measure, in the yard's notation."""

    measure = forms.ChoiceField(
        choices=[(m.key, m.name) for m in MEASURES if m.grows], initial=HEIGHT
    )
    limit = forms.CharField(
        max_length=40,
        widget=forms.TextInput(attrs={"inputmode": "text", "autocomplete": "off"}),
        error_messages={"required": "Say which size, as 14.2 or 12.5 cm."},
    )

    def __init__(self, *args: Any, horse: Horse, **kwargs: Any) -> None:
        super().__init__(*args, **{"auto_id": "pass_%s", **kwargs})
        self.units = units_of(horse.yard)
        self.fields["limit"].label = f"When does {horse.she} pass"
        self.fields["measure"].label = "in"
        self.refused: Refused | None = None
        self.reading: Reading | None = None

    def clean(self) -> dict[str, Any] | None:
        """Read the limit as the measure is read; a chosen meaning stands for it."""
        cleaned = super().clean() or {}
        measure, text = cleaned.get("measure"), cleaned.get("limit")
        if not measure or not text:
            return cleaned
        dimension = measure_by_key(measure).dimension
        try:
            self.reading = read_reading(text, dimension, self.units)
        except UnreadableReadingError as error:
            self._refuse(text, error)
        return cleaned

    def _refuse(self, text: str, error: UnreadableReadingError) -> None:
        answer = self.data.get("limit-meant", "")
        offered = [(f"{text}|{meant.reading.written}", meant) for meant in error.meant]
        chosen = next((meant for key, meant in offered if key == answer), None)
        self.refused = Refused(
            typed=error.typed,
            why=error.why,
            name="limit-meant",
            meant=tuple((key, meant.label, key == answer) for key, meant in offered),
            read_as=chosen.label if chosen else "",
        )
        if chosen is None:
            self.add_error("limit", ValidationError(str(error), code="unreadable"))
        else:
            self.reading = chosen.reading

    @property
    def is_asked(self) -> bool:
        """Whether a limit was asked about that can be read."""
        return self.is_bound and self.is_valid()


class DayForm(forms.Form):
    """A day to see the body on, gone by or to come."""

    day = DayField(label="Day")

    def __init__(self, *args: Any, horse: Horse, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **{"auto_id": "day_%s", **kwargs})
        self.horse = horse
        self.today = today

    def clean_day(self) -> date:
        """Refuse a day before the foal, or too far ahead."""
        day: date = self.cleaned_data["day"]
        if day < self.horse.foaled_days.first:
            raise ValidationError(f"On that day {self.horse.she} was not foaled yet.")
        if day > self.today + MOST_AHEAD:
            last = day_words(self.today + MOST_AHEAD)
            raise ValidationError(f"Ten years are looked ahead, to {last}.")
        return day

    @property
    def is_asked(self) -> bool:
        """Whether a day was asked about that can be shown."""
        return self.is_bound and self.is_valid()
