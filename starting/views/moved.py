"""What moved, and why: of the yard, and of one horse."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from fitting.middleware import YardRequest
from starting.reads import moved as reads
from starting.writes import today_in


@require_safe
def moved(request: YardRequest, yard: str) -> HttpResponse:
    """Show what moved at the yard lately, day by day."""
    page = reads.moved_page(request.yard, today_in(request.yard))
    return render(request, "starting/moved.html", {"page": page})


@require_safe
def horse_moved(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Show what moved for one horse, day by day."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = reads.horse_moved_page(row, today_in(request.yard))
    return render(request, "starting/horse_moved.html", {"page": page})
