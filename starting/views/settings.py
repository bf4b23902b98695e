"""The yard itself: days, units, people, members."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse


def yard_settings(request: HttpRequest, yard: str) -> HttpResponse:
    """The yard's name, days and units."""
    raise NotImplementedError


def people(request: HttpRequest, yard: str) -> HttpResponse:
    """The yard's people."""
    raise NotImplementedError


def add_person(request: HttpRequest, yard: str) -> HttpResponse:
    """Add somebody."""
    raise NotImplementedError


def edit_person(request: HttpRequest, yard: str, pk: int) -> HttpResponse:
    """Correct somebody."""
    raise NotImplementedError


def delete_person(request: HttpRequest, yard: str, pk: int) -> HttpResponse:
    """Take somebody off the list."""
    raise NotImplementedError


def members(request: HttpRequest, yard: str) -> HttpResponse:
    """Who may sign in here."""
    raise NotImplementedError


def add_member(request: HttpRequest, yard: str) -> HttpResponse:
    """Let somebody in."""
    raise NotImplementedError


def edit_member(request: HttpRequest, yard: str, pk: int) -> HttpResponse:
    """Change what a member may do."""
    raise NotImplementedError


def delete_member(request: HttpRequest, yard: str, pk: int) -> HttpResponse:
    """Let a member go."""
    raise NotImplementedError
