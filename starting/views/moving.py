"""By which programme a horse is brought on: chosen, seen beforehand, moved."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from fitting.middleware import YardRequest, keepers_only
from starting.forms.programmes import MoveForm
from starting.models import Plan
from starting.reads import moving as reads
from starting.reads.facts import programme_of
from starting.views.programmes import FORM_METHODS, drawn, found, written
from starting.writes import programmes as writes
from starting.writes import today_in


@require_http_methods(FORM_METHODS)
@keepers_only
def choose_programme(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Choose by which programme a horse is brought on, or keep the one it has."""
    plan = _plan(request, horse)
    if request.method == "POST":
        writes.keep_programme(plan)
        messages.success(
            request, f"{plan.horse.name} stays with {plan.programme.name}."
        )
        return redirect("starting:steps", yard, horse)
    page = reads.choose_page(plan.horse, plan, today_in(request.yard))
    return render(request, "starting/choose_programme.html", {"page": page})


@require_http_methods(FORM_METHODS)
@keepers_only
def move_to(
    request: YardRequest, yard: str, horse: str, programme: str
) -> HttpResponse:
    """Show what another programme would change for a horse; move it there."""
    plan, version = _plan(request, horse), found(request, programme)
    today = today_in(request.yard)
    there = reverse("starting:steps", args=[yard, horse])
    new = programme_of(version)
    form = MoveForm(
        request.POST or None,
        instance=plan,
        today=today,
        settle_days=new.settle_days,
    )
    if before := written(request, form):
        return before
    if form.is_valid():
        kept = reads.kept_by(plan.horse, plan, version, today)
        settling, token = form.settling(), form.cleaned_data["token"]
        writes.move_horse(plan, version, kept, settling, token, there)
        said = f"Written in: {plan.horse.name} goes by {new.name}."
        messages.success(request, said)
        return redirect(there)
    page = reads.move_page(plan.horse, plan, version, today)
    return drawn(request, "starting/move_programme.html", form, {"page": page})


def _plan(request: YardRequest, horse: str) -> Plan:
    rows = Plan.objects.select_related("programme", "horse__yard")
    return get_object_or_404(
        rows, horse__yard=request.yard, horse__key=horse, horse__grown=False
    )
