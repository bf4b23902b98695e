"""The form of a calendar link."""

from __future__ import annotations

import hashlib
import json
from typing import Any

from django import forms

from fitting.forms import OnceForm
from fitting.models import Yard
from starting.models import CalendarKey
from starting.models.calendar import ENTRY_KINDS
from starting.writes.links import OPTIONS


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

    as_tasks = forms.BooleanField(
        label="As tasks, not as days: for a list of things to do",
        required=False,
        help_text="Many calendars show no tasks: for them leave this unticked.",
    )
    seen = forms.CharField(widget=forms.HiddenInput, required=False, max_length=64)

    def __init__(
        self, *args: Any, yard: Yard, key: CalendarKey | None = None, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.key = key
        self.fields["seen"].initial = stamp_of(key) if key else ""
        horses = self.fields["horses"]
        if isinstance(horses, forms.MultipleChoiceField):
            horses.choices = list(
                yard.horses.order_by("name").values_list("key", "name")
            )

    def clean(self) -> dict[str, Any] | None:
        """Refuse to overwrite what somebody else changed meanwhile."""
        cleaned = super().clean()
        seen = self.cleaned_data.get("seen")
        if self.key and seen and seen != stamp_of(self.key):
            data = self.data.copy()  # type: ignore[attr-defined]
            data[self.add_prefix("seen")] = stamp_of(self.key)
            self.data = data
            raise forms.ValidationError(
                "Somebody changed this link meanwhile. Yours is kept below: write it"
                " in again to replace theirs, or leave it.",
                code="changed_meanwhile",
            )
        return cleaned

    def options(self) -> dict[str, Any]:
        """Return what the link is to show, as its row keeps it."""
        return {name: self.cleaned_data[name] for name in OPTIONS}


def stamp_of(key: CalendarKey) -> str:
    """Return a mark of all that a link's form may change."""
    said = [key.label, *(getattr(key, name) for name in OPTIONS)]
    return hashlib.sha256(json.dumps(said).encode()).hexdigest()
