"""The form of making up a bridle: for which horse, on which day, with a bit or not."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict

from fitting.fit.lasting import last_day_looked
from fitting.forms.base import DayField
from fitting.models import Horse

BITS: Final = (("yes", "with a bit"), ("no", "without one"))


class MixForm(forms.Form):
    """A horse, a day from today on, and whether a bit is wanted."""

    horse = forms.ChoiceField(
        label="Horse",
        error_messages={
            "required": "Choose a horse.",
            "invalid_choice": "No horse of that name stands here.",
        },
    )
    on = DayField(label="Day")
    bit = forms.ChoiceField(label="Bit", choices=BITS, widget=forms.RadioSelect)

    def __init__(
        self,
        asked: QueryDict | None,
        *,
        horses: Sequence[Horse],
        today: date,
        **kwargs: Any,
    ) -> None:
        super().__init__(self._whole(asked, today) if asked else None, **kwargs)
        self.horses = {horse.key: horse for horse in horses}
        self.today = today
        names = [(horse.key, horse.name) for horse in horses]
        self.fields["horse"].choices = [("", "choose"), *names]  # type: ignore[attr-defined]
        self.initial = {"on": today, "bit": "yes"}

    @staticmethod
    def _whole(asked: QueryDict, today: date) -> QueryDict:
        """Return what an address asks for; today and with a bit, where unsaid."""
        whole = asked.copy()
        whole.setdefault("on", today.isoformat())
        whole.setdefault("bit", "yes")
        return whole

    def clean_on(self) -> date:
        """Refuse a day that is over, or too far away to say."""
        on: date = self.cleaned_data["on"]
        last = last_day_looked(self.today)
        if not self.today <= on <= last:
            raise ValidationError(
                f"From today to {last.day} {last:%b %Y}: further than two years"
                " ahead nothing is said."
            )
        return on

    @property
    def chosen(self) -> Horse:
        """The horse, once checked."""
        return self.horses[self.cleaned_data["horse"]]
