"""The form of a try-on: part by part, what was seen and on which hole."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from django import forms

from fitting.forms.base import KeptForm
from fitting.forms.days import day_with
from fitting.models import Horse, TryOn, TryOnPart
from fitting.pieces import MOST_HOLES
from fitting.reads.tryons import PartToTry

FEW_HOLES: Final = 9  # up to here the holes are shown to be chosen from
NOT_LOOKED_AT: Final = ("", "not looked at")


@dataclass(frozen=True, slots=True, kw_only=True)
class PartBoxes:
    """The boxes of one part, for the page."""

    name: str
    seen: forms.BoundField
    hole: forms.BoundField | None


class TryOnForm(KeptForm):
    """What was seen when an item, or a set, was tried on."""

    instance: TryOn

    class Meta:
        model = TryOn
        fields = ("how", "on", "who", "answer", "note")
        labels = {
            "how": "How",
            "on": "Day",
            "who": "Who was there",
            "answer": "And on the whole",
        }
        widgets = {"how": forms.RadioSelect, "answer": forms.RadioSelect}
        help_texts = {
            "how": "Only what is put on counts as worn.",
            "answer": "Of something that has no parts here, or as a last word.",
        }

    def __init__(
        self,
        *args: Any,
        horse: Horse,
        today: date,
        parts: Iterable[PartToTry],
        first: str = "",
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.horse, self.today = horse, today
        self.instance.horse = horse
        self.first = first
        self._dress(today)
        self.looked_at = tuple(parts)
        rows = self.instance.parts.all() if self.instance.pk else ()
        kept = {row.part: row for row in rows}
        for part in self.looked_at:
            self._ask(part, kept.get(part.part))
        if first:
            self.fields["how_it_went"] = forms.CharField(
                label=f"How the first {first} went",
                help_text=f"{horse.name} wears a {first} for the first time, if it is"
                " put on.",
                max_length=300,
                required=False,
            )

    def _dress(self, today: date) -> None:
        """Offer choices without an empty line, and today."""
        self.fields["how"].choices = TryOn.How.choices  # type: ignore[attr-defined]
        self.fields["answer"].choices = [  # type: ignore[attr-defined]
            ("", "nothing to add"),
            *TryOn.Answer.choices,
        ]
        if not self.instance.pk:
            self.initial["on"] = today

    def _ask(self, part: PartToTry, kept: TryOnPart | None) -> None:
        """Add what is asked of one part."""
        self.fields[f"seen-{part.part}"] = forms.ChoiceField(
            label="Seen",
            choices=[NOT_LOOKED_AT, *TryOnPart.Seen.choices],
            widget=forms.RadioSelect,
            required=False,
            initial=kept.seen if kept else "",
        )
        if not part.has_hole and not (kept and kept.hole):
            return
        most = part.holes or MOST_HOLES
        self.fields[f"hole-{part.part}"] = forms.TypedChoiceField(
            label="On hole",
            choices=[("", "not noted"), *((n, str(n)) for n in range(1, most + 1))],
            coerce=int,
            empty_value=None,
            widget=forms.RadioSelect if most <= FEW_HOLES else forms.Select,
            required=False,
            initial=kept.hole if kept and kept.hole else "",
        )

    @property
    def boxes(self) -> list[PartBoxes]:
        """The boxes, part by part."""
        return [
            PartBoxes(
                name=part.name.capitalize(),
                seen=self[f"seen-{part.part}"],
                hole=self[hole]
                if (hole := f"hole-{part.part}") in self.fields
                else None,
            )
            for part in self.looked_at
        ]

    @property
    def rows(self) -> list[TryOnPart]:
        """What was seen, a row a part; not saved."""
        said = self.cleaned_data
        return [
            TryOnPart(
                part=part.part,
                seen=said[f"seen-{part.part}"],
                hole=said.get(f"hole-{part.part}"),
            )
            for part in self.looked_at
            if said.get(f"seen-{part.part}")
        ]

    def clean_on(self) -> date:
        """Refuse a day before the horse was foaled, or still to come."""
        return day_with(self.horse, self.cleaned_data["on"], self.today)

    def clean(self) -> dict[str, Any] | None:
        """Refuse a try-on that says nothing, and a hole without a word."""
        said = super().clean() or {}
        for part in self.looked_at:
            seen, hole = f"seen-{part.part}", f"hole-{part.part}"
            if said.get(hole) and not said.get(seen) and seen not in self.errors:
                self.add_error(seen, f"What was seen on hole {said[hole]}?")
        if not self.errors and not self.rows and not said.get("answer"):
            self.add_error(
                None, "Nothing is said yet: of one part at least, or on the whole."
            )
        return said
