"""Before a rider: every fact of one horse, and who may sit on which."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from fitting.middleware import YardRequest, keepers_only
from starting.reads import ready as reads
from starting.reads.seats import riders_page
from starting.writes import today_in


@require_safe
def ready(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Show every fact that counts before a rider, and where experts disagree."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = reads.ready_page(row, request.role, today_in(request.yard))
    return render(request, "starting/ready.html", {"page": page})


@require_safe
@keepers_only
def riders(request: YardRequest, yard: str) -> HttpResponse:
    """Show who may sit on which horse, for the keepers alone: it tells of weights."""
    horses = riders_page(request.yard, today_in(request.yard))
    return render(request, "starting/riders.html", {"horses": horses})
