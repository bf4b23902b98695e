"""The diary: as list and as month, one entry, its ticks, as a calendar file."""

from __future__ import annotations

from dataclasses import replace
from typing import Final
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.text import slugify
from django.views.decorators.http import require_POST, require_safe

from fitting.middleware import YardRequest, helpers_may
from fitting.reads.horses import horse_head
from starting.dated import is_plain, read_month
from starting.feed import FeedOptions
from starting.forms.diary import DiaryForm
from starting.models import DiaryTick
from starting.reads import diary as reads
from starting.reads import diary_entry
from starting.writes import past as writes
from starting.writes import today_in
from starting.writes.calendar_files import calendar_body
from starting.writes.publish import published

FILE: Final = "text/calendar; charset=utf-8"


@require_safe
def diary(request: YardRequest, yard: str) -> HttpResponse:
    """Show the diary of the whole yard."""
    asked = _asked(request, request.GET.get("horse", ""))
    page = reads.diary_page(request.yard, asked)
    given = {"page": page, "form": DiaryForm(page=page), "head": None}
    return render(request, "starting/diary.html", given)


@require_safe
def horse_diary(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Show one horse's diary."""
    row = get_object_or_404(request.yard.horses, key=horse)
    asked = replace(_asked(request, row.key), of_horse=True)
    page = reads.diary_page(request.yard, asked)
    head = horse_head(row, today_in(request.yard))
    given = {"page": page, "form": DiaryForm(page=page), "head": head}
    return render(request, "starting/diary.html", given)


def _asked(request: YardRequest, horse: str) -> reads.Asked:
    """Return what is asked for; a kind that there is not is every kind."""
    today, kind = today_in(request.yard), request.GET.get("kind", "")
    return reads.Asked(
        month=read_month(request.GET.get("month", ""), today),
        today=today,
        as_month=request.GET.get("as") == "month",
        horse=horse,
        kind=kind if kind in reads.KINDS else "",
    )


@require_safe
def entry(request: YardRequest, yard: str, entry: UUID) -> HttpResponse:
    """Show one entry: why, what to bring, what makes it true."""
    found = _found(request, entry)
    page = diary_entry.entry_page(found, request.role, today_in(request.yard))
    given = {"page": page, "horse": found.horse, "number": entry}
    return render(request, "starting/diary_entry.html", given)


@require_safe
def entry_file(request: YardRequest, yard: str, entry: UUID) -> HttpResponse:
    """One entry as a calendar file, to keep as it is today."""
    found = _found(request, entry)
    revised = [one for one in published(request.yard) if one.uid == found.uid]
    if not revised:
        raise Http404("It has gone from the diary.")
    body = calendar_body(request.yard, revised, FeedOptions())
    return _file(body, f"{found.horse.key} {found.entry.kind} {found.entry.on}")


@require_safe
def diary_file(request: YardRequest, yard: str) -> HttpResponse:
    """The diary as a calendar file, to keep as it is today."""
    asked = _asked(request, request.GET.get("horse", ""))
    if asked.horse:
        get_object_or_404(request.yard.horses, key=asked.horse)
    options = FeedOptions(
        horses=(asked.horse,) if asked.horse else (),
        kinds=(asked.kind,) if asked.kind else (),
    )
    body = calendar_body(request.yard, published(request.yard), options)
    return _file(body, f"{asked.horse or request.yard.slug} {asked.today}")


def _file(body: bytes, name: str) -> HttpResponse:
    """Return a calendar file to be kept, never stored on the way."""
    headers = {
        "Content-Disposition": f'attachment; filename="{slugify(name)}.ics"',
        "Cache-Control": "private, no-store",
    }
    return HttpResponse(body, content_type=FILE, headers=headers)


@require_POST
@helpers_may
def tick(request: YardRequest, yard: str, entry: UUID) -> HttpResponse:
    """Tick a plain task, one that no record tells of."""
    found = _found(request, entry)
    if not is_plain(found.entry):
        messages.error(request, "Nothing is ticked here: write its record in instead.")
        return redirect("starting:diary-entry", yard, entry)
    who = request.user.get_full_name() or request.user.get_username()
    writes.tick(found.horse, found.entry, today_in(request.yard), who)
    messages.success(request, "Ticked off; it can be taken back here.")
    return redirect("starting:diary-entry", yard, entry)


@require_POST
@helpers_may
def take_back(request: YardRequest, yard: str, entry: UUID, pk: int) -> HttpResponse:
    """Take a tick back."""
    horse = _found(request, entry).horse
    writes.take_tick_back(get_object_or_404(DiaryTick, horse=horse, pk=pk))
    messages.success(request, "Taken back: it is asked again while it is of use.")
    if diary_entry.find(request.yard, entry) is None:
        return redirect("starting:diary", yard)
    return redirect("starting:diary-entry", yard, entry)


def _found(request: YardRequest, number: UUID) -> diary_entry.Found:
    found = diary_entry.find(request.yard, number)
    if found is None:
        raise Http404("No such entry stands in the diary.")
    return found
