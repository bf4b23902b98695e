"""The helper's page: what is theirs to do."""

from __future__ import annotations

from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitting.middleware import YardRequest
from starting.reads.helping import helping_page
from starting.writes import today_in


@require_safe
def helping(request: YardRequest, yard: str, pk: int | None = None) -> HttpResponse:
    """Show what is somebody's to do, today and on their next days."""
    page = helping_page(request.yard, request.user, today_in(request.yard), pk)
    if page is None:
        raise Http404
    return render(request, "starting/helping.html", {"page": page})
