"""Does it fit, and who fits what: on today, or on any day that is asked."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from fitting.forms.fits import ORDERS, OnDayForm, WhoFitsForm
from fitting.middleware import YardRequest
from fitting.models import Horse, Tack, TackSet
from fitting.reads import does_it_fit as reads
from fitting.reads import fit_choices as choices
from fitting.reads import who_fits as all_reads
from fitting.reads.today import today_in


@require_safe
def who_fits(request: YardRequest, yard: str) -> HttpResponse:
    """Every item on every horse; the day and the order stand in the address."""
    today = today_in(request.yard)
    form = WhoFitsForm(request.GET, today=today)
    asked = all_reads.Asked(day=today)
    if form.is_valid():
        asked = all_reads.Asked(**form.cleaned_data)
    page = all_reads.who_fits_page(request.yard, asked, today)
    status = 200 if form.is_valid() else 422
    context = {"page": page, "form": form, "orders": ORDERS}
    return render(request, "fitting/who_fits.html", context, status=status)


@require_safe
def does_it_fit(request: YardRequest, yard: str) -> HttpResponse:
    """One horse, then one item, then the answer; all of it stands in the address."""
    thing, key = _thing(request), request.GET.get("horse", "")
    if not key:
        groups = choices.horses_to_ask(request.yard)
        context = {"groups": groups, "thing": thing, "asked": _query(thing)}
        return render(request, "fitting/ask_horse.html", context)
    horse = get_object_or_404(request.yard.horses.select_related("yard"), key=key)
    if thing is None:
        to_ask = {"horse": horse, "groups": choices.items_to_ask(horse)}
        return render(request, "fitting/ask_item.html", to_ask)
    return _answer(request, horse, thing)


def _answer(request: YardRequest, horse: Horse, thing: Tack | TackSet) -> HttpResponse:
    today = today_in(request.yard)
    form = OnDayForm(request.GET, today=today, auto_id="fit_%s")
    day = form.cleaned_data["day"] if form.is_valid() else today
    page = reads.does_it_fit_page(horse, thing, day, today)
    status = 200 if form.is_valid() else 422
    context = {"page": page, "form": form}
    return render(request, "fitting/does_it_fit.html", context, status=status)


def _thing(request: YardRequest) -> Tack | TackSet | None:
    """Return the item or the set that the address names; None: it names none."""
    item, made_up = request.GET.get("item", ""), request.GET.get("set", "")
    if item:
        hanging = request.yard.tack.filter(gone__isnull=True)
        return get_object_or_404(hanging, key=item)
    sets = request.yard.sets.filter(gone__isnull=True)
    return get_object_or_404(sets, key=made_up) if made_up else None


def _query(thing: Tack | TackSet | None) -> str:
    if thing is None:
        return ""
    return f"&{'set' if isinstance(thing, TackSet) else 'item'}={thing.key}"
