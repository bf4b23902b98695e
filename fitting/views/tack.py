"""The tack room: items, parts, made-up sets."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def tack_room(request: HttpRequest, yard: str) -> HttpResponse:
    """The tack room."""
    raise NotImplementedError


def add_tack(request: HttpRequest, yard: str) -> HttpResponse:
    """Put up an item."""
    raise NotImplementedError


def make_up(request: HttpRequest, yard: str) -> HttpResponse:
    """Make up a set."""
    raise NotImplementedError


def edit_set(request: HttpRequest, yard: str, made_up: str) -> HttpResponse:
    """Change a set."""
    raise NotImplementedError


def delete_set(request: HttpRequest, yard: str, made_up: str) -> HttpResponse:
    """Take a set apart."""
    raise NotImplementedError


def tack(request: HttpRequest, yard: str, tack: str) -> HttpResponse:
    """One item: whom it fits."""
    raise NotImplementedError


def edit_tack(request: HttpRequest, yard: str, tack: str) -> HttpResponse:
    """Correct an item."""
    raise NotImplementedError


def delete_tack(request: HttpRequest, yard: str, tack: str) -> HttpResponse:
    """Delete an item."""
    raise NotImplementedError
