"""Answer polls of calendar links; plan a yard at the first read of a new day."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, Final

from django.http import HttpRequest, HttpResponse

from starting.views.feed import calendar
from starting.writes import ensure_planned

CALENDAR_FILE: Final = re.compile(r"/calendar/([^/]+)\.ics")  # as in the addresses


class CalendarMiddleware:
    """Answer a calendar program before all that only people's pages need.

    No session is read for it and nobody is signed in; it is asked day and night.
    """

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass on what asks for something else."""
        asked = CALENDAR_FILE.fullmatch(request.path_info)
        if asked is None:
            return self.get_response(request)
        request.get_host()  # raises for a host that is not ours
        return calendar(request, asked[1])


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
