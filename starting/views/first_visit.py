"""The first visit: a yard, a horse, its first measurement."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def yards(request: HttpRequest) -> HttpResponse:
    """My yards."""
    raise NotImplementedError


def new_yard(request: HttpRequest) -> HttpResponse:
    """Make a yard."""
    raise NotImplementedError


def first_horse(request: HttpRequest, yard: str) -> HttpResponse:
    """The first horse."""
    raise NotImplementedError


def first_measurement(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Its first measurement."""
    raise NotImplementedError
