"""The form of the first day of a kind of tack."""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from django import forms

from fitting.forms.base import DayField, OnceForm
from fitting.forms.days import day_with
from fitting.models import FirstWorn, Horse, Tack
from fitting.reads.units import day_words

SAID: Final = ("kind", "tack", "on", "who", "how_it_went")


def _says(row: FirstWorn) -> str:
    """Return what a row says, in a line: by it a form knows what it was shown."""
    what = row.tack.name if row.tack else ""
    said = (row.get_kind_display(), what, day_words(row.on), row.who, row.how_it_went)
    return ", ".join(" ".join(one.split()) for one in said if one)


class FirstWornForm(OnceForm):
    """The kind of tack, which item if it is known, the day, how it went."""

    kind = forms.ChoiceField(
        label="What",
        choices=[("", "choose"), *Tack.Kind.choices],
        error_messages={"required": "Choose what was worn."},
    )
    tack = forms.ModelChoiceField(
        Tack.objects.none(),
        label="Which item",
        required=False,
        empty_label="not known, or not here",
        error_messages={"invalid_choice": "No such item is here now: choose again."},
    )
    on = DayField(label="Day")
    who = forms.CharField(label="Who was there", max_length=60, required=False)
    how_it_went = forms.CharField(label="How it went", max_length=300, required=False)
    seen = forms.CharField(widget=forms.HiddenInput, required=False, max_length=600)

    def __init__(
        self, *args: Any, instance: FirstWorn, today: date, **kwargs: Any
    ) -> None:
        if instance.pk:
            kwargs["initial"] = {name: getattr(instance, name) for name in SAID}
        super().__init__(*args, **kwargs)
        self.instance, self.today = instance, today
        self.now = _says(instance) if instance.pk else ""
        self.fields["seen"].initial = self.now
        items = self.horse.yard.tack.all()
        self.fields["tack"].queryset = items  # type: ignore[attr-defined]

    @property
    def horse(self) -> Horse:
        """Who wore it."""
        return self.instance.horse

    def clean_on(self) -> date:
        """Refuse a day before the horse was foaled, or still to come."""
        return day_with(self.horse, self.cleaned_data["on"], self.today)

    def clean(self) -> dict[str, Any] | None:
        """Refuse an item of another kind, and a second first time."""
        said = super().clean() or {}
        item, kind = said.get("tack"), said.get("kind")
        if item and kind and item.kind != kind:
            self.add_error("tack", f"{item.name} is a {item.get_kind_display()}.")
        rows = self.horse.first_worn.filter(kind=kind, tack=item)
        if not self.errors and rows.exclude(pk=self.instance.pk).exists():
            self.add_error("kind", "There is only one first time.")
        if self.now and said.get("seen", self.now) not in {"", self.now}:
            self._changed_meanwhile()
        return said

    def _changed_meanwhile(self) -> None:
        """Say what somebody else wrote meanwhile; what was typed stays."""
        data = self.data.copy()  # type: ignore[attr-defined]
        data[self.add_prefix("seen")] = self.now
        self.data = data
        self.add_error(
            None,
            f"Somebody changed this meanwhile. It says now: {self.now.rstrip('.')}."
            " Yours is kept below: write it in again to replace theirs, or leave it.",
        )

    def filled(self) -> FirstWorn:
        """Return the row with what was said; not saved."""
        for name in SAID:
            setattr(self.instance, name, self.cleaned_data[name])
        return self.instance
