"""Two items of tack put beside each other."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitting.forms.tack_beside import TackBesideForm
from fitting.middleware import YardRequest
from fitting.reads import tack_beside as reads
from fitting.reads.to_put_beside import to_put_beside


@require_safe
def tack_beside(request: YardRequest, yard: str) -> HttpResponse:
    """Put two items or sets beside each other; which two stands in the address."""
    items = to_put_beside(request.yard)
    form = TackBesideForm(request.GET or None, items=items)
    page, status = None, 200
    if form.is_bound:
        valid = form.is_valid()
        status = 200 if valid else 422
        page = reads.beside_page(request.yard, *form.chosen) if valid else None
    context = {"form": form, "page": page, "how_many": len(items)}
    return render(request, "fitting/tack_beside.html", context, status=status)
