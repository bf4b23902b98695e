"""The forms of bringing a list in: the list itself, and what it is called."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict

from fitting.bringing_in import (
    MOST_BYTES,
    UnreadableFileError,
    decode,
    find_delimiter,
    plain_text,
    read_table,
)
from fitting.forms.base import KeptForm
from fitting.models import BroughtIn

PASTED: Final = "Pasted lines"
LONGEST_NAME: Final = 80


class ListForm(forms.Form):
    """A list: a file, or the lines themselves."""

    file = forms.FileField(
        label="A file",
        required=False,
        allow_empty_file=True,
        help_text="CSV, as a spreadsheet saves it: at most 1 MB and 5000 lines.",
        widget=forms.FileInput(attrs={"accept": ".csv,.tsv,.tab,.txt,text/csv"}),
    )
    text = forms.CharField(
        label="Or the lines, pasted",
        required=False,
        strip=False,
        widget=forms.Textarea(attrs={"rows": 8, "maxlength": MOST_BYTES}),
    )
    horse = forms.CharField(required=False, widget=forms.HiddenInput)
    letters = ""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["text"].validators = []  # what is no text is refused in our words

    def clean(self) -> dict[str, Any] | None:
        """Read the letters and the lines, or say why not."""
        cleaned = super().clean() or {}
        file, text = cleaned.get("file"), cleaned.get("text", "")
        if not file and not text.strip():
            self.add_error(None, "Choose a file, or paste its lines.")
        elif file and text.strip():
            self.add_error(None, "Choose a file or paste its lines, not both.")
        else:
            self._read("file" if file else "text")
        return cleaned

    def _read(self, field: str) -> None:
        given = self.cleaned_data[field]
        try:
            if field == "file":
                found = decode(given.read(MOST_BYTES + 1))
                self.letters, self.plain = found.letters, found.text
            else:
                self.plain = plain_text(given)
            read_table(self.plain, find_delimiter(self.plain))
        except UnreadableFileError as error:
            self.add_error(field, ValidationError(str(error), code="unreadable"))

    plain = ""

    @property
    def first_look(self) -> QueryDict:
        """What the page of looking through is first drawn from."""
        file = self.cleaned_data.get("file")
        told = QueryDict(mutable=True)
        told["text"] = self.plain
        told["letters"] = self.letters
        told["name"] = (file.name if file else PASTED)[:LONGEST_NAME]
        told["horse"] = self.cleaned_data.get("horse", "")
        return told


class BroughtForm(KeptForm):
    """What a list that was brought in is called."""

    class Meta:
        model = BroughtIn
        fields = ("name",)
