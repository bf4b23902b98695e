"""The log: sessions written in, shown, corrected, deleted."""

from __future__ import annotations

from datetime import date

from django.contrib import messages
from django.http import Http404, HttpResponse, HttpResponseRedirect
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from fitting.middleware import YardRequest, helpers_may
from fitting.models import Horse
from fitting.reads.horses import horse_words
from starting.forms.log import SessionForm
from starting.models import OffWork, Session
from starting.reads import log as reads
from starting.reads.meaning import meaning
from starting.reads.next_session import next_page
from starting.reads.session import Offered, SessionPage, as_written, session_page
from starting.reads.step import stage_of
from starting.reads.steps import programme_for
from starting.writes import log as writes
from starting.writes import today_in

FORM_METHODS = ["GET", "HEAD", "POST"]


@require_http_methods(FORM_METHODS)
@helpers_may
def log_session(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Write up a session: of the step asked for, or of the one suggested."""
    row = get_object_or_404(request.yard.horses, key=horse)
    wanted = request.GET.get("step", "")
    page, offered, fits = session_page(row, wanted)
    if page is None or offered is None:
        raise Http404("A grown horse has no way up.")
    if not fits:
        return _no_sessions(request, row, wanted)
    session = Session(horse=row, stage=page.stage, who=offered.who)
    return _session(request, session, page, offered)


@require_http_methods(FORM_METHODS)
@helpers_may
def edit_session(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct a session; its step too."""
    row = get_object_or_404(request.yard.horses, key=horse)
    session = get_object_or_404(row.sessions, pk=pk)
    wanted = request.GET.get("step", session.stage)
    page, offered, fits = session_page(row, wanted)
    if page is None or offered is None:
        raise Http404("A grown horse has no way up.")
    if not fits:
        messages.warning(request, "The step it was of is not on the way up any more.")
    session.stage = page.stage
    return _session(request, session, page, as_written(offered, session))


def _session(
    request: YardRequest, session: Session, page: SessionPage, offered: Offered
) -> HttpResponse:
    off_before = writes.off_work_by(session) if session.pk else None
    today = today_in(request.yard)
    form = SessionForm(
        request.POST or None, instance=session, offered=offered, today=today
    )
    before = form.written_before(request.yard) if form.is_bound else None
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        return _written(request, form, off_before)
    given = {"page": page, "form": form, "draft": _draft(session)}
    given["kept"] = session.pk
    status = 422 if form.is_bound else 200
    return render(request, "starting/session.html", given, status=status)


def _written(
    request: YardRequest, form: SessionForm, off_before: OffWork | None
) -> HttpResponseRedirect:
    """Save the session; say what it means, and what it led to."""
    session, draft = form.instance, _draft(form.instance)
    horse = session.horse
    at = [request.yard.slug, horse.key]
    there = reverse("starting:step", args=[*at, session.stage])
    if not session.pk:
        session.written_by = request.user
        there = reverse("starting:next-session", args=at)
    done = writes.write_session(
        session,
        form.worn,
        form.cleaned_data["token"],
        there,
        bitted="fit:bit" in form.offered.stage.gates_to_do,
    )
    programme = programme_for(horse)
    stage = stage_of(programme, session.stage)
    if programme is not None and stage is not None:
        means = meaning(session, stage, programme)
        messages.success(request, means.said, extra_tags=draft)
        for said in (*means.warned, *_led_to(horse, session, done, off_before)):
            messages.warning(request, said)
    return redirect(there)


def _led_to(
    horse: Horse, session: Session, done: writes.Done, off_before: OffWork | None
) -> list[str]:
    said = [
        f"First worn: {kind}, noted for {_day(session.on)}." for kind in done.first_worn
    ]
    if done.put_off_work:
        said.append(
            f"Ring the vet. {horse.name} is off work from {_day(session.on)} until the"
            " vet clears it; see Care."
        )
    elif session.stop_level == writes.RING_VET:
        said.append(f"Ring the vet. {horse.name} is off work already; see Care.")
    elif off_before is not None:
        said.append(f"{_stays(horse, off_before)} End it under Care if it was a slip.")
    return said


def _stays(horse: Horse, off: OffWork) -> str:
    return f"{horse.name} stays off work from {_day(off.start)}: {off.why}."


@require_safe
def next_session(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Show what the next session may be: how long, one new thing, what to wear."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = next_page(row, today_in(request.yard))
    if page is None:
        raise Http404("A grown horse has no way up.")
    return render(request, "starting/next_session.html", {"page": page})


@require_safe
def sessions(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Show the sessions of a horse, newest first, by month."""
    row = get_object_or_404(request.yard.horses, key=horse)
    programme = programme_for(row)
    kind = horse_words(row, today_in(request.yard))
    page = reads.sessions_page(row, programme, kind, request.GET.get("page", "1"))
    return render(request, "starting/sessions.html", {"page": page})


@require_http_methods(FORM_METHODS)
@helpers_may
def delete_session(
    request: YardRequest, yard: str, horse: str, pk: int
) -> HttpResponse:
    """Delete a session; ask once, and say what stays."""
    row = get_object_or_404(request.yard.horses, key=horse)
    session = get_object_or_404(row.sessions.prefetch_related("worn"), pk=pk)
    off = writes.off_work_by(session)
    programme = programme_for(row)
    if request.method == "POST":
        writes.delete_session(session)
        messages.success(request, f"Deleted: the session of {_day(session.on)}.")
        if off is not None:
            messages.warning(request, f"{_stays(row, off)} End it under Care.")
        return redirect("starting:sessions", yard, horse)
    (shown,) = reads.session_rows([session], programme)
    given = {
        "session": shown,
        "horse": row.name,
        "key": horse,
        "off": _stays(row, off) if off else "",
        "worn": row.first_worn.filter(on=session.on).exists(),
    }
    return render(request, "starting/delete_session.html", given)


def _no_sessions(request: YardRequest, horse: Horse, wanted: str) -> HttpResponse:
    """Lead to where a step without sessions is written in, or to the choice."""
    programme = programme_for(horse)
    stage = stage_of(programme, wanted)
    if stage is None:
        raise Http404("The way up has no such step.")
    at = [request.yard.slug, horse.key]
    if request.role == "keeper":
        return redirect("starting:record-step", *at, wanted)
    messages.info(request, f"{stage.name} is written in by the keeper.")
    return redirect("starting:step", *at, wanted)


def _draft(session: Session) -> str:
    """Return the name under which a phone keeps what is not yet written in."""
    horse = session.horse
    at = f"{horse.yard.slug}-{horse.key}"
    return f"session-{session.pk}" if session.pk else f"session-{at}-{session.stage}"


def _day(on: date) -> str:
    return f"{on.day} {on:%b %Y}"
