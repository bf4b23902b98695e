"""Trying on: what was seen, part by part."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def horse_tack(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Does it fit? One horse, all tack."""
    raise NotImplementedError


def try_on(request: HttpRequest, yard: str, horse: str) -> HttpResponse:
    """Try something on."""
    raise NotImplementedError


def edit_tryon(request: HttpRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct a try-on."""
    raise NotImplementedError


def delete_tryon(request: HttpRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Delete a try-on."""
    raise NotImplementedError
