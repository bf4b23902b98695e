"""The figures tack is judged by: those of the yard, and those of one horse."""

from __future__ import annotations

from functools import partial
from typing import Final

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from fitting.fit.edges import Group, group_by_key
from fitting.forms.room import RoomForm
from fitting.middleware import YardRequest, keepers_only
from fitting.reads.room import edits_of, room_page
from fitting.reads.today import today_in
from fitting.reads.whose import Whose
from fitting.writes.edges import (
    ChangedMeanwhileError,
    change_horse_edges,
    change_yard_edges,
)

FORM_METHODS: Final = ["GET", "HEAD", "POST"]
NAME_LONGEST: Final = 60


@keepers_only
@require_safe
def room(request: YardRequest, yard: str) -> HttpResponse:
    """List every figure that tack is judged by, with what it rests on."""
    page = room_page(Whose(yard=request.yard))
    return render(request, "fitting/room.html", {"page": page})


@keepers_only
@require_safe
def horse_room(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """List the figures for one horse, those that differ first."""
    whose = _horse(request, horse)
    context = {"page": room_page(whose), "horse": whose.horse}
    return render(request, "fitting/horse_room.html", context)


@keepers_only
@require_http_methods(FORM_METHODS)
def change_room(request: YardRequest, yard: str, group: str) -> HttpResponse:
    """Change one table of figures for the whole yard."""
    whose = Whose(yard=request.yard)
    return _change(request, whose, group, reverse("fitting:room", args=[yard]))


@keepers_only
@require_http_methods(FORM_METHODS)
def change_horse_room(
    request: YardRequest, yard: str, horse: str, group: str
) -> HttpResponse:
    """Change one table of figures for one horse."""
    back = reverse("fitting:horse-room", args=[yard, horse])
    return _change(request, _horse(request, horse), group, back)


def _horse(request: YardRequest, key: str) -> Whose:
    row = get_object_or_404(request.yard.horses, key=key)
    row.yard = request.yard
    return Whose(yard=request.yard, horse=row)


def _change(
    request: YardRequest, whose: Whose, group: str, listed: str
) -> HttpResponse:
    """Show and save the form of one table of figures."""
    table = group_by_key(group)
    if table is None or not table.may_change:
        raise Http404("There are no figures of that name to change.")
    form = RoomForm(request.POST or None, group=table, whose=whose)
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid() and _written(request, form, whose, listed):
        said = "Written in" if form.made else "Nothing was changed"
        draft = _draft(whose, table)
        messages.success(request, f"{said}: {table.what}.", extra_tags=draft)
        return redirect(listed)
    context = {
        "form": form,
        "group": table,
        "whose": whose,
        "draft": _draft(whose, table),
        "listed": listed,
        "edits": edits_of(whose, table.key),
    }
    status = 422 if form.is_bound else 200
    return render(request, "fitting/room_form.html", context, status=status)


def _draft(whose: Whose, table: Group) -> str:
    of = whose.horse.key if whose.horse else "yard"
    return f"room-{whose.yard.slug}-{of}-{table.key}"


def _written(request: YardRequest, form: RoomForm, whose: Whose, listed: str) -> bool:
    """Save the changes; somebody else may have been quicker."""
    changes = form.making(_name(request), today_in(request.yard))
    if not changes:
        return True
    write = (
        partial(change_horse_edges, whose.horse)
        if whose.horse
        else partial(change_yard_edges, whose.yard)
    )
    seen, token = whose.count, form.cleaned_data["token"]
    try:
        write(changes, seen=seen, token=token, led_to=listed)
    except ChangedMeanwhileError:
        whose.yard.refresh_from_db()
        if whose.horse:
            whose.horse.refresh_from_db()
        form.changed_meanwhile()
        return False
    return True


def _name(request: YardRequest) -> str:
    name = request.user.get_full_name() or request.user.get_username()
    return name[:NAME_LONGEST]
