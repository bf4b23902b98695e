"""Care visits, rests, off work, incidents."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def care(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Care, rests and off work of one horse."""
    raise NotImplementedError


def add_care(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Write in a care visit."""
    raise NotImplementedError


def edit_care(request: HttpRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct a care visit."""
    raise NotImplementedError


def delete_care(request: HttpRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Delete a care visit."""
    raise NotImplementedError


def add_rest(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Turn a horse away."""
    raise NotImplementedError


def edit_rest(request: HttpRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct a rest."""
    raise NotImplementedError


def delete_rest(request: HttpRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Delete a rest."""
    raise NotImplementedError


def add_off_work(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Take a horse off work."""
    raise NotImplementedError


def edit_off_work(request: HttpRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct or clear off work."""
    raise NotImplementedError


def delete_off_work(
    request: HttpRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Delete off work."""
    raise NotImplementedError


def add_incident(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Write in an incident."""
    raise NotImplementedError


def edit_incident(request: HttpRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct an incident."""
    raise NotImplementedError


def delete_incident(
    request: HttpRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Delete an incident."""
    raise NotImplementedError
