"""Measuring: one walk round the horse, and what was written before."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from fitting.changes import changes, size_changes
from fitting.forms.base import OnceForm
from fitting.forms.measure import MeasureForm, MeasurementForm
from fitting.looks import Seen
from fitting.middleware import YardRequest, helpers_may
from fitting.models import Horse, Measurement
from fitting.reads import measure as reads
from fitting.reads import sheet
from fitting.reads.foresee import foreseen
from fitting.reads.horses import horse_head
from fitting.reads.outlook import seen_of
from fitting.reads.to_measure import to_measure
from fitting.reads.today import today_in
from fitting.reads.units import units_of
from fitting.writes import measure as writes

FORM_METHODS = ["GET", "HEAD", "POST"]


@helpers_may
@require_http_methods(FORM_METHODS)
def measure(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Measure a horse."""
    whose = get_object_or_404(request.yard.horses, key=horse)
    today = today_in(request.yard)
    plan = to_measure(whose, today, request.GET.getlist("measure"))
    form = MeasureForm(request.POST or None, horse=whose, today=today, plan=plan)
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    only_asked = "check" in request.POST
    if form.is_valid() and not only_asked:
        return _write_in(request, form)
    context = {"form": form, "horse": whose, "plan": plan, "only_asked": only_asked}
    if only_asked:
        context["foreseen"] = foreseen(whose, plan.seen, form.understood, today)
    status = 422 if form.is_bound and not only_asked else 200
    return render(request, "fitting/measure.html", context, status=status)


def _write_in(request: YardRequest, form: MeasureForm) -> HttpResponse:
    """Save all that was measured; say what was understood and what it changes."""
    horse = form.horse
    before = form.plan.seen
    token = form.cleaned_data["token"]
    writes.write_measurements(horse, form.taken, form.occasion(request.user), token)
    said = " ".join(f"{a.asked.title} {a.said} {a.since}".strip() for a in form.filled)
    messages.success(request, said, extra_tags=form.draft)
    after = seen_of(Horse.objects.get(pk=horse.pk))
    for change in _changes(form, before, after):
        messages.info(request, change)
    return redirect(horse)


def _changes(
    form: MeasureForm, before: Seen | None, after: Seen | None
) -> tuple[str, ...]:
    """Return what the measurements changed, the tack first."""
    if before is None or after is None:
        return ()
    keys = [ask.measure.key for ask in form.filled]
    horse = form.horse
    units = units_of(horse.yard)
    sizes = size_changes(before, after, keys, units, grown=horse.grown)
    tack = changes(before, after, units.length)
    return (*tack, *filter(None, [" ".join(sizes)]))


@require_safe
def measure_sheet(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """A sheet to measure one horse by, to print and fill in by hand."""
    whose = get_object_or_404(request.yard.horses, key=horse)
    every, today = "all" in request.GET, today_in(request.yard)
    wanted = request.GET.getlist("measure")
    context = {
        "sheets": [sheet.sheet_of(whose, today, every=every, wanted=wanted)],
        "horse": whose,
        "every": every,
        "today": today,
        "bare": sheet.bare_words(request.yard),
    }
    return render(request, "fitting/measure_sheet.html", context)


@require_safe
def measure_sheets(request: YardRequest, yard: str) -> HttpResponse:
    """A sheet for every youngster of the yard, a page each."""
    every, today = "all" in request.GET, today_in(request.yard)
    context = {
        "sheets": sheet.sheets(request.yard, today, every=every),
        "every": every,
        "today": today,
        "bare": sheet.bare_words(request.yard),
    }
    return render(request, "fitting/measure_sheet.html", context)


@require_safe
def measured(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """All that was measured."""
    whose = get_object_or_404(request.yard.horses, key=horse)
    context = {
        "head": horse_head(whose, today_in(request.yard)),
        "days": reads.measured_days(whose),
        "may_write": request.role != "viewer",
    }
    return render(request, "fitting/measured.html", context)


@helpers_may
@require_http_methods(FORM_METHODS)
def edit_measurement(
    request: YardRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Correct or strike out a measurement."""
    row = _row(request, horse, pk)
    today = today_in(request.yard)
    form = MeasurementForm(request.POST or None, instance=row, today=today)
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        onward = reverse("fitting:measured", args=[yard, horse])
        writes.correct_measurement(row, form.cleaned_data["token"], onward)
        messages.success(request, f"{row.name.capitalize()}: {form.said}")
        return redirect(onward)
    shown = reads.measured_row(Measurement.objects.get(pk=pk), units_of(request.yard))
    context = {"form": form, "row": shown, "horse": row.horse}
    context["edits"] = reads.edits_of(row)
    status = 422 if form.is_bound else 200
    return render(request, "fitting/edit_measurement.html", context, status=status)


@helpers_may
@require_http_methods(FORM_METHODS)
def delete_measurement(
    request: YardRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Delete a measurement, once asked."""
    row = _row(request, horse, pk)
    if request.method == "POST":
        writes.delete_measurement(row)
        messages.success(request, f"{row.name.capitalize()} of {row.on} is deleted.")
        return redirect("fitting:measured", yard, horse)
    shown = reads.measured_row(row, units_of(request.yard))
    context = {"row": shown, "on": row.on, "horse": row.horse, "form": OnceForm()}
    return render(request, "fitting/delete_measurement.html", context)


def _row(request: YardRequest, horse: str, pk: int) -> Measurement:
    """Return the measurement of the address."""
    rows = Measurement.objects.of(request.yard).select_related("horse__yard")
    return get_object_or_404(rows, pk=pk, horse__key=horse)
