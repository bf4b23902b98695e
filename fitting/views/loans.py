"""Lending an item from horse to horse."""

from __future__ import annotations

from typing import Final

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from fitting.forms.loans import LoanForm
from fitting.lending import WASH, on_giving_back
from fitting.middleware import YardRequest, keepers_only
from fitting.models import Loan
from fitting.reads.facts import lent_fact
from fitting.reads.today import today_in
from fitting.writes import tack as writes

FORM_METHODS: Final = ["GET", "HEAD", "POST"]


@keepers_only
@require_http_methods(FORM_METHODS)
def lend(request: YardRequest, yard: str, tack: str) -> HttpResponse:
    """Lend an item to a horse."""
    return _loan(request, Loan(tack=get_object_or_404(request.yard.tack, key=tack)))


@keepers_only
@require_http_methods(FORM_METHODS)
def edit_loan(request: YardRequest, yard: str, tack: str, pk: int) -> HttpResponse:
    """Correct a loan, or write that it is back."""
    item = get_object_or_404(request.yard.tack, key=tack)
    return _loan(request, get_object_or_404(item.loans, pk=pk))


def _loan(request: YardRequest, row: Loan) -> HttpResponse:
    """Show and save the form of one loan."""
    item, draft = row.tack, f"loan-{row.tack.pk}-{row.pk or 'new'}"
    form = LoanForm(
        request.POST or None, instance=row, tack=item, today=today_in(request.yard)
    )
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        writes.lend(row, form.lender, form.cleaned_data["token"])
        said = f"{item.name} is back." if row.returned else f"{item.name}: lent."
        messages.success(request, said, extra_tags=draft)
        return redirect(item)
    context = {"form": form, "item": item, "row": row, "draft": draft, "wash": WASH}
    status = 422 if form.is_bound else 200
    return render(request, "fitting/loan_form.html", context, status=status)


@keepers_only
@require_POST
def bring_back(request: YardRequest, yard: str, tack: str, pk: int) -> HttpResponse:
    """Tick that an item is back, today."""
    item = get_object_or_404(request.yard.tack, key=tack)
    row = get_object_or_404(item.loans.select_related("to"), pk=pk)
    writes.bring_back(row, today_in(request.yard))
    done = " ".join(on_giving_back(lent_fact(row)))
    messages.success(request, f"{item.name} is back. {done}".strip())
    return redirect(item)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_loan(request: YardRequest, yard: str, tack: str, pk: int) -> HttpResponse:
    """Delete a loan."""
    item = get_object_or_404(request.yard.tack, key=tack)
    row = get_object_or_404(item.loans.select_related("to"), pk=pk)
    if request.method == "POST":
        writes.delete_loan(row)
        messages.success(request, "The loan is deleted.")
        return redirect(item)
    return render(request, "fitting/delete_loan.html", {"item": item, "row": row})
