"""What may be asked of tack on horses: on which day, in which order, of which kind."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict

from fitting.forms.base import DayField
from fitting.pieces import KIND_WORDS
from fitting.reads.units import day_words

MOST_AHEAD: Final = timedelta(days=3653)  # ours: ten years
MOST_BACK: Final = timedelta(days=3653)
ALL: Final = "all"
USUAL: Final = (("by", "kind"), ("kind", ALL))
ORDERS: Final = (
    ("kind", "kind of tack"),
    ("item", "name"),
    ("horse", "horse"),
    ("until", "what ends first"),
)
KINDS: Final = (
    (ALL, "all tack"),
    ("sets", "made-up sets"),
    *((key, title.lower()) for key, (title, _) in KIND_WORDS.items()),
)


class OnDayForm(forms.Form):
    """A day to see tack on; today, where the address names none."""

    day = DayField(label="On")

    def __init__(self, asked: QueryDict, *, today: date, **kwargs: Any) -> None:
        whole = asked.copy()
        for name, value in (("day", today.isoformat()), *USUAL):
            if not whole.get(name):
                whole[name] = value
        super().__init__(whole, **kwargs)
        self.today = today

    def clean_day(self) -> date:
        """Refuse a day too far off."""
        day: date = self.cleaned_data["day"]
        if day > self.today + MOST_AHEAD:
            last = day_words(self.today + MOST_AHEAD)
            raise ValidationError(f"Ten years are looked ahead, to {last}.")
        if day < self.today - MOST_BACK:
            first = day_words(self.today - MOST_BACK)
            raise ValidationError(f"Ten years are looked back, to {first}.")
        return day


class WhoFitsForm(OnDayForm):
    """The day, the order, the kind, and which horses."""

    by = forms.ChoiceField(label="In the order of", choices=ORDERS)
    kind = forms.ChoiceField(label="Tack", choices=KINDS)
    young = forms.BooleanField(label="Youngsters only", required=False)
