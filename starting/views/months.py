"""Month by month: one horse, and the whole yard."""

from __future__ import annotations

from datetime import date

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from fitting.middleware import YardRequest
from starting.reads import months as reads
from starting.reads import yard_months as yard_reads
from starting.writes import today_in


@require_safe
def months(request: YardRequest, yard: str) -> HttpResponse:
    """Show six months of the yard; ``?from=2026-11`` begins elsewhere."""
    today = today_in(request.yard)
    first = _month(request.GET.get("from", ""))
    page = yard_reads.yard_months_page(request.yard, today, first)
    return render(request, "starting/months.html", {"page": page})


def _month(text: str) -> date | None:
    """Return the first day of a month in an address; None: it is none."""
    try:
        return date.fromisoformat(f"{text}-01")
    except ValueError:
        return None


@require_safe
def horse_months(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Show one horse month by month; ``?far`` draws all the way ahead."""
    row = get_object_or_404(request.yard.horses.select_related("yard"), key=horse)
    far = "far" in request.GET
    page = reads.months_page(row, today_in(request.yard), far=far)
    return render(request, "starting/horse_months.html", {"page": page})
