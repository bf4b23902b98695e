"""The first day of a kind of tack."""

from __future__ import annotations

from typing import Final

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from fitting.forms.worn import FirstWornForm
from fitting.middleware import YardRequest, helpers_may
from fitting.models import FirstWorn
from fitting.reads import worn as reads
from fitting.reads.today import today_in
from fitting.writes import tryons as writes

FORM_METHODS: Final = ["GET", "HEAD", "POST"]


@require_safe
def worn(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """What a horse has worn, and when."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = reads.worn_page(row, today_in(request.yard))
    context = {"page": page, "may_write": request.role != "viewer"}
    return render(request, "fitting/worn.html", context)


@helpers_may
@require_http_methods(FORM_METHODS)
def add_first_worn(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Write down what a horse has worn already."""
    row = get_object_or_404(request.yard.horses, key=horse)
    return _worn(request, FirstWorn(horse=row))


@helpers_may
@require_http_methods(FORM_METHODS)
def edit_first_worn(
    request: YardRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Correct what was first worn."""
    row = get_object_or_404(request.yard.horses, key=horse)
    return _worn(request, get_object_or_404(row.first_worn, pk=pk))


def _worn(request: YardRequest, row: FirstWorn) -> HttpResponse:
    """Show and save the form of one first time."""
    led_to = reverse("fitting:worn", args=[request.yard.slug, row.horse.key])
    draft = f"worn-{request.yard.slug}-{row.horse.key}-{row.pk or 'new'}"
    form = FirstWornForm(
        request.POST or None, instance=row, today=today_in(request.yard)
    )
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        writes.write_first_worn(form.filled(), form.cleaned_data["token"], led_to)
        said = f"Written in: {row.get_kind_display()}, first worn."
        messages.success(request, said, extra_tags=draft)
        return redirect(led_to)
    context = {"form": form, "horse": row.horse, "row": row, "draft": draft}
    status = 422 if form.is_bound else 200
    return render(request, "fitting/first_worn.html", context, status=status)


@helpers_may
@require_http_methods(FORM_METHODS)
def delete_first_worn(
    request: YardRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Delete what was never worn."""
    wearer = get_object_or_404(request.yard.horses, key=horse)
    row = get_object_or_404(wearer.first_worn, pk=pk)
    if request.method == "POST":
        writes.delete_first_worn(row)
        messages.success(request, "It is deleted.")
        return redirect("fitting:worn", yard, horse)
    context = {"row": row, "horse": wearer}
    return render(request, "fitting/delete_first_worn.html", context)
