"""The form of a loan."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.db.models import Max

from fitting.forms.base import KeptForm
from fitting.forms.days import not_to_come
from fitting.forms.holes import HoleField
from fitting.models import Loan, Tack
from fitting.pieces import has_holes


class LoanForm(KeptForm):
    """To which horse an item is lent, who lends it, and how it goes back."""

    instance: Loan
    seen_lender = forms.CharField(
        widget=forms.HiddenInput, required=False, max_length=60
    )

    class Meta:
        model = Loan
        fields = ("to", "start", "own_hole", "back_by", "returned")
        labels = {"start": "From", "back_by": "Back by", "returned": "Back since"}
        help_texts = {
            "start": "The day it went. Empty: not known any more.",
            "back_by": "It stands in the diary on that day until it is back.",
            "returned": "Empty as long as it is lent.",
        }

    field_order = ("to", "lender", "start", "own_hole", "back_by", "returned")

    def __init__(self, *args: Any, tack: Tack, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.instance.tack = self.tack = tack
        self.today = today
        self.fields["to"] = forms.ModelChoiceField(
            tack.yard.horses.all(),
            label="Lent to",
            empty_label="choose a horse",
            error_messages={
                "required": "Choose a horse.",
                "invalid_choice": "No such horse stands here now: choose again.",
            },
        )
        self.fields["lender"] = forms.CharField(
            label="Whose it is",
            help_text="A horse, a person or a place. Empty: the yard\u2019s own.",
            initial=tack.belongs_to,
            max_length=60,
            required=False,
        )
        self.fields["seen_lender"].initial = tack.belongs_to
        if has_holes(tack.kind) or self.instance.own_hole:
            self.fields["own_hole"] = self._own_hole()
        else:
            del self.fields["own_hole"]
        if not self.instance.pk:
            del self.fields["returned"]
            self.initial["start"] = today
        self.order_fields(self.field_order)

    @staticmethod
    def _own_hole() -> forms.Field:
        return HoleField(
            label="The lender\u2019s own hole",
            help_text="Put it back on this hole. Hole 1 is nearest the tip.",
        )

    def clean_own_hole(self) -> int | None:
        """Refuse a hole that the item has not."""
        hole: int | None = self.cleaned_data["own_hole"]
        most = self.tack.parts.aggregate(most=Max("holes"))["most"]
        if hole and most and hole > most:
            raise ValidationError(f"It has {most} holes at an end: one of those.")
        return hole

    def clean_start(self) -> date | None:
        """Refuse a day that is still to come: it goes when it is lent."""
        return not_to_come(self.cleaned_data["start"], self.today)

    def clean_returned(self) -> date | None:
        """Refuse a day that is still to come."""
        return not_to_come(self.cleaned_data["returned"], self.today)

    def clean(self) -> dict[str, Any] | None:
        """Refuse what is out already, and to overwrite another lender blindly."""
        said = super().clean() or {}
        if not said.get("returned"):
            self._refuse_twice()
        seen, now = said.get("seen_lender", ""), self.tack.belongs_to
        if "seen_lender" in self.data and now not in {seen, said.get("lender")}:
            self.add_error("lender", f"It says now: {now or 'nothing'}.")
            self.data = self.data.copy()  # type: ignore[attr-defined]
            self.data["seen_lender"] = now  # type: ignore[index]
        return said

    def _refuse_twice(self) -> None:
        """Refuse to lend what is lent, or what hangs here no more."""
        out = self.tack.loans.filter(returned__isnull=True).exclude(pk=self.instance.pk)
        for loan in out.select_related("to")[:1]:
            self.add_error(
                None, f"It is lent to {loan.to.name} already: first write it back."
            )
        if not self.instance.pk and self.tack.gone is not None:
            self.add_error(None, "It is taken down: put it up again first.")

    @property
    def lender(self) -> str:
        """Whose the item is, by this form; as it was where nothing was asked."""
        if "lender" not in self.data:
            return self.tack.belongs_to
        return " ".join(self.cleaned_data["lender"].split())
