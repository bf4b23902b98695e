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
from fitting.writes.measure import Occasion
from starting.forms.first_visit import FirstHorseForm, FirstMeasurementForm
from starting.forms.yard import NewYardForm
from starting.reads.yards import my_yards
from starting.writes import today_in
from starting.writes.first_visit import stable_horse, write_height
from starting.writes.yards import made_before, make_yard

PAGE = "first_measurement"
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
        onward = stable_horse(form.instance, form.cleaned_data["token"])
        draft = f"first-horse-{yard}"
        messages.success(request, f"Written in: {form.instance}.", extra_tags=draft)
        return redirect(onward)
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
    page = "_understood_height" if only_asked and _by_script(request) else PAGE
    status = 422 if form.is_bound and not only_asked else 200
    context = {"form": form, "horse": whose}
    return render(request, f"starting/{page}.html", context, status=status)


def _by_script(request: HttpRequest) -> bool:
    """Return whether the page asks by itself, while somebody types."""
    return bool(getattr(request, "htmx", False))


def _write_in(request: YardRequest, form: FirstMeasurementForm) -> HttpResponse:
    """Save the height, say what was understood, go to the horse's page."""
    given = form.cleaned_data
    occasion = Occasion(on=given["on"], by=request.user)
    sizes, method = form.readings, given["method"]
    write_height(form.horse, sizes, method, occasion, given["token"])
    said = f"Written in: withers height {form.understood}."
    draft = f"first-measurement-{request.yard.slug}-{form.horse.key}"
    messages.success(request, said, extra_tags=draft)
    return redirect(form.horse)
