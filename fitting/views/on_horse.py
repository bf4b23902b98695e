"""One item, or one made-up set, on one horse."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from fitting.middleware import YardRequest
from fitting.reads import on_horse as reads


@require_safe
def item_on(request: YardRequest, yard: str, horse: str, tack: str) -> HttpResponse:
    """How an item sits on a horse, part by part."""
    rider = get_object_or_404(request.yard.horses, key=horse)
    item = get_object_or_404(request.yard.tack, key=tack)
    page = reads.item_on_horse(rider, item)
    return render(request, "fitting/on_horse.html", {"page": page})


@require_safe
def set_on(request: YardRequest, yard: str, horse: str, made_up: str) -> HttpResponse:
    """How a made-up set sits on a horse, part by part."""
    rider = get_object_or_404(request.yard.horses, key=horse)
    row = get_object_or_404(request.yard.sets, key=made_up)
    page = reads.set_on_horse(rider, row)
    return render(request, "fitting/on_horse.html", {"page": page})
