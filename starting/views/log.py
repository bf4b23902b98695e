"""The log: sessions."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def log_session(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Log a session."""
    raise NotImplementedError


def sessions(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """All sessions of a horse."""
    raise NotImplementedError


def edit_session(request: HttpRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct a session."""
    raise NotImplementedError


def delete_session(
    request: HttpRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Delete a session."""
    raise NotImplementedError
