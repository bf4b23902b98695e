"""Weight and condition of one horse."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from fitting.middleware import YardRequest
from fitting.reads.today import today_in
from fitting.reads.weight import weight_page


@require_safe
def weight(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """What a horse weighs, how that moves, and its condition."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = weight_page(row, today_in(request.yard))
    context = {"page": page, "may_write": request.role != "viewer"}
    return render(request, "fitting/weight.html", context)
