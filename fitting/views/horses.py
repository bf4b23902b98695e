"""The horses of the yard, and the body of one."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from fitting.forms.asked import DayForm, PassForm
from fitting.forms.base import OnceForm
from fitting.forms.horses import HorseForm
from fitting.middleware import YardRequest, keepers_only
from fitting.models import Horse
from fitting.reads import body
from fitting.reads import horses as reads
from fitting.reads.today import today_in
from fitting.writes import horses as writes

FORM_METHODS = ["GET", "HEAD", "POST"]


@require_safe
def horses(request: YardRequest, yard: str) -> HttpResponse:
    """The yard's horses."""
    page = reads.horses_page(request.yard, today_in(request.yard))
    return render(request, "fitting/horses.html", {"page": page})


@keepers_only
@require_http_methods(FORM_METHODS)
def add_horse(request: YardRequest, yard: str) -> HttpResponse:
    """Add a horse."""
    today = today_in(request.yard)
    form = HorseForm(
        request.POST or None, instance=Horse(), yard=request.yard, today=today
    )
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        added = writes.add_horse(form.instance, form.cleaned_data["token"])
        messages.success(request, f"Written in: {added}. Measure next.")
        return redirect(added)
    status = 422 if form.is_bound else 200
    return render(request, "fitting/add_horse.html", {"form": form}, status=status)


@require_safe
def horse(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """One horse: its body."""
    row = get_object_or_404(request.yard.horses, key=horse)
    today = today_in(request.yard)
    passes = PassForm(request.GET if "limit" in request.GET else None, horse=row)
    day = DayForm(request.GET if "day" in request.GET else None, horse=row, today=today)
    page = body.body_page(row, today, _asked(request, passes, day))
    context = {"page": page, "may_write": request.role != "viewer"}
    context |= {"may_edit": request.role == "keeper", "passes": passes, "day": day}
    status = 422 if passes.errors or day.errors else 200
    return render(request, "fitting/horse.html", context, status=status)


def _asked(request: YardRequest, passes: PassForm, day: DayForm) -> body.Asked:
    """Return what the address asks of the body page, as far as it can be read."""
    limit = passes.reading if passes.is_asked else None
    return body.Asked(
        all_charts="more" in request.GET,
        limit=(passes.cleaned_data["measure"], limit.value) if limit else None,
        day=day.cleaned_data["day"] if day.is_asked else None,
    )


@keepers_only
@require_http_methods(FORM_METHODS)
def edit_horse(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Correct a horse."""
    row = get_object_or_404(request.yard.horses, key=horse)
    name, today = row.name, today_in(request.yard)
    form = HorseForm(request.POST or None, instance=row, yard=request.yard, today=today)
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        writes.correct_horse(form.instance, form.cleaned_data["token"])
        messages.success(request, f"Written in: {form.instance}.")
        return redirect(form.instance)
    context = {"form": form, "name": name, "key": horse}
    status = 422 if form.is_bound else 200
    return render(request, "fitting/edit_horse.html", context, status=status)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_horse(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Delete a horse, once asked."""
    row = get_object_or_404(request.yard.horses, key=horse)
    if request.method == "POST":
        name = row.name
        writes.delete_horse(row)
        messages.success(request, f"{name} is deleted, with all that was written.")
        return redirect("fitting:horses", yard)
    context = {"horse": row, "goes": reads.goes_with(row), "form": OnceForm()}
    return render(request, "fitting/delete_horse.html", context)
