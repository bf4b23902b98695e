"""The form of the first day of a kind of tack."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from fitting.forms.base import DayField, OnceForm
from fitting.forms.days import day_with
from fitting.models import FirstWorn, Horse, Tack


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
    )
    on = DayField(label="Day")
    who = forms.CharField(label="Who was there", max_length=60, required=False)
    how_it_went = forms.CharField(label="How it went", max_length=300, required=False)

    def __init__(
        self, *args: Any, instance: FirstWorn, today: date, **kwargs: Any
    ) -> None:
        said = ("kind", "tack", "on", "who", "how_it_went")
        if instance.pk:
            kwargs["initial"] = {name: getattr(instance, name) for name in said}
        super().__init__(*args, **kwargs)
        self.instance, self.today = instance, today
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
        return said

    def filled(self) -> FirstWorn:
        """Return the row with what was said; not saved."""
        for name in ("kind", "tack", "on", "who", "how_it_went"):
            setattr(self.instance, name, self.cleaned_data[name])
        return self.instance
