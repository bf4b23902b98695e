"""The sheet that goes with a horse to others."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from fitting.middleware import YardRequest
from starting.forms.for_others import SheetForm
from starting.reads import for_others as reads
from starting.writes import today_in


@require_safe
def sheet(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Show what is written of a horse, to print for others."""
    row = get_object_or_404(request.yard.horses, key=horse)
    asked = "asked" in request.GET or "show" in request.GET
    form = SheetForm(request.GET if asked else None)
    today = today_in(request.yard)
    page = reads.sheet_page(row, today, form.chosen)
    status = 422 if form.errors else 200
    given = {"page": page, "form": form, "on": today}
    return render(request, "starting/for_others.html", given, status=status)
