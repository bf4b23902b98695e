"""The way up: steps, what each needs first, steps set by hand."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def steps(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """The way up of one horse."""
    raise NotImplementedError


def edit_plan(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """How the horse is brought on."""
    raise NotImplementedError


def step(request: HttpRequest, yard: str, horse: str, stage: str) -> HttpResponse:
    """One step."""
    raise NotImplementedError


def record_step(
    request: HttpRequest, yard: str, horse: str, stage: str
) -> HttpResponse:
    """Set a step by hand."""
    raise NotImplementedError


def went_ahead(
    request: HttpRequest, yard: str, horse: str, stage: str, gate: str
) -> HttpResponse:
    """Go ahead past a caution."""
    raise NotImplementedError
