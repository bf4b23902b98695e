"""The form of a photo: which day, what is to be seen, and the file itself."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile

from fitting.forms.base import KeptForm
from fitting.forms.days import day_with
from fitting.models import Photo
from fitting.photos import (
    MOST_BYTES,
    MOST_MEGABYTES,
    Picture,
    UnreadablePhotoError,
    read_photo,
)


class PhotoField(forms.FileField):
    """An uploaded picture, drawn again as it may be kept."""

    widget = forms.FileInput(attrs={"accept": "image/*"})
    default_error_messages = {
        "required": "Choose a photo, or take one.",
        "missing": "Choose a photo, or take one.",
        "empty": "This file is empty. Choose another.",
    }

    def clean(self, data: Any, initial: Any = None) -> Picture | None:
        """Return the picture.

        Raises:
            ValidationError: it is none, or may not be kept; says why.
        """
        given: UploadedFile[bytes] | None = super().clean(data, initial)
        if not given:
            return None
        try:
            # One byte more than is allowed tells that it is too large.
            return read_photo(given.read(MOST_BYTES + 1))
        except UnreadablePhotoError as error:
            raise ValidationError(str(error), code="unreadable") from error


class PhotoForm(KeptForm):
    """Correct the day and the note of a photo."""

    instance: Photo

    class Meta:
        model = Photo
        fields = ("on", "note")
        labels = {"note": "What is to be seen"}

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def clean_on(self) -> date:
        """Refuse a day to come, or before the horse was foaled."""
        return day_with(self.instance.horse, self.cleaned_data["on"], self.today)


class NewPhotoForm(PhotoForm):
    """Add a photo: the file first, then its day."""

    photo = PhotoField(
        label="Photo",
        help_text=f"JPEG, PNG or WebP, at most {MOST_MEGABYTES} MB. Only the picture is"
        " kept: where and with what it was taken is left out.",
    )
    field_order = ("photo", "on", "note")

    @property
    def choose_again(self) -> bool:
        """Whether a sound photo was sent with something else that was refused."""
        return bool(self.errors) and "photo" in getattr(self, "cleaned_data", {})
