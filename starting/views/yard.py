"""The yard day by day: today, what to write, the plan."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from fitting.middleware import YardRequest, helpers_may
from starting.reads import moved
from starting.reads import yard as reads
from starting.writes import today_in


@require_safe
def today(request: YardRequest, yard: str) -> HttpResponse:
    """Show what each horse can do today, and what is due this week."""
    page = reads.today_page(request.yard, today_in(request.yard))
    return render(request, "starting/today.html", {"page": page})


@require_safe
@helpers_may
def write(request: YardRequest, yard: str) -> HttpResponse:
    """Show the five things to write down, for each horse."""
    horses = reads.horse_names(request.yard)
    return render(request, "starting/write.html", {"horses": horses})


@require_safe
def plan(request: YardRequest, yard: str) -> HttpResponse:
    """Show the steps ahead of every youngster, with their days."""
    horses = reads.plan_page(request.yard)
    lately = moved.lately(request.yard, today_in(request.yard))
    context = {"horses": horses, "lately": lately}
    return render(request, "starting/plan.html", context)
