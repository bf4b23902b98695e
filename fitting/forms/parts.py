"""The form of one part of an item: its sizes, holes, cheeks."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.html import format_html
from django.utils.safestring import mark_safe

from fitting.drawings.bits import cheek_picture, mouthpiece_picture
from fitting.forms.base import LengthField
from fitting.forms.holes import HoleField
from fitting.models import Part
from fitting.pieces import (
    CHOICES,
    COUNTS,
    FINE,
    SIZES,
    Asked,
    asked_for,
    asked_of,
    limits_of,
    part_word,
)
from fitting.units import Length, LengthUnit, show_range, understood_length

THERE = "there"
OF_CHOICES = {"cheek": Part.Cheek, "mouthpiece": Part.Mouthpiece}


def _pictured(key: str) -> list[tuple[str, str]]:
    """Return the kinds of cheek or mouthpiece, each with its picture."""
    draw = cheek_picture if key == "cheek" else mouthpiece_picture
    return [
        (value, format_html("{}{}", mark_safe(draw(value)), label))  # noqa: S308 - ours
        for value, label in OF_CHOICES[key].choices
    ]


class PartForm(forms.Form):
    """One part; left empty, the item has no such part.

    ``always``: the item is nothing without it, so it is kept even without sizes;
    ``there``: the item has it, or the one it is like.
    """

    def __init__(
        self,
        data: Any,
        *,
        instance: Part,
        unit: LengthUnit,
        always: bool,
        there: bool = False,
    ) -> None:
        super().__init__(data, prefix=instance.part)
        self.instance = instance
        self.unit = unit
        self.always = always
        for asked in self._asked():
            self.fields[asked.key] = self._field(asked)
        if not always and instance.part != Part.Name.WHOLE:
            self.fields[THERE] = forms.BooleanField(
                label="It is there, not measured yet",
                required=False,
                initial=there and not self._says_anything(),
            )

    @property
    def word(self) -> str:
        """What the part is called."""
        return part_word(self.instance.part)

    def _asked(self) -> list[Asked]:
        """Return what is usual for the part, and whatever else is written down."""
        usual = asked_of(self.instance.part)
        keys = {asked.key for asked in usual}
        more = [
            asked_for(self.instance.part, key)
            for key in (*SIZES, *COUNTS, *CHOICES, "material")
            if key not in keys and self._kept(key)
        ]
        return [*usual, *more]

    def _kept(self, key: str) -> Any:
        """Return what the row says of one thing, as it was typed."""
        if key not in SIZES:
            return getattr(self.instance, key)
        mm = getattr(self.instance, f"{key}_mm")
        if mm is None:
            return None
        return Length(mm=mm, written=self.instance.written.get(key) or f"{mm:g} mm")

    def _says_anything(self) -> bool:
        return any(self._kept(key) for key in (*SIZES, *COUNTS, *CHOICES, "material"))

    def _field(self, asked: Asked) -> forms.Field:
        """Return the box, or the choices, for one thing asked."""
        given: dict[str, Any] = {
            "label": asked.label,
            "help_text": asked.how,
            "required": False,
            "initial": self._kept(asked.key),
        }
        if asked.key in SIZES:
            attrs = {"inputmode": "text", "autocomplete": "off"}
            return LengthField(
                unit=self.unit, widget=forms.TextInput(attrs=attrs), **given
            )
        if asked.key in COUNTS:
            return HoleField(**given)
        if asked.key in CHOICES:
            choices = [("", "not written down"), *_pictured(asked.key)]
            return forms.ChoiceField(choices=choices, widget=forms.RadioSelect, **given)
        return forms.CharField(max_length=30, **given)

    def clean(self) -> dict[str, Any]:
        """Refuse what no part can be, and what contradicts itself."""
        said = super().clean() or {}
        for key in SIZES:
            self._check_size(key, said.get(key))
        shortest, longest = said.get("shortest"), said.get("longest")
        if shortest and longest and shortest.mm > longest.mm:
            self.add_error("shortest", "The shortest is no longer than the longest.")
        holes, hole = said.get("holes"), said.get("hole")
        if holes and hole and hole > holes:
            self.add_error("hole", f"It has {holes} holes: one of those.")
        return said

    def _check_size(self, key: str, size: Length | None) -> None:
        """Refuse a size no such part has: its unit is likely another."""
        if size is None or key not in self.changed_data:
            return
        low, high = limits_of(self.instance.part, key)
        if low <= size.mm <= high:
            return
        usual = show_range(low, high, "mm" if key in FINE else self.unit)
        self.add_error(
            key,
            f"{size.written} is read as {understood_length(size.mm, self.unit)}; here"
            f" {usual} is what can be. Write the unit with it, as in 14 mm.",
        )

    @property
    def is_left_out(self) -> bool:
        """Whether the item has no such part."""
        said = self.cleaned_data
        return not self.always and not any(said.get(key) for key in self.fields)

    @property
    def is_anew(self) -> bool:
        """Whether the part has to be saved."""
        if not self.instance.pk:
            return True
        return bool(set(self.changed_data) - {THERE})

    def filled(self) -> Part:
        """Return the row with what was typed; not saved."""
        row = self.instance
        for key, said in self.cleaned_data.items():
            if key in SIZES:
                setattr(row, f"{key}_mm", said.mm if said else None)
                row.written = {k: v for k, v in row.written.items() if k != key}
                if said:
                    row.written[key] = said.written
            elif key != THERE:
                setattr(row, key, said)
        return row

    def say_now(self) -> None:
        """Say beside each changed box what the row says by now."""
        for key in set(self.changed_data) - {THERE}:
            kept = self._kept(key)
            if isinstance(kept, Length):
                kept = kept.written
            if key in CHOICES and kept:
                kept = OF_CHOICES[key](kept).label
            self.add_error(key, f"It says now: {kept or 'nothing'}.")
