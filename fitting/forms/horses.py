"""The form of a horse."""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError

from fitting.age import UnreadableDayError, read_foaled, write_foaled
from fitting.body import HorseType
from fitting.curves import grown_prior
from fitting.forms.base import HeightField, KeptForm
from fitting.forms.days import not_to_come
from fitting.models import Horse, Yard
from fitting.readings import Units, show_between
from fitting.units import HeightUnit, Length, write_height

NINE_IN_TEN_SDS: Final = 1.645
PARENTS: Final = ("dam", "sire")
_TYPES: Final[dict[HorseType, str]] = {
    "small_pony": "the smallest ponies",
    "pony": "ponies up to a stout cob of pony height",
    "light": "riding horses of the lighter kind",
    "warmblood": "taller, heavier riding horses, late to finish",
    "heavy": "draught horses and their near crosses",
}


def type_choices(unit: HeightUnit) -> list[tuple[str, str]]:
    """Return the types, each with a sentence: who belongs there, how high grown."""
    return [
        (key, f"{Horse.Type(key).label.capitalize()}: {words}, {_grown(key, unit)}")
        for key, words in _TYPES.items()
    ]


def _grown(horse_type: HorseType, unit: HeightUnit) -> str:
    """Return the grown height nine times in ten, in words."""
    prior = grown_prior("withers_height", horse_type)
    if prior is None:  # pragma: no cover - every type has one
        return ""
    reach = NINE_IN_TEN_SDS * prior[1]
    units = Units(height=unit)
    return f"grown {show_between(prior[0] - reach, prior[0] + reach, 'height', units)}"


class HorseForm(KeptForm):
    """A horse: what is known of it beside its measurements."""

    instance: Horse

    class Meta:
        model = Horse
        fields = ("name", "sex", "foaled", "horse_type", "grown", "lives_out")
        labels = {
            "foaled": "Foaled",
            "horse_type": "Type",
            "grown": "Grown: kept for comparison, and to lend tack",
            "lives_out": "Lives out in winter",
        }
        help_texts = {
            "foaled": "2024-04-19; or 2024-04, or 2024, if the day is not known.",
            "horse_type": "It decides which growth curve is used, until measurements"
            " say more. Heights are ours, wide. In doubt, the smaller.",
            "grown": "A grown horse is not brought on: it has no steps and no plan.",
            "lives_out": "Weight and girth of such a horse are lower in winter.",
        }
        widgets = {
            "sex": forms.RadioSelect,
            "horse_type": forms.RadioSelect,
            "foaled": forms.TextInput(attrs={"autocomplete": "off"}),
        }

    def __init__(self, *args: Any, yard: Yard, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.instance.yard = yard
        self.today = today
        unit: HeightUnit = yard.height_unit  # type: ignore[assignment]
        self.fields["sex"].choices = Horse.Sex.choices  # type: ignore[attr-defined]
        self.fields["horse_type"].choices = type_choices(unit)  # type: ignore[attr-defined]
        for parent in PARENTS:
            self.fields[f"{parent}_height"] = self._height_field(parent, unit)

    def _height_field(self, parent: str, unit: HeightUnit) -> HeightField:
        """Return the field of a parent's height, filled with what was typed before."""
        mm = getattr(self.instance, f"{parent}_height_mm")
        written = getattr(self.instance, f"{parent}_height_written")
        return HeightField(
            unit=unit,
            label=f"Height of the {parent}",
            required=False,
            initial=(written or write_height(mm)) if mm else "",
            help_text="Both parents narrow the guess at the grown height most."
            if parent == "dam"
            else "",
        )

    def clean_name(self) -> str:
        """Leave out spaces at the ends and between."""
        return " ".join(self.cleaned_data["name"].split())

    def clean_foaled(self) -> str:
        """Return the foaling date as it is kept, or refuse it in words."""
        try:
            foaled = read_foaled(self.cleaned_data["foaled"])
        except UnreadableDayError as error:
            raise ValidationError(str(error), code="unreadable") from error
        not_to_come(foaled.first, self.today)
        return write_foaled(foaled)

    def clean_dam_height(self) -> Length | None:
        """Hand the dam's height to the record."""
        return self._keep_height("dam")

    def clean_sire_height(self) -> Length | None:
        """Hand the sire's height to the record."""
        return self._keep_height("sire")

    def _keep_height(self, parent: str) -> Length | None:
        height: Length | None = self.cleaned_data[f"{parent}_height"]
        written = height.written if height else ""
        setattr(self.instance, f"{parent}_height_mm", height.mm if height else None)
        setattr(self.instance, f"{parent}_height_written", written)
        return height
