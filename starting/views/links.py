"""Calendar links."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def calendar_links(request: HttpRequest, yard: str) -> HttpResponse:
    """The yard's calendar links."""
    raise NotImplementedError


def add_link(request: HttpRequest, yard: str) -> HttpResponse:
    """Make a calendar link."""
    raise NotImplementedError


def edit_link(request: HttpRequest, yard: str, pk: int) -> HttpResponse:
    """Change what a link shows."""
    raise NotImplementedError


def end_link(request: HttpRequest, yard: str, pk: int) -> HttpResponse:
    """End a calendar link."""
    raise NotImplementedError
