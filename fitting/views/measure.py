"""Measuring: one walk round the horse, and what was written before."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def measure(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Measure a horse."""
    raise NotImplementedError


def measured(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """All that was measured."""
    raise NotImplementedError


def edit_measurement(
    request: HttpRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Correct or strike out a measurement."""
    raise NotImplementedError


def delete_measurement(
    request: HttpRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Delete a measurement."""
    raise NotImplementedError
