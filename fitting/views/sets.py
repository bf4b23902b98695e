"""Made-up sets: a bridle from parts, with its bit."""

from __future__ import annotations

from typing import Final

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from fitting.forms.sets import SetForm
from fitting.hangs_on import StillHangsError
from fitting.middleware import YardRequest, keepers_only
from fitting.models import SetPart, TackSet
from fitting.reads import made_up as sets_reads
from fitting.reads.hangs_on import hangs_on_set
from fitting.reads.reaches import reaches_of
from fitting.reads.today import today_in
from fitting.writes import tack as writes

FORM_METHODS: Final = ["GET", "HEAD", "POST"]


@require_safe
def made_up_set(request: YardRequest, yard: str, made_up: str) -> HttpResponse:
    """One made-up set: its parts, and whom it fits."""
    row = get_object_or_404(request.yard.sets.select_related("yard"), key=made_up)
    page = sets_reads.set_page(row, today_in(request.yard))
    reaches = () if row.gone else reaches_of(row, today_in(request.yard))
    return render(request, "fitting/set.html", {"page": page, "reaches": reaches})


@keepers_only
@require_http_methods(FORM_METHODS)
def make_up(request: YardRequest, yard: str) -> HttpResponse:
    """Make up a set."""
    said = request.GET
    asked = {slot: said[slot] for slot in SetPart.Slot.values if slot in said}
    row = TackSet(yard=request.yard, name=said.get("name", "")[:80])
    return _set(request, row, sets_reads.items_by_key(request.yard, asked))


@keepers_only
@require_http_methods(FORM_METHODS)
def edit_set(request: YardRequest, yard: str, made_up: str) -> HttpResponse:
    """Change a set."""
    return _set(request, get_object_or_404(request.yard.sets, key=made_up))


def _set(
    request: YardRequest, row: TackSet, asked: dict[str, str] | None = None
) -> HttpResponse:
    """Show and save the form of one set; ``asked``: the item of each slot at first."""
    name, key = row.name if row.pk else "", row.key
    draft = f"set-{request.yard.slug}-{key or 'new'}"
    form = SetForm(
        request.POST or None, instance=row, yard=request.yard, initial=asked or {}
    )
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        writes.make_up(row, form.chosen, form.cleaned_data["token"])
        messages.success(request, f"Written in: {row.name}.", extra_tags=draft)
        return redirect(row)
    context = {"form": form, "name": name, "key": key, "draft": draft}
    status = 422 if form.is_bound else 200
    return render(request, "fitting/set_form.html", context, status=status)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_set(request: YardRequest, yard: str, made_up: str) -> HttpResponse:
    """Take a set apart; refused as long as anything hangs on it."""
    row = get_object_or_404(request.yard.sets, key=made_up)
    status = 200
    if request.method == "POST":
        try:
            writes.take_apart(row)
        except StillHangsError:
            status = 422
        else:
            messages.success(request, f"{row.name} is taken apart.")
            return redirect("fitting:tack-room", yard)
    context = {"row": row, "hangs": hangs_on_set(row)}
    return render(request, "fitting/delete_set.html", context, status=status)
