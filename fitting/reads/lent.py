"""What is lent, to which horse, and how it goes back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from fitting.lending import WASH, say_loan
from fitting.models import Loan, Tack
from fitting.reads.facts import lent_fact


@dataclass(frozen=True, slots=True, kw_only=True)
class LoanRow:
    """One loan; ``item`` and ``key`` are the item's; ``late``: it should be back."""

    pk: int
    item: str
    key: str
    said: str
    out: bool
    late: bool
    wash: str
    back_by: date | None


def loan_row(loan: Loan, today: date) -> LoanRow:
    """Return one loan as a row; its item and its horse are read already."""
    lent = lent_fact(loan)
    out = lent.returned is None
    return LoanRow(
        pk=loan.pk,
        item=lent.item,
        key=lent.key,
        said=say_loan(lent, loan.to.name),
        out=out,
        late=lent.is_late(today),
        wash=WASH if out and lent.kind == Tack.Kind.BIT else "",
        back_by=lent.back_by,
    )


def loans_of(item: Tack, today: date) -> tuple[LoanRow, ...]:
    """Return the loans of an item, what is out first, the newest next (1 query)."""
    rows = item.loans.select_related("to", "tack").order_by("-pk")
    found = [loan_row(row, today) for row in rows]
    return tuple(sorted(found, key=lambda row: not row.out))
