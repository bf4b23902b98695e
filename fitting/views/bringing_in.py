"""Bringing a keeper's list of readings in, and taking it back."""

from __future__ import annotations

from typing import Final

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from fitting.bringing_in.telling import (
    left_words,
    looked_at,
    sizes_of,
    sums,
    tell,
)
from fitting.forms.base import OnceForm
from fitting.forms.bringing_in import BroughtForm, ListForm
from fitting.forms.looking import LookForm
from fitting.middleware import YardRequest, keepers_only
from fitting.models import BroughtIn
from fitting.reads import bringing_in as reads
from fitting.reads.today import today_in
from fitting.writes import bringing_in as writes

FORM_METHODS: Final = ["GET", "HEAD", "POST"]
REFUSED: Final = 422
CHANGED: Final = (
    "What the list comes to has changed since it was shown. Nothing is written in:"
    " look it through once more."
)
NOTHING: Final = "Nothing of it can be written in yet."


@keepers_only
@require_http_methods(FORM_METHODS)
def bring_in(request: YardRequest, yard: str) -> HttpResponse:
    """Choose a list, look it through, write it in."""
    before = OnceForm(request.POST).written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if request.POST.get("do") in {"look", "write"}:
        return _looked_through(request)
    if request.POST.get("do") == "mend":
        return _choose(request, ListForm(initial=request.POST.dict()))
    if request.method != "POST":
        return _choose(request, ListForm(initial=request.GET.dict()))
    form = ListForm(request.POST, request.FILES)
    if not form.is_valid():
        return _choose(request, form, REFUSED)
    known = reads.known_of(request.yard, today_in(request.yard))
    return _look(request, LookForm(form.first_look, known))


def _choose(request: YardRequest, form: ListForm, status: int = 200) -> HttpResponse:
    context = {"form": form}
    return render(request, "fitting/bring_in.html", context, status=status)


def _looked_through(request: YardRequest) -> HttpResponse:
    """Look a list through once more, or write it in."""
    known = reads.known_of(request.yard, today_in(request.yard))
    form = LookForm(request.POST, known)
    if request.POST["do"] == "look":
        return _look(request, form)
    if not form.is_as_seen:
        return _look(request, form, CHANGED)
    if not form.to_write:
        return _look(request, form, NOTHING)
    return _write_in(request, form)


def _look(request: YardRequest, form: LookForm, refused: str = "") -> HttpResponse:
    """Show what a list comes to; nothing is written in."""
    outcome, known = form.outcome, form.known
    names = {horse.key: horse.name for horse in known.horses}
    context = {
        "form": form,
        "refused": refused or form.refused,
        "outcome": outcome,
        "to_mend": tell(outcome.to_mend),
        "here_already": tell(outcome.here_already),
        "looked": looked_at(outcome.doubted, known.horses, known.units),
        "sums": sums(sizes_of(outcome.good), names, known.units),
    }
    status = REFUSED if context["refused"] else 200
    return render(request, "fitting/look_through.html", context, status=status)


def _write_in(request: YardRequest, form: LookForm) -> HttpResponse:
    """Write a list in; keep in words what was left of it."""
    entries = form.to_write
    row = BroughtIn(
        yard=request.yard,
        name=form.name_given,
        on=form.known.today,
        by=request.user,
        left=left_words(form.outcome.to_mend, form.not_ticked),
    )
    writes.bring_in(row, entries, form.told.get("token", ""))
    said = "One measurement is" if len(entries) == 1 else f"{len(entries)} are"
    messages.success(request, f"{row.name}: {said} written in.")
    return redirect(row)


@keepers_only
@require_safe
def all_brought(request: YardRequest, yard: str) -> HttpResponse:
    """Every list that was brought in."""
    context = {"rows": reads.all_brought(request.yard)}
    return render(request, "fitting/all_brought.html", context)


@keepers_only
@require_http_methods(FORM_METHODS)
def see_brought(request: YardRequest, yard: str, pk: int) -> HttpResponse:
    """What came with one list; what it is called."""
    row = _row(request, pk)
    form = BroughtForm(request.POST or None, instance=row)
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        writes.rename_brought(row, form.cleaned_data["token"])
        messages.success(request, f"It is called {row.name}.")
        return redirect(row)
    context = {"form": form, "row": _row(request, pk), "came": reads.came_with(row)}
    status = REFUSED if form.is_bound else 200
    return render(request, "fitting/see_brought.html", context, status=status)


@keepers_only
@require_http_methods(FORM_METHODS)
def undo_brought(request: YardRequest, yard: str, pk: int) -> HttpResponse:
    """Take a list back, once asked."""
    before = OnceForm(request.POST).written_before(request.yard)
    if before:
        return redirect(before.led_to)
    row = _row(request, pk)
    if request.method == "POST":
        onward = reverse("fitting:all-brought", args=[yard])
        name, also = row.name, request.POST.getlist("also")
        kept = writes.take_back(row, also, request.POST.get("token", ""), onward)
        stay = f" {kept} corrected since {'stays' if kept == 1 else 'stay'}."
        messages.success(request, f"{name} is taken back.{stay if kept else ''}")
        return redirect(onward)
    context = {"row": row, "came": reads.came_with(row), "form": OnceForm()}
    return render(request, "fitting/undo_brought.html", context)


def _row(request: YardRequest, pk: int) -> BroughtIn:
    """Return the list of the address."""
    rows = request.yard.brought_in.select_related("yard", "by")
    return get_object_or_404(rows, pk=pk)
