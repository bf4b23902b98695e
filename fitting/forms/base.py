"""What every form of the site has in common."""

from __future__ import annotations

import secrets
from typing import Any, ClassVar, Final

from django import forms
from django.core.exceptions import ValidationError
from django.db.models import Model
from django.forms.renderers import TemplatesSetting
from django.shortcuts import get_object_or_404

from fitting.bringing_in.days import WRITE_A_DAY
from fitting.models import WrittenOnce, Yard
from fitting.models.kept import KeptRow
from fitting.units import (
    HeightUnit,
    Length,
    LengthUnit,
    UnreadableSizeError,
    Weight,
    WeightUnit,
    read_height,
    read_length,
    read_weight,
)

NO_DAY: Final = f"That is no day. {WRITE_A_DAY}"


class YardFormRenderer(TemplatesSetting):
    """Draw forms in the site's own dress."""

    form_template_name = "_parts/_form.html"
    field_template_name = "_parts/_field.html"


class DayInput(forms.DateInput):
    """A day, with the browser's own calendar where it has one."""

    input_type = "date"

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__(attrs, format="%Y-%m-%d")


class DayField(forms.DateField):
    """A day; what is none is refused in words of ours."""

    widget = DayInput
    default_error_messages: ClassVar = {"invalid": NO_DAY}


class SizeField(forms.CharField):
    """Typed text that becomes a size and keeps its text."""

    def __init__(self, *, unit: str, **kwargs: Any) -> None:
        kwargs.setdefault("max_length", 40)
        super().__init__(**kwargs)
        self.unit = unit

    def read(self, text: str) -> Length | Weight:
        """Return the size that the text means."""
        raise NotImplementedError

    def to_python(self, value: Any) -> Length | Weight | None:  # type: ignore[override]
        """Read the text, or refuse it in words."""
        text = super().to_python(value)
        if not text:
            return None
        try:
            return self.read(text)
        except UnreadableSizeError as error:
            raise ValidationError(str(error), code="unreadable") from error

    def run_validators(self, value: Any) -> None:
        """Check what was typed."""
        super().run_validators(self.prepare_value(value))

    def prepare_value(self, value: Any) -> Any:
        """Show what was typed."""
        return value.written if isinstance(value, Length | Weight) else value

    def has_changed(self, initial: Any, data: Any) -> bool:
        """Compare the texts."""
        before = self.prepare_value(initial)
        return (before or "") != (data or "").strip()


class HeightField(SizeField):
    """A height: hands or centimetres."""

    unit: HeightUnit

    def read(self, text: str) -> Length:
        """Return the height."""
        return read_height(text, unit=self.unit)


class LengthField(SizeField):
    """Another length: inches, centimetres or millimetres."""

    unit: LengthUnit

    def read(self, text: str) -> Length:
        """Return the length."""
        return read_length(text, unit=self.unit)


class WeightField(SizeField):
    """A weight: kilograms or pounds."""

    unit: WeightUnit

    def read(self, text: str) -> Weight:
        """Return the weight."""
        return read_weight(text, unit=self.unit)


def says_now(kept: Model, name: str) -> str | None:
    """Return what a record says in a field, as text; None: it has no such field."""
    display = getattr(kept, f"get_{name}_display", None)
    if display is not None:
        return str(display())
    value = getattr(kept, f"{name}_written", getattr(kept, name, None))
    if isinstance(value, list | tuple):
        return ", ".join(map(str, value))
    if isinstance(value, bool):
        return "yes" if value else "no"
    if value is None:
        return "" if hasattr(kept, name) else None
    return str(value)


class OnceForm(forms.Form):
    """A form with a token, so that a retry on poor signal saves once."""

    token = forms.CharField(widget=forms.HiddenInput, required=False, max_length=40)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["token"].initial = secrets.token_urlsafe(16)

    def written_before(self, yard: Yard) -> WrittenOnce | None:
        """Return what this very form led to, if it was saved already."""
        token = self.data.get(self.add_prefix("token"), "")
        if not token:
            return None
        return WrittenOnce.objects.filter(yard=yard, token=token[:40]).first()


class KeptForm(OnceForm, forms.ModelForm[KeptRow]):
    """A form over one record: checks the whole row, and what changed meanwhile.

    The record's constraints are checked over all its fields, shown or not: a model
    form skips those that touch a hidden field, and the save would fail instead.
    """

    seen_revision = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["seen_revision"].initial = self.instance.revision
        for name, field in self.fields.items():
            if isinstance(field, forms.DateField):
                field.widget = DayInput(field.widget.attrs)
                field.widget.is_required = field.required
                field.error_messages["invalid"] = NO_DAY
            self.fields[name] = field

    def clean(self) -> dict[str, Any] | None:
        """Refuse to overwrite what somebody else wrote meanwhile."""
        cleaned = super().clean()
        seen = self.cleaned_data.get("seen_revision")
        if self.instance.pk and seen is not None and seen != self.instance.revision:
            self.add_error(None, self._changed_meanwhile())
        return cleaned

    def _changed_meanwhile(self) -> ValidationError:
        """Return a sentence that shows what the record says by now."""
        kept = get_object_or_404(type(self.instance), pk=self.instance.pk)
        now = []
        for name in self.changed_data:
            if name in {"token", "seen_revision"}:
                continue
            shown = says_now(kept, name)
            if shown is not None:
                now.append(f"{self.fields[name].label or name}: {shown or 'nothing'}")
        says = "; ".join(now) or "other fields were changed"
        data = self.data.copy()  # type: ignore[attr-defined]
        data[self.add_prefix("seen_revision")] = str(kept.revision)
        self.data = data
        return ValidationError(
            f"Somebody changed this meanwhile. It says now: {says}. Yours is kept"
            " below: write it in again to replace theirs, or leave it.",
            code="changed_meanwhile",
        )

    def validate_unique(self) -> None:
        """Check the row's constraints over all its fields."""
        super().validate_unique()
        if self.errors:
            return
        try:
            self.instance.validate_constraints()
        except ValidationError as error:
            self.add_error(None, error)
