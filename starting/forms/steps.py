"""The forms of the way up: steps set by hand, cautions passed, the plan."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any, Final

from django import forms

from fitting.forms.base import DayField, KeptForm, OnceForm, WeightField
from fitting.forms.days import day_with
from fitting.models import Horse
from fitting.units import Weight, WeightUnit, read_weight, show_weight
from starting.models import Plan, StageRecord, WentAhead
from starting.programme import Programme, Stage

LEAST_TACK_KG: Final = 0.2  # ours: a bitless bridle alone is about half a kilogram


class RecordForm(KeptForm):
    """One step set by hand."""

    instance: StageRecord

    class Meta:
        model = StageRecord
        fields = ("state", "on", "note")
        labels = {"state": "Set it", "on": "Day", "note": "Note"}
        widgets = {"state": forms.RadioSelect}
        help_texts = {
            "on": "The day it was established, or left out.",
            "note": "Who says so, and how it was seen.",
        }

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        self.fields["state"].choices = StageRecord.State.choices  # type: ignore[attr-defined]
        if not self.instance.pk:
            self.initial.update({"on": today, "state": "established"})

    def clean_on(self) -> date:
        """Refuse a day still to come, or before the horse was foaled."""
        return day_with(self.instance.horse, self.cleaned_data["on"], self.today)


class HistoryForm(OnceForm):
    """Many steps at once, for a horse that came with a history."""

    stages = forms.MultipleChoiceField(
        label="Established before",
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Tick one step at least."},
        help_text="Untick what nobody can vouch for: a step not ticked stays ahead.",
    )
    on = DayField(
        label="Day",
        help_text="The day all of them are held established: the last day somebody"
        " saw them done. From that day they count as gone over.",
    )
    note = forms.CharField(
        label="Note",
        max_length=300,
        required=False,
        help_text="Who says so: the breeder, a vendor, a rider.",
    )

    def __init__(
        self,
        *args: Any,
        horse: Horse,
        upto: Sequence[Stage],
        today: date,
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.horse = horse
        self.today = today
        choices = [(stage.key, stage.name) for stage in upto]
        self.fields["stages"].choices = choices  # type: ignore[attr-defined]
        self.fields["stages"].initial = [s.key for s in upto if not s.optional]

    def clean_on(self) -> date:
        """Refuse a day still to come, or before the horse was foaled."""
        return day_with(self.horse, self.cleaned_data["on"], self.today)


class WentAheadForm(KeptForm):
    """Why a caution was passed."""

    instance: WentAhead

    class Meta:
        model = WentAhead
        fields = ("reason", "who", "on")
        labels = {"reason": "Went ahead because", "who": "By", "on": "Day"}
        help_texts = {
            "reason": "It stays visible beside the step, for everybody who reads it.",
            "on": "A reason older than what it speaks of no longer counts.",
        }

    def __init__(
        self, *args: Any, today: date, counts: bool = False, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        if not counts:
            self.initial["on"] = today

    def clean_reason(self) -> str:
        """Leave out spaces around it."""
        return str(self.cleaned_data["reason"]).strip()

    def clean_on(self) -> date:
        """Refuse a day still to come, or before the horse was foaled."""
        return day_with(self.instance.horse, self.cleaned_data["on"], self.today)


class TackWeightField(WeightField):
    """What saddle and bridle weigh: lighter than a horse."""

    def read(self, text: str) -> Weight:
        """Return the weight."""
        return read_weight(text, unit=self.unit, least_kg=LEAST_TACK_KG)


class PlanForm(KeptForm):
    """How a horse is brought on: the aim, how early, by whom."""

    instance: Plan

    class Meta:
        model = Plan
        fields = ("aim_stage", "aim_by", "as_early_as_allowed", "rider", "trainer")
        labels = {
            "aim_stage": "Aim",
            "aim_by": "By",
            "as_early_as_allowed": "As early as allowed",
        }
        help_texts = {
            "aim_stage": "The step hoped for. It moves no date.",
            "rider": "Who is to sit on first.",
            "trainer": "Who will be there when the programme asks for one: brings on"
            " youngsters, or has backed horses, and is not the rider.",
        }

    def __init__(self, *args: Any, programme: Programme, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        yard = self.instance.horse.yard
        steps = [(stage.key, stage.name) for stage in programme.stages]
        aim = forms.ChoiceField(
            label="Aim",
            choices=[("", "none"), *steps],
            required=False,
            help_text=self.fields["aim_stage"].help_text,
        )
        self.fields["aim_stage"] = aim
        for name in ("rider", "trainer"):
            self.fields[name].queryset = yard.people.all()  # type: ignore[attr-defined]
            self.fields[name].empty_label = "nobody named"  # type: ignore[attr-defined]
        unit: WeightUnit = yard.weight_unit  # type: ignore[assignment]
        self.fields["tack_weight"] = self._tack_weight(unit)

    def _tack_weight(self, unit: WeightUnit) -> TackWeightField:
        plan = self.instance
        kg = plan.tack_weight_kg
        return TackWeightField(
            unit=unit,
            label="Weight of all the tack",
            required=False,
            initial=(plan.tack_weight_written or show_weight(kg, unit)) if kg else "",
            help_text="All but the rider: saddle, pad, girth, stirrups, bridle, and"
            " whatever else is carried.",
        )

    def clean(self) -> dict[str, Any] | None:
        """Hand the tack's weight to the record; a day without a step says nothing."""
        cleaned = super().clean()
        weight: Weight | None = self.cleaned_data.get("tack_weight")
        self.instance.tack_weight_kg = weight.kg if weight else None
        self.instance.tack_weight_written = weight.written if weight else ""
        if self.cleaned_data.get("aim_by") and not self.cleaned_data.get("aim_stage"):
            self.add_error("aim_stage", "Say which step is hoped for by that day.")
        return cleaned
