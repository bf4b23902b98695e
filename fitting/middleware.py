"""The yard in the address: who belongs to it, and what they may do there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Final

from django.contrib.auth.models import User
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse

from fitting.models import Membership, Yard

SAFE_METHODS: Final = frozenset({"GET", "HEAD", "OPTIONS"})

View = Callable[..., HttpResponse]


class YardRequest(HttpRequest):
    """A request inside a yard, by one of its members."""

    yard: Yard
    role: str
    user: User


def helpers_may(view: View) -> View:
    """Let helpers use a form that otherwise is the keeper's alone."""
    view.writers = frozenset({"keeper", "helper"})  # type: ignore[attr-defined]
    return view


def keepers_only(view: View) -> View:
    """Keep a page, even to look at, for the keeper."""
    view.writers = frozenset({"keeper"})  # type: ignore[attr-defined]
    return view


class YardMiddleware:
    """Find the yard of the address, once; a stranger's address is not there.

    A view says who may use it: ``helpers_may`` or ``keepers_only`` for pages that
    write; any other page is for every member to read, and writes nothing.
    """

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on."""
        return self.get_response(request)

    def process_view(
        self,
        request: HttpRequest,
        view: View,
        args: tuple[Any, ...],
        kwargs: dict[str, Any],
    ) -> None:
        """Put ``yard`` and ``role`` on the request, or refuse it."""
        slug = kwargs.get("yard")
        if slug is None or not request.user.is_authenticated:
            return
        membership = (
            Membership.objects.select_related("yard")
            .filter(yard__slug=slug, user=request.user)
            .first()
        )
        if membership is None:
            raise Http404("No yard of yours lies at this address.")
        writers = getattr(view, "writers", None)
        if writers is None and request.method in SAFE_METHODS:
            writers = frozenset(Membership.Role.values)
        if membership.role not in (writers or {Membership.Role.KEEPER}):
            raise PermissionDenied("Only the keeper of the yard may do this.")
        request.yard = membership.yard  # type: ignore[attr-defined]
        request.role = membership.role  # type: ignore[attr-defined]
