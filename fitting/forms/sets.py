"""The form of a made-up set."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError

from fitting.by_name import by_name
from fitting.forms.base import KeptForm
from fitting.models import Part, SetPart, Tack, TackSet, Yard
from fitting.units import LengthUnit, show_length

NOBODY: Final = [("", "none")]
HANGS: Final = ("headpiece", "cheekpieces")


def part_size(part: Part | None, unit: LengthUnit) -> str:
    """Return the size a part is known by, in brackets; nothing if it has none."""
    if part is None:
        return ""
    mm = part.length_mm or part.longest_mm
    return f" ({show_length(mm, unit)})" if mm else " (not measured)"


class SetForm(KeptForm):
    """A made-up set: for each strap, and the bit, the item that lends it."""

    instance: TackSet

    class Meta:
        model = TackSet
        fields = ("name",)
        labels = {"name": "What the set is called"}

    def __init__(self, *args: Any, yard: Yard, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.instance.yard = yard
        self.unit: LengthUnit = yard.length_unit  # type: ignore[assignment]
        kept = self._kept()
        lenders = self._lenders(yard, set(kept.values()))
        self.lenders = {str(row.pk): row for row in lenders}
        for slot in SetPart.Slot:
            self.fields[slot.value] = self._slot(slot, lenders, kept.get(slot.value))

    def _kept(self) -> dict[str, int]:
        """Return which item lends each slot of the set as it is."""
        if not self.instance.pk:
            return {}
        return dict(self.instance.parts.values_list("slot", "tack_id"))

    @staticmethod
    def _lenders(yard: Yard, kept: set[int]) -> list[Tack]:
        """Return bridles and bits on their pegs, and whatever is in the set now."""
        rows = yard.tack.filter(kind__in=(Tack.Kind.BRIDLE, Tack.Kind.BIT))
        found = [
            row
            for row in rows.prefetch_related("parts")
            if row.gone is None or row.pk in kept
        ]
        return sorted(found, key=lambda row: by_name(row.name))

    def _slot(
        self, slot: SetPart.Slot, lenders: list[Tack], kept: int | None
    ) -> forms.ChoiceField:
        """Return the choice of one slot; items that have the part come first."""
        of_bit = slot == SetPart.Slot.BIT
        kind = Tack.Kind.BIT if of_bit else Tack.Kind.BRIDLE
        word = Part.Name.MOUTHPIECE if of_bit else slot.value
        having: list[tuple[str, str]] = []
        others: list[tuple[str, str]] = []
        for row in lenders:
            if row.kind != kind:
                continue
            part = next((p for p in row.parts.all() if p.part == word), None)
            choice = (str(row.pk), f"{row.name}{part_size(part, self.unit)}")
            (having if part else others).append(choice)
        if slot == SetPart.Slot.WHOLE and kept is None:
            others = []
        return forms.ChoiceField(
            label=slot.label.capitalize(),
            choices=[*NOBODY, *having, *others],
            error_messages={"invalid_choice": "No such item hangs here now."},
            required=False,
            initial=str(kept or ""),
        )

    def clean_name(self) -> str:
        tidy = " ".join(self.cleaned_data["name"].split())
        sets = self.instance.yard.sets.filter(name=tidy).exclude(pk=self.instance.pk)
        if sets.exists():
            raise ValidationError("A set of that name is made up already.")
        if self.instance.yard.tack.filter(name=tidy).exists():
            raise ValidationError("An item bears that name: call the set otherwise.")
        return tidy

    def clean(self) -> dict[str, Any] | None:
        """Refuse an empty set, and one that hangs twice."""
        said = super().clean() or {}
        if not any(said.get(slot) for slot in SetPart.Slot.values):
            self.add_error(None, "Choose at least one part.")
        if said.get("whole") and any(said.get(slot) for slot in HANGS):
            self.add_error(
                "whole",
                "A whole bridle has its own headpiece and cheekpieces: choose either.",
            )
        return said

    @property
    def chosen(self) -> dict[str, Tack]:
        """The item of each slot that has one."""
        said = self.cleaned_data
        return {
            slot: self.lenders[said[slot]]
            for slot in SetPart.Slot.values
            if said.get(slot)
        }
