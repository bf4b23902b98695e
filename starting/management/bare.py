"""The floors that pages are compared with: a bare view, and one with one query."""

from __future__ import annotations

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.urls import include, path

from fitting.models import Yard


@login_not_required
def bare(request: HttpRequest) -> HttpResponse:
    """Answer, and do nothing else."""
    return HttpResponse("bare")


@login_not_required
def one_query(request: HttpRequest) -> HttpResponse:
    """Answer with one row."""
    return HttpResponse(Yard.objects.values_list("name", flat=True).first() or "")


urlpatterns = [
    path("bare/", bare),
    path("one-query/", one_query),
    path("", include("starting.urls")),
]
