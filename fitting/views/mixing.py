"""A bridle made up for one horse from the parts that are at hand."""

from __future__ import annotations

import secrets

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitting.forms.mixing import MixForm
from fitting.middleware import YardRequest
from fitting.reads.mixing import mixing_page
from fitting.reads.today import today_in


@require_safe
def mix_bridle(request: YardRequest, yard: str) -> HttpResponse:
    """Make up a bridle: for which horse, and on which day, stands in the address."""
    today = today_in(request.yard)
    horses = list(request.yard.horses.select_related("yard", "outlook"))
    form = MixForm(request.GET or None, horses=horses, today=today)
    page, status = None, 200
    if form.is_bound and form.is_valid():
        said = form.cleaned_data
        with_bit = said["bit"] == "yes"
        page = mixing_page(form.chosen, said["on"], today, bit=with_bit)
    elif form.is_bound:
        status = 422
    context = {
        "form": form,
        "page": page,
        "horses": horses,
        "token": secrets.token_urlsafe(16),
    }
    return render(request, "fitting/mix_bridle.html", context, status=status)
