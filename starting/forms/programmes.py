"""The forms of programmes: a copy, a step changed, a horse moved."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Final

from django import forms

from fitting.forms.base import DayField, KeptForm, OnceForm
from fitting.forms.days import day_with
from fitting.models import Yard
from starting.gates import RestSpan
from starting.models import Plan
from starting.programme import shipped, shipped_keys
from starting.programme.editing import ticks_from
from starting.programme.faults import Fault

NEW_TICKS: Final = 3
TICK_MOST: Final = 200
MONTHS_MOST: Final = 180  # ours: a way up ends before fifteen years
COUNT_MOST: Final = 365
NUMBERED: Final = re.compile(r"\(\d+\)\s*$")
PAIRS: Final = {
    "typical_months": ("typical_low", "typical_high"),
    "typical_sessions": ("usual_low", "usual_high"),
    "minutes": ("minutes_low", "minutes_high"),
    "days_a_week": ("days_low", "days_high"),
}
MONTHS: Final = PAIRS["typical_months"]
SINGLE: Final = (
    "earliest_months", "min_good_sessions", "days_in_a_row", "refresh_after_days",
)  # fmt: skip
AGES_NOTE: Final = (
    "Ages are earliest starting points, not targets. Limbs are done well before the"
    " spine; size and breed do not show that a horse is ready. Ask your vet."
)
TICKS_NOTE: Final = "Empty one, and it is asked no more."
COUNTS_NOTE: Final = "The shipped counts are ours, unless a step's evidence says more."
Table = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldPart:
    """Fields that stand together; ``folded``: the words to open them by."""

    title: str
    fields: tuple[forms.BoundField, ...]
    note: str = ""
    folded: str = ""
    css: str = ""
    refused: bool = False


def why_field(help_text: str) -> forms.CharField:
    """Return the field of a reason, which stays with the version."""
    return forms.CharField(label="Why", max_length=300, help_text=help_text)


class CopyForm(OnceForm):
    """A yard's own copy of a programme: a name for it, and why."""

    name = forms.CharField(label="Name", max_length=60)
    why = why_field("It stays beside the first version.")

    def __init__(self, *args: Any, yard: Yard, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.yard = yard

    def clean_name(self) -> str:
        """Refuse a name that another programme has already."""
        name = " ".join(str(self.cleaned_data["name"]).split())
        shipped_names = {shipped(key).name for key in shipped_keys()}
        taken = {*shipped_names, *shipped_keys()}
        taken |= set(self.yard.programmes.values_list("name", flat=True))
        if name.casefold() in {one.casefold() for one in taken}:
            raise forms.ValidationError("There is a programme of that name already.")
        if NUMBERED.search(name):
            raise forms.ValidationError(
                "No number in brackets at the end: versions are told apart so."
            )
        return name


class WhyForm(OnceForm):
    """Why a step is taken out, or put back."""

    why = why_field("It stays beside the new version.")


class StepForm(OnceForm):
    """One step of a programme: ages, counts, what comes before, ticks."""

    earliest_months = forms.FloatField(
        label="Not before, in months", min_value=0, max_value=MONTHS_MOST
    )
    typical_low = forms.FloatField(
        label="Usually from, in months", min_value=0, max_value=MONTHS_MOST
    )
    typical_high = forms.FloatField(
        label="Usually to, in months", min_value=0, max_value=MONTHS_MOST
    )
    why = why_field("It stays beside the new version, with your name and the day.")

    def __init__(
        self, *args: Any, step: Table, steps: Sequence[Table], **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.step = step
        why = self.fields.pop("why")
        if step["kind"] == "sessions":
            self.fields |= _count_fields()
        self.fields["prerequisites"] = forms.MultipleChoiceField(
            label="After",
            required=False,
            widget=forms.CheckboxSelectMultiple,
            choices=[(s["key"], s["name"]) for s in steps if s["key"] != step["key"]],
            help_text="The steps that must be established before it.",
        )
        self.fields |= _tick_fields(step["checks"])
        self.fields["why"] = why
        self.initial.update(_initial(step))
        if floor := step.get("floor_months"):
            said = f"Never under {floor:g}: a floor (ours) that no way up goes below."
            self.fields["earliest_months"].help_text = said

    @property
    def parts(self) -> tuple[FieldPart, ...]:
        """The fields in their parts, as the page draws them."""
        counts = [name for pair in PAIRS.values() for name in pair if pair != MONTHS]
        counts = ["min_good_sessions", "days_in_a_row", *counts, "refresh_after_days"]
        ticks = [name for name in self.fields if name.startswith("tick_")]
        names = dict(self.fields["prerequisites"].choices)  # type: ignore[attr-defined]
        before = [names[key] for key in self.step["prerequisites"] if key in names]
        after = f"After {', '.join(before)}: change it" if before else "After none yet"
        return tuple(
            part
            for part in (
                self._part("When", ["earliest_months"], note=AGES_NOTE),
                self._part("", list(MONTHS), css="duo"),
                self._part("How many, how often", counts, note=COUNTS_NOTE, css="duo"),
                self._part("What comes before", ["prerequisites"], folded=after),
                self._part("Ticks", ticks, note=TICKS_NOTE, css="one"),
                self._part("For the record", ["why"], css="one"),
            )
            if part.fields
        )

    def _part(self, title: str, names: list[str], **how: str) -> FieldPart:
        fields = tuple(self[name] for name in names if name in self.fields)
        refused = any(field.errors for field in fields)
        return FieldPart(title=title, fields=fields, refused=refused, **how)

    def changed_fields(self) -> dict[str, Any]:
        """Return the step's fields that are otherwise now, as its table holds them."""
        now = self.cleaned_data
        found: dict[str, Any] = {name: now[name] for name in SINGLE if name in now}
        for name, (low, high) in PAIRS.items():
            if low in now:
                found[name] = [now[low], now[high]]
        found["prerequisites"] = self._in_their_order(now["prerequisites"])
        found["checks"] = ticks_from(self.step["checks"], self._ticks())
        found = {name: _whole(value) for name, value in found.items()}
        return {n: v for n, v in found.items() if v != self.step.get(n, 0)}

    def _ticks(self) -> list[str]:
        names = [name for name in self.fields if name.startswith("tick_")]
        return [str(self.cleaned_data.get(name, "")) for name in names]

    def _in_their_order(self, keys: Iterable[str]) -> list[str]:
        """Return steps as they stood, and new ones behind."""
        chosen = set(keys)
        stood = [key for key in self.step["prerequisites"] if key in chosen]
        return [*stood, *(key for key in keys if key not in stood)]

    def clean(self) -> dict[str, Any] | None:
        """Refuse a form in which nothing is changed."""
        cleaned = super().clean()
        if not self.errors and not self.changed_fields():
            self.add_error(None, "Nothing is changed yet.")
        return cleaned

    def refuse(self, faults: Iterable[Fault]) -> None:
        """Say what is wrong beside the field it is wrong in."""
        for fault in faults:
            name = PAIRS.get(fault.field, (fault.field,))[-1]
            name = "tick_0" if fault.field == "checks" else name
            self.add_error(name if name in self.fields else None, fault.text)


def _count_fields() -> dict[str, forms.Field]:
    def count(label: str, help_text: str = "") -> forms.IntegerField:
        return forms.IntegerField(
            label=label, min_value=0, max_value=COUNT_MOST, help_text=help_text
        )

    return {
        "min_good_sessions": count("Good sessions at least"),
        "usual_low": count("Sessions, usually from"),
        "usual_high": count("Sessions, usually to"),
        "minutes_low": count("Minutes from"),
        "minutes_high": count("Minutes to"),
        "days_low": count("Days a week from"),
        "days_high": count("Days a week to"),
        "days_in_a_row": count("Days in a row at most"),
        "refresh_after_days": count("Gone over again after, in days", "0: never."),
    }


def _tick_fields(checks: Sequence[Mapping[str, str]]) -> dict[str, forms.Field]:
    old = {f"tick_{at}": f"Tick {at + 1}" for at in range(len(checks))}
    more = range(len(checks), len(checks) + NEW_TICKS)
    new = {f"tick_{at}": "One tick more" for at in more}
    return {
        name: forms.CharField(
            label=label,
            max_length=TICK_MOST,
            required=False,
            widget=forms.Textarea(attrs={"rows": 2}),
        )
        for name, label in (old | new).items()
    }


def _initial(step: Table) -> dict[str, Any]:
    found = {name: step.get(name, 0) for name in SINGLE}
    for name, (low, high) in PAIRS.items():
        found[low], found[high] = step.get(name, (0, 0))
    found["prerequisites"] = list(step["prerequisites"])
    return found | {f"tick_{at}": c["text"] for at, c in enumerate(step["checks"])}


def _whole(value: Any) -> Any:
    """Return months that are whole as whole numbers, as a programme's text has them."""
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, list):
        return [_whole(one) for one in value]
    return value


class MoveForm(KeptForm):
    """A horse moved to another programme; perhaps it settles in first."""

    instance: Plan

    class Meta:
        model = Plan
        fields = ()

    def __init__(
        self, *args: Any, today: date, settle_days: int, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        self.settle_days = settle_days
        if settle_days:
            self.fields["settle_from"] = DayField(
                label="Came on",
                required=False,
                help_text=f"If it is new here: {settle_days} days to settle in from"
                " that day are written in as a rest. Empty: none.",
            )

    def settling(self) -> RestSpan | None:
        """Return the days to settle in; None: it does not."""
        start: date | None = self.cleaned_data.get("settle_from")
        if start is None:
            return None
        end = start + timedelta(days=self.settle_days - 1)
        return RestSpan(start=start, end=end, why="Settling in")

    def clean_settle_from(self) -> date | None:
        """Refuse a day still to come, or before the horse was foaled."""
        on: date | None = self.cleaned_data["settle_from"]
        return day_with(self.instance.horse, on, self.today) if on else None
