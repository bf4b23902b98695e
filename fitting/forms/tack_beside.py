"""The form of putting two items of tack beside each other."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from django import forms
from django.http import QueryDict

from fitting.reads.to_put_beside import Thing


class TackBesideForm(forms.Form):
    """Two items of one kind, or sets; the first is the ruler."""

    one = forms.ChoiceField(
        label="The one that is known",
        help_text="A bridle that hangs right on a grown horse is a ruler for another.",
        error_messages={
            "required": "Choose the first.",
            "invalid_choice": "No such item hangs here.",
        },
    )
    other = forms.ChoiceField(
        label="The one to compare",
        error_messages={
            "required": "Choose the second.",
            "invalid_choice": "No such item hangs here.",
        },
    )

    def __init__(
        self, asked: QueryDict | None, *, items: Sequence[Thing], **kwargs: Any
    ) -> None:
        whole = asked is not None and bool(asked.get("one") and asked.get("other"))
        super().__init__(asked if whole else None, **kwargs)
        self.items = {one.choice: one for one in items}
        choices = [
            (title, [(one.choice, one.name) for one in of])
            for title, of in groupby(items, key=lambda one: one.title)
        ]
        for name in ("one", "other"):
            field = self.fields[name]
            field.choices = [("", "choose"), *choices]  # type: ignore[attr-defined]
            field.initial = asked.get(name, "") if asked else ""

    def clean(self) -> dict[str, Any] | None:
        """Refuse one item twice, and two that have no part in common."""
        said = super().clean() or {}
        one, other = said.get("one"), said.get("other")
        if one and one == other:
            self.add_error("other", "That is the first one: choose another.")
        elif one and other and self.items[one].kind != self.items[other].kind:
            first, second = self.items[one], self.items[other]
            self.add_error(
                "other",
                f"{first.name} is a {first.said}, {second.name} a {second.said}: they"
                " have no part in common.",
            )
        return said

    @property
    def chosen(self) -> tuple[Thing, Thing]:
        """Both, once checked."""
        said = self.cleaned_data
        return self.items[said["one"]], self.items[said["other"]]
