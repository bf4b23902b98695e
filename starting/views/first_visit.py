"""The first visit: a yard, a horse, its first measurement."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from fitting.middleware import YardRequest, helpers_may, keepers_only
from fitting.models import Horse, Yard
from fitting.writes.horses import add_horse
from fitting.writes.measure import Occasion, write_measurements
from starting.forms.first_visit import FirstHorseForm, FirstMeasurementForm
from starting.forms.yard import NewYardForm
from starting.reads.yards import my_yards
from starting.writes import today_in
from starting.writes.yards import made_before, make_yard

NEXT = "first-measurement"
FORM_METHODS = ["GET", "HEAD", "POST"]


def typed(request: HttpRequest) -> QueryDict | None:
    """Return what was sent with a form, empty or not; None where none was sent."""
    return request.POST if request.method == "POST" else None


@require_safe
def yards(request: HttpRequest) -> HttpResponse:
    """My yards; straight to the only one; none yet: make one."""
    mine = my_yards(cast("User", request.user))
    if not mine:
        return redirect("new-yard")
    if len(mine) == 1:
        return redirect("starting:today", mine[0].slug)
    return render(request, "starting/yards.html", {"yards": mine})


@require_http_methods(FORM_METHODS)
def new_yard(request: HttpRequest) -> HttpResponse:
    """Make a yard; whoever makes it becomes its keeper."""
    keeper = cast("User", request.user)
    before = made_before(keeper, request.POST.get("token", ""))
    if before:
        return redirect("first-horse", before.yard.slug)
    form = NewYardForm(typed(request), instance=Yard())
    if form.is_valid():
        yard = make_yard(form.instance, keeper, form.cleaned_data["token"])
        messages.success(request, f"Written in: {yard}.", extra_tags="new-yard")
        return redirect("first-horse", yard.slug)
    context = {"form": form, "has_yards": keeper.memberships.exists()}
    status = 422 if form.is_bound else 200
    return render(request, "starting/new_yard.html", context, status=status)


@keepers_only
@require_http_methods(FORM_METHODS)
def first_horse(request: YardRequest, yard: str) -> HttpResponse:
    """The first horse."""
    form = FirstHorseForm(
        typed(request),
        instance=Horse(),
        yard=request.yard,
        today=today_in(request.yard),
    )
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        added = add_horse(form.instance, form.cleaned_data["token"], NEXT)
        draft = f"first-horse-{yard}"
        messages.success(request, f"Written in: {added}.", extra_tags=draft)
        return redirect(NEXT, yard, added.key)
    status = 422 if form.is_bound else 200
    return render(request, "starting/first_horse.html", {"form": form}, status=status)


@helpers_may
@require_http_methods(FORM_METHODS)
def first_measurement(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Its first measurement."""
    whose = get_object_or_404(request.yard.horses, key=horse)
    form = FirstMeasurementForm(
        typed(request), horse=whose, today=today_in(request.yard)
    )
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    only_asked = "check" in request.POST
    if form.is_valid() and not only_asked:
        return _write_in(request, form)
    if only_asked and _by_script(request):
        read = {"ask": form.ask, "reads_back": True}
        return render(request, "fitting/_read_as.html", read)
    context = {"form": form, "horse": whose}
    status = 422 if form.is_bound and not only_asked else 200
    return render(request, "starting/first_measurement.html", context, status=status)


def _by_script(request: HttpRequest) -> bool:
    """Return whether the page asks by itself, while somebody types."""
    return bool(getattr(request, "htmx", False))


def _write_in(request: YardRequest, form: FirstMeasurementForm) -> HttpResponse:
    """Save the height, say what was understood, go to the horse's page."""
    occasion = Occasion(on=form.cleaned_data["on"], by=request.user)
    token = form.cleaned_data["token"]
    write_measurements(form.horse, [form.ask.taken], occasion, token)
    said = f"Written in: withers height {form.ask.understood}."
    messages.success(request, said, extra_tags=form.draft)
    return redirect(form.horse)
