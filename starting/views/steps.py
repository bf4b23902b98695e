"""The way up: steps, what each needs first, steps set by hand."""

from __future__ import annotations

from django.contrib import messages
from django.forms import Form
from django.http import Http404, HttpResponse, HttpResponseRedirect
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from fitting.forms import OnceForm
from fitting.middleware import YardRequest, keepers_only
from fitting.models import Horse
from starting.forms.steps import HistoryForm, PlanForm, RecordForm, WentAheadForm
from starting.models import Plan, StageRecord, WentAhead
from starting.programme import Stage
from starting.reads import setting as settings
from starting.reads import step as reads_step
from starting.reads import steps as reads
from starting.reads.card import card_page
from starting.reads.facts import programme_of
from starting.writes import steps as writes
from starting.writes import today_in

FORM_METHODS = ["GET", "HEAD", "POST"]


@require_safe
def steps(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Show the way up of one horse; ``?upto=`` leads to setting many steps."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = reads.steps_page(row, today_in(request.yard))
    upto = request.GET.get("upto", "")
    if upto in dict(page.settable):
        there = reverse("starting:record-step", args=[yard, horse, upto])
        return redirect(f"{there}?before=1")
    return render(request, "starting/steps.html", {"page": page})


@require_http_methods(FORM_METHODS)
@keepers_only
def edit_plan(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Change how the horse is brought on."""
    row = get_object_or_404(request.yard.horses, key=horse)
    plan = get_object_or_404(
        Plan.objects.select_related("programme", "horse__yard"), horse=row
    )
    programme = programme_of(plan.programme)
    form = PlanForm(request.POST or None, instance=plan, programme=programme)
    there = reverse("starting:steps", args=[yard, horse])
    if before := _before(request, form):
        return before
    if form.is_valid():
        writes.change_plan(plan, form.cleaned_data["token"], there)
        messages.success(request, f"Written in: the plan for {row.name}.")
        return redirect(there)
    given = {"form": form, "horse": row.name, "key": horse, "programme": programme.name}
    return _render(request, "starting/edit_plan.html", form, given)


@require_safe
def step(request: YardRequest, yard: str, horse: str, stage: str) -> HttpResponse:
    """Show one step: what she needs first, its ticks, its signs to stop."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = reads_step.step_page(row, stage, request.role, today_in(request.yard))
    if page is None:
        raise Http404("The way up has no such step.")
    return render(request, "starting/step.html", {"page": page})


@require_safe
def step_card(request: YardRequest, yard: str, horse: str, stage: str) -> HttpResponse:
    """Show the card of one step, to print on one sheet and take along."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = card_page(row, stage, today_in(request.yard))
    if page is None:
        raise Http404("The way up has no such step.")
    return render(request, "starting/step_card.html", {"page": page})


@require_http_methods(FORM_METHODS)
@keepers_only
def record_step(
    request: YardRequest, yard: str, horse: str, stage: str
) -> HttpResponse:
    """Set a step by hand, or undo it; ``?before=1``: with the steps before it."""
    row = get_object_or_404(request.yard.horses, key=horse)
    one, upto = settings.steps_upto(row, stage)
    if one is None:
        raise Http404("The way up has no such step.")
    if "before" in request.GET and upto:
        return _set_many(request, row, one, upto)
    record = row.stage_records.filter(stage=stage).first()
    if record and {"undo", "undo_all"} & set(request.POST):
        return _undo(request, record, one)
    return _set_one(request, record or StageRecord(horse=row, stage=stage), one)


def _set_one(request: YardRequest, record: StageRecord, stage: Stage) -> HttpResponse:
    form = RecordForm(
        request.POST or None, instance=record, today=today_in(request.yard)
    )
    there = _step_page(record.horse, stage.key)
    if before := _before(request, form):
        return before
    if form.is_valid():
        writes.set_step(record, form.cleaned_data["token"], there)
        said = record.get_state_display()
        messages.success(request, f"Written in: {stage.name}, {said}.")
        return redirect(there)
    given = settings.record_page(record, stage)
    return _render(request, "starting/record_step.html", form, {"page": given})


def _set_many(
    request: YardRequest, horse: Horse, stage: Stage, upto: tuple[Stage, ...]
) -> HttpResponse:
    form = HistoryForm(
        request.POST or None, horse=horse, upto=upto, today=today_in(request.yard)
    )
    there = reverse("starting:steps", args=[request.yard.slug, horse.key])
    if before := _before(request, form):
        return before
    if form.is_valid():
        said = form.cleaned_data
        many = writes.set_steps(
            horse, said["stages"], said["on"], said["note"], said["token"], there
        )
        plural = "step" if many == 1 else "steps"
        messages.success(request, f"Written in: {many} {plural}, established.")
        return redirect(there)
    given = {"horse": horse.name, "key": horse.key, "she": horse.she, "upto": stage}
    return _render(request, "starting/came_with.html", form, given)


def _undo(request: YardRequest, record: StageRecord, stage: Stage) -> HttpResponse:
    many = writes.undo_step(record, all_of_that_day="undo_all" in request.POST)
    more = f", and {many - 1} more" if many > 1 else ""
    messages.success(request, f"Taken back: {stage.name}{more}.")
    return redirect(_step_page(record.horse, stage.key))


@require_http_methods(FORM_METHODS)
@keepers_only
def went_ahead(
    request: YardRequest, yard: str, horse: str, stage: str, gate: str
) -> HttpResponse:
    """Pass a caution with a written reason, change the reason, or take it back."""
    row = get_object_or_404(request.yard.horses, key=horse)
    kept = row.went_ahead.filter(stage=stage, gate=gate).first()
    page = settings.ahead_page(row, stage, gate)
    there = _step_page(row, stage)
    if kept and "take_back" in request.POST:
        writes.take_back(kept)
        messages.success(request, "Taken back: the caution counts again.")
        return redirect(there)
    if page is None or not (page.may_pass or kept):
        raise Http404("Nothing can be passed here with a reason.")
    kept = kept or WentAhead(horse=row, stage=stage, gate=gate, who=_name(request))
    form = WentAheadForm(
        request.POST or None,
        instance=kept,
        today=today_in(request.yard),
        counts=page.counts,
    )
    if before := _before(request, form):
        return before
    if form.is_valid():
        writes.go_ahead(kept, form.cleaned_data["token"], there)
        messages.success(request, f"Written in: went ahead past {page.name}.")
        return redirect(there)
    given = {"page": page, "kept": bool(kept.pk)}
    return _render(request, "starting/went_ahead.html", form, given)


def _name(request: YardRequest) -> str:
    return (request.user.get_full_name() or request.user.get_username())[:60]


def _step_page(horse: Horse, stage: str) -> str:
    return reverse("starting:step", args=[horse.yard.slug, horse.key, stage])


def _before(request: YardRequest, form: OnceForm) -> HttpResponseRedirect | None:
    """Return where the very same form led when it was saved already."""
    before = form.written_before(request.yard) if form.is_bound else None
    return redirect(before.led_to) if before else None


def _render(
    request: YardRequest, name: str, form: Form, given: dict[str, object]
) -> HttpResponse:
    status = 422 if form.is_bound else 200
    return render(request, name, {**given, "form": form}, status=status)
