"""The form of a calendar link."""

from __future__ import annotations

from typing import Any

from django import forms

from fitting.forms import OnceForm
from fitting.models import Yard
from starting.models import CalendarKey
from starting.models.calendar import ENTRY_KINDS


class LinkForm(OnceForm):
    """What a link is for, and what it shows."""

    label = forms.CharField(
        label="For",
        max_length=60,
        help_text="Whose calendar, or which phone: so that you know which to end.",
    )
    kinds = forms.MultipleChoiceField(
        label="Shows",
        choices=ENTRY_KINDS,
        widget=forms.CheckboxSelectMultiple,
        required=False,
        help_text="None ticked: everything.",
    )
    horses = forms.MultipleChoiceField(
        label="Of",
        widget=forms.CheckboxSelectMultiple,
        required=False,
        help_text="None ticked: every horse.",
    )
    alarm = forms.ChoiceField(
        label="Reminder",
        choices=CalendarKey.Alarm.choices,
        widget=forms.RadioSelect,
        required=False,
        help_text="Many calendars drop reminders from links.",
    )
    plain_titles = forms.BooleanField(
        label="Leave names out: the calendar may lie on somebody else's computer",
        required=False,
    )

    def __init__(self, *args: Any, yard: Yard, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        horses = self.fields["horses"]
        if isinstance(horses, forms.MultipleChoiceField):
            horses.choices = list(
                yard.horses.order_by("name").values_list("key", "name")
            )

    def options(self) -> dict[str, Any]:
        """Return what the link is to show, as its row keeps it."""
        names = ("kinds", "horses", "alarm", "plain_titles")
        return {name: self.cleaned_data[name] for name in names}
