"""Items and sets taken down from their pegs, and put up again."""

from __future__ import annotations

from typing import Any, Final

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from fitting.forms.tack import TakeDownForm
from fitting.middleware import YardRequest, keepers_only
from fitting.models import Tack, TackSet
from fitting.reads.item import sets_with
from fitting.reads.lent import loans_of
from fitting.reads.today import today_in
from fitting.writes import tack as writes

FORM_METHODS: Final = ["GET", "HEAD", "POST"]


@keepers_only
@require_http_methods(FORM_METHODS)
def take_down(request: YardRequest, yard: str, tack: str) -> HttpResponse:
    """Take an item down: it is gone, and what was written of it stays."""
    row = get_object_or_404(request.yard.tack, key=tack)
    lent = [loan for loan in loans_of(row, today_in(request.yard)) if loan.out]
    more = {"sets": sets_with(row), "lent": lent}
    return _take_down(request, row, "fitting/take_down.html", more)


@keepers_only
@require_http_methods(FORM_METHODS)
def take_set_down(request: YardRequest, yard: str, made_up: str) -> HttpResponse:
    """Take a set down: no longer asked about, and what was written of it stays."""
    row = get_object_or_404(request.yard.sets, key=made_up)
    return _take_down(request, row, "fitting/take_set_down.html", {})


def _take_down(
    request: YardRequest, row: Tack | TackSet, template: str, more: dict[str, Any]
) -> HttpResponse:
    """Show and save the day on which one of them is taken down."""
    bought = row.bought if isinstance(row, Tack) else None
    today = today_in(request.yard)
    form = TakeDownForm(request.POST or None, today=today, bought=bought)
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        given = form.cleaned_data
        writes.take_down(row, given["gone"], given["token"])
        messages.success(request, f"{row.name} is taken down.")
        return redirect(row)
    status = 422 if form.is_bound else 200
    return render(request, template, {"form": form, "row": row, **more}, status=status)


@keepers_only
@require_POST
def put_up_again(request: YardRequest, yard: str, tack: str) -> HttpResponse:
    """Put an item up again that was taken down."""
    return _put_up_again(request, get_object_or_404(request.yard.tack, key=tack))


@keepers_only
@require_POST
def put_set_up_again(request: YardRequest, yard: str, made_up: str) -> HttpResponse:
    """Put a set up again that was taken down."""
    return _put_up_again(request, get_object_or_404(request.yard.sets, key=made_up))


def _put_up_again(request: YardRequest, row: Tack | TackSet) -> HttpResponse:
    writes.take_down(row, None)
    messages.success(request, f"{row.name} hangs on its peg again.")
    return redirect(row)
