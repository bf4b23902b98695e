"""Programmes: the list, one to read and print, a yard's own copies and changes."""

from __future__ import annotations

from collections.abc import Mapping

from django.contrib import messages
from django.forms import Form
from django.http import Http404, HttpResponse, HttpResponseRedirect
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from fitting.forms import OnceForm
from fitting.middleware import YardRequest, keepers_only
from starting.forms.programmes import CopyForm, StepForm, WhyForm
from starting.models import ProgrammeVersion
from starting.programme import shipped_table
from starting.programme.editing import Tried, put_back, step_changed, taken_out
from starting.programme.tables import Table, table_of
from starting.reads import programmes as reads
from starting.writes import programmes as writes

FORM_METHODS = ["GET", "HEAD", "POST"]


@require_safe
def programmes(request: YardRequest, yard: str) -> HttpResponse:
    """Show every programme a horse can follow."""
    page = reads.programmes_page(request.yard)
    return render(request, "starting/programmes.html", {"page": page})


@require_safe
def programme(request: YardRequest, yard: str, programme: str) -> HttpResponse:
    """Show one programme, to read and to print."""
    page = reads.programme_page(request.yard, found(request, programme))
    return render(request, "starting/programme.html", {"page": page})


@require_safe
def versions(request: YardRequest, yard: str, programme: str) -> HttpResponse:
    """Show a yard's own programme in all its versions."""
    row = own(request, programme)
    given = {"rows": reads.versions_page(request.yard, row), "name": row.name}
    return render(request, "starting/programme_versions.html", given)


@require_http_methods(FORM_METHODS)
@keepers_only
def copy_programme(request: YardRequest, yard: str, programme: str) -> HttpResponse:
    """Make a copy of the yard's own, to change."""
    base = found(request, programme)
    form = CopyForm(request.POST or None, yard=request.yard)
    if before := written(request, form):
        return before
    if form.is_valid():
        said = form.cleaned_data
        row = writes.copy_programme(
            request.yard, base, said["name"], said["why"], who(request), said["token"]
        )
        messages.success(request, f"Written in: {row.name}. Change it step by step.")
        return redirect(row)
    given = {"name": base.name, "ref": programme}
    return drawn(request, "starting/copy_programme.html", form, given)


@require_http_methods(FORM_METHODS)
@keepers_only
def change_step(
    request: YardRequest, yard: str, programme: str, stage: str
) -> HttpResponse:
    """Change one step of a yard's own programme: a new version."""
    row = own(request, programme)
    table = table_of(row.text)
    step = step_of(table, stage)
    form = StepForm(request.POST or None, step=step, steps=table["stage"])
    if before := written(request, form):
        return before
    if form.is_valid():
        base, fields = shipped_table(row.key), form.changed_fields()
        tried = step_changed(base, table, stage, fields)
        form.refuse(tried.faults)
        said = f"{step['name']}, changed"
        if not tried.faults and (done := saved(request, row, tried, form, said)):
            return done
    given = {"name": row.name, "ref": programme, "step": step}
    return drawn(request, "starting/programme_step.html", form, given)


@require_http_methods(FORM_METHODS)
@keepers_only
def take_or_put(
    request: YardRequest, yard: str, programme: str, stage: str
) -> HttpResponse:
    """Take a step out of a yard's own programme, or put it back."""
    row = own(request, programme)
    base, table = shipped_table(row.key), table_of(row.text)
    step, there = step_of(base, stage), stage in keys_of(table)
    tried = (taken_out if there else put_back)(base, table, stage)
    form = WhyForm(request.POST or None)
    if before := written(request, form):
        return before
    if form.is_valid() and not tried.faults:
        said = f"{step['name']}, {'taken out' if there else 'put back'}"
        if done := saved(request, row, tried, form, said):
            return done
    given = {"name": row.name, "ref": programme, "step": step, "there": there}
    given |= {"faults": tried.faults, "waiting": waiting(table, stage)}
    return drawn(request, "starting/programme_step_out.html", form, given)


@require_http_methods(FORM_METHODS)
@keepers_only
def delete_programme(request: YardRequest, yard: str, programme: str) -> HttpResponse:
    """Take away the newest version, where no horse follows it."""
    row = own(request, programme)
    page = reads.programme_page(request.yard, row)
    if request.method == "POST" and page.may_delete:
        writes.delete_version(row)
        messages.success(
            request, f"Taken away: {row.name}, version {page.row.version}."
        )
        return redirect("starting:programmes", yard)
    status = 422 if request.method == "POST" else 200
    name = "starting/delete_programme.html"
    return render(request, name, {"page": page}, status=status)


def found(request: YardRequest, ref: str) -> ProgrammeVersion:
    """Return the programme an address names, or answer that there is none."""
    row = reads.find(request.yard, ref)
    if row is None:
        raise Http404("There is no such programme here.")
    return row


def own(request: YardRequest, ref: str) -> ProgrammeVersion:
    """Return a version of the yard's own that an address names."""
    row = found(request, ref)
    if row.yard_id is None:
        raise Http404("That programme is shipped: make a copy of your own first.")
    return row


def keys_of(table: Table) -> list[str]:
    """Return the keys of a programme's steps."""
    return [step["key"] for step in table["stage"]]


def step_of(table: Table, key: str) -> Table:
    """Return one step of a programme, or answer that there is none."""
    for step in table["stage"]:
        if step["key"] == key:
            return dict(step)
    raise Http404("The programme has no such step.")


def waiting(table: Table, key: str) -> list[str]:
    """Return the names of the steps that wait for one."""
    return [s["name"] for s in table["stage"] if key in s["prerequisites"]]


def who(request: YardRequest) -> str:
    """Return the name of whoever writes."""
    return (request.user.get_full_name() or request.user.get_username())[:60]


def saved(
    request: YardRequest,
    row: ProgrammeVersion,
    tried: Tried,
    form: OnceForm,
    said: str,
) -> HttpResponse | None:
    """Save a new version and show it; None: somebody was quicker, and who is said."""
    why, token = form.cleaned_data["why"], form.cleaned_data["token"]
    try:
        new = writes.save_version(row, tried.text, why, who(request), token)
    except writes.NewerVersionError:
        newest = reads.newest_of(row)
        form.add_error(
            None,
            f"There is a newer version, by {newest.made_by or 'somebody'}:"
            f" {newest.what_changed} Yours is kept below; change the newest one.",
        )
        return None
    moved = "Horses stay on the version they have until you move them."
    messages.success(request, f"Written in: {said}. {moved}")
    return redirect(new)


def written(request: YardRequest, form: OnceForm) -> HttpResponseRedirect | None:
    """Return where the very same form led when it was saved already."""
    before = form.written_before(request.yard) if form.is_bound else None
    return redirect(before.led_to) if before else None


def drawn(
    request: YardRequest, name: str, form: Form, given: Mapping[str, object]
) -> HttpResponse:
    """Return a form's page; 422 where something in it was refused."""
    status = 422 if form.is_bound else 200
    return render(request, name, {**given, "form": form}, status=status)
