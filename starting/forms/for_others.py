"""What a sheet for others is to hold."""

from __future__ import annotations

from typing import Any, Final

from django import forms

from starting.reads.for_others import PARTS

ALL: Final = frozenset(key for key, _ in PARTS)


class SheetForm(forms.Form):
    """Which parts stand on the sheet; asked by the address, and nothing is written."""

    show = forms.MultipleChoiceField(
        label="What stands on it",
        choices=PARTS,
        initial=sorted(ALL),
        widget=forms.CheckboxSelectMultiple,
        error_messages={
            "required": "Tick at least one part.",
            "invalid_choice": "%(value)s is no part of the sheet; tick from the list.",
        },
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **{"use_required_attribute": False, **kwargs})

    @property
    def chosen(self) -> frozenset[str]:
        """The parts that were ticked; all of them until somebody chooses."""
        if self.is_bound and self.is_valid():
            return frozenset(self.cleaned_data["show"])
        return ALL
