"""The horses of the yard, and the body of one."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def horses(request: HttpRequest, yard: str) -> HttpResponse:
    """The yard's horses."""
    raise NotImplementedError


def add_horse(request: HttpRequest, yard: str) -> HttpResponse:
    """Add a horse."""
    raise NotImplementedError


def horse(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """One horse: its body."""
    raise NotImplementedError


def edit_horse(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Correct a horse."""
    raise NotImplementedError


def delete_horse(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Delete a horse."""
    raise NotImplementedError
