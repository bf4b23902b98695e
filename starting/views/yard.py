"""The yard day by day: today, what to write, the plan."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def today(request: HttpRequest, yard: str) -> HttpResponse:
    """Today."""
    raise NotImplementedError


def write(request: HttpRequest, yard: str) -> HttpResponse:
    """What to write down."""
    raise NotImplementedError


def plan(request: HttpRequest, yard: str) -> HttpResponse:
    """The plan of the whole yard."""
    raise NotImplementedError


def horse_diary(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """One horse's diary."""
    raise NotImplementedError
