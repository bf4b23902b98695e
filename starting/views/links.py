"""Calendar links: made, shown once, changed, ended."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.safestring import mark_safe
from django.views.decorators.http import require_http_methods, require_safe

from fitting.middleware import YardRequest, keepers_only
from fitting.writes import remember_token
from starting.forms.links import LinkForm
from starting.models import CalendarKey
from starting.qr import qr_svg
from starting.reads import links as reads
from starting.writes import links as writes


@require_safe
@keepers_only
def calendar_links(request: YardRequest, yard: str) -> HttpResponse:
    """Show the yard's links; their secrets are nowhere kept."""
    rows = reads.links(request.yard)
    return render(request, "starting/calendar_links.html", {"links": rows})


@require_http_methods(["GET", "HEAD", "POST"])
@keepers_only
def add_link(request: YardRequest, yard: str) -> HttpResponse:
    """Make a link, and show its address this once."""
    form = LinkForm(request.POST or None, yard=request.yard)
    if form.is_bound and form.written_before(request.yard):
        messages.info(request, "The link was made; its address was shown then.")
        return redirect("starting:calendar-links", yard)
    if form.is_valid():
        key, secret = writes.make_link(
            request.yard, label=form.cleaned_data["label"], options=form.options()
        )
        there = reverse("starting:calendar-links", args=[yard])
        remember_token(request.yard, form.cleaned_data["token"], there)
        return _show_once(request, key, secret)
    return _form(request, form, "Make a calendar link")


@require_http_methods(["GET", "HEAD", "POST"])
@keepers_only
def edit_link(request: YardRequest, yard: str, pk: int) -> HttpResponse:
    """Change what a link shows; its address stays."""
    key = _live(request, pk)
    form = LinkForm(
        request.POST or None, yard=request.yard, key=key, initial=reads.chosen(key)
    )
    if form.is_valid():
        writes.change_link(
            key, label=form.cleaned_data["label"], options=form.options()
        )
        messages.success(request, f"Written in: the link for {key.label}.")
        return redirect("starting:calendar-links", yard)
    return _form(request, form, f"The link for {key.label}")


@require_http_methods(["GET", "HEAD", "POST"])
@keepers_only
def end_link(request: YardRequest, yard: str, pk: int) -> HttpResponse:
    """End a link for good, or end it and make another in its place."""
    key = get_object_or_404(request.yard.calendar_keys, pk=pk)
    if key.revoked_at is not None:
        messages.info(request, f"The link for {key.label} had ended already.")
        return redirect("starting:calendar-links", yard)
    if request.method != "POST":
        return render(request, "starting/end_link.html", {"label": key.label})
    if "renew" in request.POST:
        return _show_once(request, *writes.renew_link(key))
    writes.end_link(key)
    messages.success(request, f"Ended: the link for {key.label}.")
    return redirect("starting:calendar-links", yard)


def _live(request: YardRequest, pk: int) -> CalendarKey:
    return get_object_or_404(
        CalendarKey, yard=request.yard, pk=pk, revoked_at__isnull=True
    )


def _form(request: YardRequest, form: LinkForm, title: str) -> HttpResponse:
    status = 422 if form.is_bound else 200
    given = {"form": form, "title": title}
    return render(request, "starting/link_form.html", given, status=status)


def _show_once(request: YardRequest, key: CalendarKey, secret: str) -> HttpResponse:
    address = writes.address_of(secret)
    webcal = f"webcal:{address.partition(':')[2]}"
    given = {
        "label": key.label,
        "address": address,
        "webcal": webcal,
        "picture": mark_safe(qr_svg(webcal)),  # noqa: S308 - our own drawing
    }
    response = render(request, "starting/link_made.html", given)
    response["Cache-Control"] = "no-store"
    return response
