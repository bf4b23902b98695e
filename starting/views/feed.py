"""The calendar file behind a link."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def calendar(request: HttpRequest, key: str) -> HttpResponse:
    """A calendar link's file."""
    raise NotImplementedError
