"""Care visits, rests, off work, incidents: one page, and four kinds of record."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, cast

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from fitting.middleware import YardRequest, keepers_only
from starting.forms.care import (
    CareRowForm,
    IncidentForm,
    OffWorkForm,
    RestForm,
    VisitForm,
)
from starting.models import CareVisit, Incident, OffWork, Rest
from starting.models.care import CareRow
from starting.reads import care as reads
from starting.views.first_visit import FORM_METHODS, typed
from starting.writes import care as writes
from starting.writes import today_in


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A kind of record: its model and form, where it lies, what it is called."""

    name: str
    model: type[CareRow]
    form: type[CareRowForm]
    day: str  # the field that today fills in
    add: str
    correct: str
    note: str = ""


CARE: Final = Kind(
    name="care",
    model=CareVisit,
    form=VisitForm,
    day="on",
    add="a visit",
    correct="correct a visit",
    note="Their dates come first, and the plan moves round them. No doses here: for"
    " worming and vaccination follow the product and your vet.",
)
REST: Final = Kind(
    name="rest",
    model=Rest,
    form=RestForm,
    day="start",
    add="turned away",
    correct="correct a rest",
    note="Nothing is planned inside a rest; both days belong to it.",
)
OFF_WORK: Final = Kind(
    name="off-work",
    model=OffWork,
    form=OffWorkForm,
    day="start",
    add="off work",
    correct="correct or clear off work",
    note="Lame, sore, losing weight or not itself: stop, and ring your vet.",
)
INCIDENT: Final = Kind(
    name="incident",
    model=Incident,
    form=IncidentForm,
    day="on",
    add="an incident",
    correct="correct an incident",
    note="If the horse is hurt or lame: ring your vet first, and write it off work.",
)


@require_safe
def care(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Care, rests and off work of one horse."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = reads.care_page(row, today_in(request.yard))
    return render(request, "starting/care.html", {"page": page})


@keepers_only
@require_http_methods(FORM_METHODS)
def add_care(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Write in a care visit."""
    return _add(request, CARE, horse)


@keepers_only
@require_http_methods(FORM_METHODS)
def edit_care(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct a care visit."""
    return _edit(request, CARE, horse, pk)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_care(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Delete a care visit."""
    return _delete(request, CARE, horse, pk)


@keepers_only
@require_http_methods(FORM_METHODS)
def add_rest(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Turn a horse away."""
    return _add(request, REST, horse)


@keepers_only
@require_http_methods(FORM_METHODS)
def edit_rest(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct a rest."""
    return _edit(request, REST, horse, pk)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_rest(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Delete a rest."""
    return _delete(request, REST, horse, pk)


@keepers_only
@require_http_methods(FORM_METHODS)
def add_off_work(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Take a horse off work."""
    return _add(request, OFF_WORK, horse)


@keepers_only
@require_http_methods(FORM_METHODS)
def edit_off_work(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct or clear off work."""
    return _edit(request, OFF_WORK, horse, pk)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_off_work(
    request: YardRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Delete off work."""
    return _delete(request, OFF_WORK, horse, pk)


@keepers_only
@require_http_methods(FORM_METHODS)
def add_incident(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Write in an incident."""
    return _add(request, INCIDENT, horse)


@keepers_only
@require_http_methods(FORM_METHODS)
def edit_incident(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct an incident."""
    return _edit(request, INCIDENT, horse, pk)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_incident(
    request: YardRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Delete an incident."""
    return _delete(request, INCIDENT, horse, pk)


def _add(request: YardRequest, kind: Kind, horse: str) -> HttpResponse:
    row = kind.model(horse=get_object_or_404(request.yard.horses, key=horse))
    return _write(request, kind, row, kind.add)


def _edit(request: YardRequest, kind: Kind, horse: str, pk: int) -> HttpResponse:
    return _write(request, kind, _row(request, kind, horse, pk), kind.correct)


def _row(request: YardRequest, kind: Kind, horse: str, pk: int) -> CareRow:
    """Return a record of a horse of this yard, or nothing is there."""
    owner = get_object_or_404(request.yard.horses, key=horse)
    row = cast("CareRow", get_object_or_404(kind.model, horse=owner, pk=pk))
    row.horse = owner
    return row


def _write(request: YardRequest, kind: Kind, row: CareRow, title: str) -> HttpResponse:
    """Show and save the form of one record."""
    on, listed = today_in(request.yard), _listed(row)
    draft = f"{request.yard.slug}-{kind.name}-{row.horse.key}-{row.pk or 'new'}"
    form = kind.form(
        typed(request), instance=row, today=on, initial=_initial(request, kind, row)
    )
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        writes.write_in(form.instance, form.cleaned_data["token"], listed)
        said = reads.said_of(form.instance, on)
        messages.success(request, said, extra_tags=draft)
        return redirect(listed)
    given = {"form": form, "title": title, "kind": kind, "draft": draft}
    given |= {
        "horse": row.horse,
        "pk": row.pk,
        "delete": f"starting:delete-{kind.name}",
    }
    status = 422 if form.is_bound else 200
    return render(request, "starting/care_form.html", given, status=status)


def _initial(request: YardRequest, kind: Kind, row: CareRow) -> dict[str, object]:
    """Return what a new record starts from: today, and the kind that was asked for."""
    if row.pk:
        return {}
    asked = request.GET.get("kind", "")
    known = asked in CareVisit.Kind.values and kind is CARE
    return {kind.day: today_in(request.yard)} | ({"kind": asked} if known else {})


def _delete(request: YardRequest, kind: Kind, horse: str, pk: int) -> HttpResponse:
    row = _row(request, kind, horse, pk)
    shown = reads.row_of(row)
    listed = _listed(row)
    if request.method == "POST":
        writes.delete(row)
        messages.success(request, f"Deleted: {shown.title}.")
        return redirect(listed)
    given = {
        "row": shown,
        "horse": row.horse,
        "goes_with": reads.goes_with(row, today_in(request.yard)),
    }
    return render(request, "starting/care_delete.html", given)


def _listed(row: CareRow) -> str:
    """Return the address of the page that lists the horse's records."""
    return reverse("starting:care", args=[row.horse.yard.slug, row.horse.key])
