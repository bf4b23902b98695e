"""The tack room: items and their parts."""

from __future__ import annotations

from typing import Final

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from fitting.forms.tack import ItemForm
from fitting.hangs_on import StillHangsError
from fitting.middleware import YardRequest, keepers_only
from fitting.models import Tack
from fitting.pieces import KIND_WORDS
from fitting.reads import item as item_reads
from fitting.reads import tack as reads
from fitting.reads.hangs_on import hangs_on_item
from fitting.reads.reaches import reaches_of
from fitting.reads.today import today_in
from fitting.writes import tack as writes

FORM_METHODS: Final = ["GET", "HEAD", "POST"]


@require_safe
def tack_room(request: YardRequest, yard: str) -> HttpResponse:
    """The tack room: what hangs there, and whom it fits."""
    shown = request.GET.get("show", "")
    page = reads.tack_room(request.yard, today_in(request.yard), shown)
    return render(request, "fitting/tack_room.html", {"page": page})


@require_safe
def tack(request: YardRequest, yard: str, tack: str) -> HttpResponse:
    """One item: whom it fits."""
    row = get_object_or_404(request.yard.tack, key=tack)
    page = item_reads.item_page(row, today_in(request.yard))
    reaches = () if row.gone else reaches_of(row, today_in(request.yard))
    return render(request, "fitting/tack.html", {"page": page, "reaches": reaches})


@keepers_only
@require_http_methods(FORM_METHODS)
def add_tack(request: YardRequest, yard: str) -> HttpResponse:
    """Put up an item: its kind first, then its sizes; or one like another."""
    if "like" in request.GET:
        like = get_object_or_404(request.yard.tack, key=request.GET["like"])
        row = Tack(yard=request.yard, kind=like.kind, label_size=like.label_size)
        return _item(request, row, like)
    kind = request.GET.get("kind", "")
    if kind not in KIND_WORDS:
        kinds = [(key, *words) for key, words in KIND_WORDS.items()]
        return render(request, "fitting/choose_kind.html", {"kinds": kinds})
    return _item(request, Tack(yard=request.yard, kind=kind))


@keepers_only
@require_http_methods(FORM_METHODS)
def edit_tack(request: YardRequest, yard: str, tack: str) -> HttpResponse:
    """Correct an item."""
    return _item(request, get_object_or_404(request.yard.tack, key=tack))


def _item(request: YardRequest, row: Tack, like: Tack | None = None) -> HttpResponse:
    """Show and save the form of one item with its parts."""
    name, url = row.name, row.get_absolute_url() if row.pk else ""
    new = f"like-{like.key}" if like else f"new-{row.kind}"
    draft = f"tack-{request.yard.slug}-{row.key or new}"
    today = today_in(request.yard)
    form = ItemForm(request.POST or None, instance=row, today=today, like=like)
    before = form.item.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_bound and form.is_valid():
        _save(row, form)
        messages.success(request, f"Written in: {row.name}.", extra_tags=draft)
        return redirect(row)
    context = {"form": form, "row": row, "name": name, "url": url, "draft": draft}
    context["like"] = like
    context["begun"] = not form.is_bound and form.begin_with(request.GET)
    status = 422 if form.is_bound else 200
    return render(request, "fitting/tack_form.html", context, status=status)


def _save(row: Tack, form: ItemForm) -> None:
    """Save an item that was checked, with the parts it has."""
    left_out = [part for part in form.parts if part.is_left_out]
    has = [part for part in form.parts if not part.is_left_out]
    rows = [part.filled() for part in has if part.is_anew]
    if not row.pk:
        writes.put_up(row, rows, form.token)
        return
    gone = [part.instance for part in left_out if part.instance.pk]
    writes.correct_item(row, rows, gone, form.token)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_tack(request: YardRequest, yard: str, tack: str) -> HttpResponse:
    """Delete an item put up by mistake; refused as long as anything hangs on it."""
    row = get_object_or_404(request.yard.tack, key=tack)
    status = 200
    if request.method == "POST":
        try:
            writes.delete_item(row)
        except StillHangsError:
            status = 422
        else:
            messages.success(request, f"{row.name} is deleted.")
            return redirect("fitting:tack-room", yard)
    context = {"row": row, "hangs": hangs_on_item(row)}
    return render(request, "fitting/delete_tack.html", context, status=status)
