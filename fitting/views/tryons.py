"""Trying on: what was seen, part by part."""

from __future__ import annotations

from typing import Final

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from fitting.forms.tryons import StrikeTryOnForm, TryOnForm
from fitting.looks import Seen
from fitting.middleware import YardRequest, helpers_may
from fitting.models import Horse, Tack, TackSet, TryOn
from fitting.reads import to_try
from fitting.reads import tryons as reads
from fitting.reads.meaning import changed_since, meaning_of
from fitting.reads.outlook import seen_of
from fitting.reads.today import today_in
from fitting.reads.tried import tried_row
from fitting.told import tried_words
from fitting.writes import tryons as writes

FORM_METHODS: Final = ["GET", "HEAD", "POST"]


@require_safe
def horse_tack(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Does it fit? One horse, all tack."""
    row = get_object_or_404(request.yard.horses, key=horse)
    page = reads.horse_tack_page(row, today_in(request.yard))
    return render(request, "fitting/horse_tack.html", {"page": page})


@helpers_may
@require_http_methods(FORM_METHODS)
def try_on(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Try something on: choose it first, then say what was seen."""
    row = get_object_or_404(request.yard.horses, key=horse)
    item, made_up = _asked(request)
    if item is None and made_up is None:
        context = {"horse": row, "groups": to_try.to_try(request.yard)}
        return render(request, "fitting/choose_tryon.html", context)
    return _tryon(request, TryOn(horse=row, tack=item, made_up=made_up), row)


def _asked(request: YardRequest) -> tuple[Tack | None, TackSet | None]:
    """Return the item, or the set, that the address names."""
    made_up, item = request.GET.get("set"), request.GET.get("item")
    if made_up:
        return None, get_object_or_404(request.yard.sets, key=made_up)
    if item:
        return get_object_or_404(request.yard.tack, key=item), None
    again = request.GET.get("again")
    return to_try.thing_named(request.yard, again) if again else (None, None)


@helpers_may
@require_http_methods(FORM_METHODS)
def edit_tryon(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct a try-on."""
    row = get_object_or_404(request.yard.horses, key=horse)
    tryons = row.tryons.select_related("tack", "made_up")
    return _tryon(request, get_object_or_404(tryons, pk=pk), row)


def _tryon(request: YardRequest, row: TryOn, horse: Horse) -> HttpResponse:
    """Show and save the form of one try-on."""
    led_to = reverse("fitting:horse-tack", args=[request.yard.slug, horse.key])
    look = seen_of(horse)
    kinds = to_try.kinds_of(row.tack, row.made_up)
    first = to_try.kinds_never_worn(horse, kinds)
    form = TryOnForm(
        request.POST or None,
        request.FILES or None,
        instance=row,
        horse=horse,
        today=today_in(request.yard),
        parts=to_try.parts_to_try(row, look),
        first=to_try.kind_words(first),
    )
    draft = f"tryon-{request.yard.slug}-{horse.key}-{row.pk or _key(row)}"
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        _save(form, row, first, led_to)
        messages.success(request, _meaning(form, row), extra_tags=draft)
        _tell(request, row, look)
        return redirect(led_to)
    cautions = to_try.cautions_for(look, row.item_name, kinds)
    context = {"form": form, "row": row, "horse": horse, "cautions": cautions}
    context |= {"draft": draft, "thing": row.item_name, "led_to": led_to}
    status = 422 if form.is_bound else 200
    return render(request, "fitting/tryon_form.html", context, status=status)


def _tell(request: YardRequest, row: TryOn, before: Seen | None) -> None:
    """Tell what a try-on taught, what it changed, and where the tape says otherwise."""
    if row.stop == TryOn.Stop.RING_VET:
        name = row.horse.name
        messages.warning(
            request,
            f"Ring the vet: nothing is put on {name} before the vet has said so."
            " See Care.",
        )
    meaning = meaning_of(row, before)
    for said in meaning.changed:
        messages.info(request, said)
    for said in meaning.apart:
        messages.warning(request, said)


def _key(row: TryOn) -> str:
    return f"set-{row.made_up.key}" if row.made_up else getattr(row.tack, "key", "")


def _save(
    form: TryOnForm, row: TryOn, kinds: tuple[tuple[str, Tack], ...], led_to: str
) -> None:
    """Save a try-on that was checked."""
    given = form.cleaned_data
    beside = writes.Beside(
        kinds=kinds, how_it_went=given.get("how_it_went", ""), photo=given["photo"]
    )
    writes.write_tryon(row, form.rows, beside, token=given["token"], led_to=led_to)


def _meaning(form: TryOnForm, row: TryOn) -> str:
    """Return what the try-on means, in words."""
    return tried_words(
        row.item_name,
        row.horse.name,
        worn=row.how == TryOn.How.WORN,
        seen=[(part.part, part.seen) for part in form.rows],
        answer=row.answer,
    )


@helpers_may
@require_http_methods(FORM_METHODS)
def strike_tryon(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Strike a try-on out with a reason, or let it count again."""
    rider = get_object_or_404(request.yard.horses, key=horse)
    row = get_object_or_404(rider.tryons.select_related("tack", "made_up"), pk=pk)
    form = StrikeTryOnForm(request.POST or None, instance=row)
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        led_to = reverse("fitting:horse-tack", args=[yard, horse])
        look = seen_of(rider)
        writes.strike_tryon(row, form.cleaned_data["token"], led_to)
        done = "is struck out" if row.struck else "counts again"
        messages.success(request, f"The try-on of {row.item_name} {done}.")
        for said in changed_since(row, look):
            messages.info(request, said)
        return redirect(led_to)
    tried = tried_row(TryOn.objects.get(pk=pk), frozenset())
    context = {"row": row, "horse": rider, "form": form, "tried": tried}
    status = 422 if form.is_bound else 200
    return render(request, "fitting/strike_tryon.html", context, status=status)


@helpers_may
@require_http_methods(FORM_METHODS)
def delete_tryon(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Delete a try-on."""
    rider = get_object_or_404(request.yard.horses, key=horse)
    row = get_object_or_404(rider.tryons.select_related("tack", "made_up"), pk=pk)
    if request.method == "POST":
        name = row.item_name
        writes.delete_tryon(row)
        messages.success(request, f"The try-on of {name} is deleted.")
        return redirect("fitting:horse-tack", yard, horse)
    return render(request, "fitting/delete_tryon.html", {"row": row, "horse": rider})
