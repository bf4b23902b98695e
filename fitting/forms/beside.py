"""The form of putting horses beside one another: which, which measure, at which age."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict

from fitting.beside import MOST_BESIDE
from fitting.body import MEASURES
from fitting.models import Horse

OLDEST_MONTHS: Final = 72  # the curves are level by then: ours
GROWING: Final = tuple(measure for measure in MEASURES if measure.grows)


class BesideForm(forms.Form):
    """Two to four horses, a measure, and an age that may stay empty."""

    horse = forms.MultipleChoiceField(
        label="Horses",
        widget=forms.CheckboxSelectMultiple,
        error_messages={
            "required": "Tick two horses at least.",
            "invalid_choice": "No horse of that name stands here.",
        },
    )
    measure = forms.ChoiceField(
        label="Measure",
        choices=[(m.key, m.name.capitalize()) for m in GROWING],
        error_messages={"invalid_choice": "No such measure is taken."},
    )
    age = forms.FloatField(
        label="At the age of, in months",
        required=False,
        help_text="Empty: the age of the youngest today.",
        error_messages={"invalid": "An age in months is a number: 24, or 30.5."},
        widget=forms.TextInput(attrs={"inputmode": "decimal", "maxlength": 8}),
    )

    def __init__(
        self, asked: QueryDict | None, *, horses: Sequence[Horse], **kwargs: Any
    ) -> None:
        super().__init__(self._whole(asked) if asked else None, **kwargs)
        choices = [(horse.key, horse.name) for horse in horses]
        self.fields["horse"].choices = choices  # type: ignore[attr-defined]

    @staticmethod
    def _whole(asked: QueryDict) -> QueryDict:
        """Return what an address asks for; the height, where it names no measure."""
        whole = asked.copy()
        whole.setdefault("measure", GROWING[0].key)
        return whole

    def clean_horse(self) -> list[str]:
        """Refuse more horses than can be told apart."""
        keys: list[str] = self.cleaned_data["horse"]
        if len(keys) > MOST_BESIDE:
            raise ValidationError(
                f"{len(keys)} are ticked. At most {MOST_BESIDE} at once: more lines"
                " cannot be told apart."
            )
        return keys

    def clean_age(self) -> float | None:
        """Refuse an age before birth, or after all growth."""
        age: float | None = self.cleaned_data["age"]
        if age is not None and not 0 <= age <= OLDEST_MONTHS:
            raise ValidationError(
                f"From 0 to {OLDEST_MONTHS} months; later a horse counts as grown."
            )
        return age
