"""What is sent with a photo, and where its files lie."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from fitting.models import Horse, Photo
from fitting.reads.today import today_in
from tests.make import make_picture


def at(name: str, horse: Horse, *more: Any) -> str:
    return reverse(f"fitting:{name}", args=[horse.yard.slug, horse.key, *more])


def upload(body: bytes, name: str = "here.jpg") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, body, content_type="image/jpeg")


def sent(horse: Horse, **fields: Any) -> dict[str, Any]:
    given: dict[str, Any] = {"on": today_in(horse.yard), "note": "Near side", **fields}
    given.setdefault("photo", upload(make_picture()))
    return given


def files_of(photo: Photo) -> tuple[Path, Path]:
    return Path(photo.image.path), Path(photo.small.path)


def all_files() -> set[Path]:
    return {path for path in Path(settings.MEDIA_ROOT).rglob("*") if path.is_file()}
