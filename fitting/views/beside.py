"""Horses put beside one another at the same age."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitting.forms.beside import BesideForm
from fitting.middleware import YardRequest
from fitting.reads import beside as reads
from fitting.reads.today import today_in


@require_safe
def beside(request: YardRequest, yard: str) -> HttpResponse:
    """Put horses beside one another; which, and at which age, stands in the address."""
    horses = reads.standing_here(request.yard)
    form = BesideForm(request.GET or None, horses=horses)
    page, status = None, 200
    if form.is_bound and not form.is_valid():
        status = 422
    elif form.is_bound and len(form.cleaned_data["horse"]) > 1:
        asked = form.cleaned_data
        chosen = [horse for horse in horses if horse.key in asked["horse"]]
        today = today_in(request.yard)
        page = reads.beside_page(chosen, asked["measure"], asked["age"], today)
    context = {"form": form, "page": page, "how_many": len(horses)}
    context["may_edit"] = request.role == "keeper"
    return render(request, "fitting/beside.html", context, status=status)
