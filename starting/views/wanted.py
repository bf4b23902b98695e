"""To buy or borrow: for the yard, for one horse, and cards for the shop."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_POST, require_safe

from fitting.middleware import YardRequest, keepers_only
from fitting.models import Part, Tack
from starting.reads import wanted as reads
from starting.writes import today_in
from starting.writes import wanted as writes


@require_safe
def to_get(request: YardRequest, yard: str) -> HttpResponse:
    """Show what to buy or borrow for the horses of the yard."""
    page = reads.yard_page(request.yard, today_in(request.yard))
    return render(request, "starting/to_get.html", {"page": page})


@require_safe
def horse_to_get(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Show what to buy or borrow for one horse."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = reads.horse_page(row, today_in(request.yard))
    return render(request, "starting/to_get.html", {"page": page})


@require_safe
def shop_cards(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Show a small card for each thing to get, to print and take to the shop."""
    row = get_object_or_404(request.yard.horses, key=horse)
    given = {"page": reads.cards_of(row), "horse": row, "on": today_in(request.yard)}
    return render(request, "starting/shop_cards.html", given)


@require_POST
@keepers_only
def got(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Tick off a thing that was got, today."""
    row = get_object_or_404(request.yard.horses, key=horse)
    kind, part = request.POST.get("kind", ""), request.POST.get("part", "")
    if kind not in Tack.Kind.values or part not in {"", *Part.Name.values}:
        messages.error(request, "Nothing was ticked off: choose a thing of the list.")
        page = reads.horse_page(row, today_in(request.yard))
        return render(request, "starting/to_get.html", {"page": page}, status=422)
    writes.tick(row, kind, part, today_in(request.yard))
    messages.success(request, "Ticked off. Put it up with its own measured size.")
    return redirect("starting:horse-to-get", yard, row.key)


@require_POST
@keepers_only
def not_got(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Take a tick back."""
    row = get_object_or_404(request.yard.horses, key=horse)
    writes.take_tick_back(get_object_or_404(row.bought, pk=pk))
    messages.success(request, "Taken back: it is still to be got.")
    return redirect("starting:horse-to-get", yard, row.key)
