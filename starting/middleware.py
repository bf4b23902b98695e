"""Plan a yard again at the first read of a new day."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.http import HttpRequest, HttpResponse

from starting.writes import ensure_planned


class PlannedMiddleware:
    """See that the outlooks a page reads stand for today; costs nothing if so."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on."""
        return self.get_response(request)

    def process_view(
        self,
        request: HttpRequest,
        view: Callable[..., HttpResponse],
        args: tuple[Any, ...],
        kwargs: dict[str, Any],
    ) -> None:
        """Plan the yard of the address, if its plan is not of today."""
        yard = getattr(request, "yard", None)
        if yard is not None:
            ensure_planned(yard)
