from __future__ import annotations

from datetime import date

from fitting.models import Loan, TryOn, Yard
from fitting.reads.facts import pegs, tack_facts, tryons_by_horse
from fitting.tryons import Tried
from fitting.tryons import TryOn as TryOnFact
from fitting.wanted import Peg
from tests.make import make_bit, make_horse


def test_an_item_taken_down_fits_nobody_and_leaves_its_sets(yard: Yard) -> None:
    kept, gone = make_bit(yard, name="Kept"), make_bit(yard, name="Gone")
    made_up = yard.sets.create(key="best", name="Best")
    made_up.parts.create(slot="bit", tack=gone)
    gone.gone = date(2026, 11, 1)
    gone.save()
    tack, sets = tack_facts(yard)
    assert [item.name for item in tack] == [kept.name]
    assert [one.parts for one in sets] == [()]


def test_only_a_loan_that_is_not_back_takes_an_item_off_its_peg(yard: Yard) -> None:
    bit, back_by = make_bit(yard, name="Snaffle"), date(2026, 12, 24)
    ash, bramling = make_horse(yard, name="Ash"), make_horse(yard, name="Bramling")
    Loan.objects.create(tack=bit, to=ash, returned=date(2026, 11, 1))
    assert pegs(yard) == (Peg(item="Snaffle"),)
    loan = Loan.objects.create(tack=bit, to=bramling, back_by=back_by)
    out = Peg(item="Snaffle", lent_to="Bramling", back_by=back_by)
    assert pegs(yard) == (out,)
    loan.returned = date(2026, 11, 20)
    loan.save()
    assert pegs(yard) == (Peg(item="Snaffle"),)


def test_a_try_on_is_told_as_it_was_written_and_not_at_all_once_struck_out(
    yard: Yard,
) -> None:
    ash, item = make_horse(yard, name="Ash"), make_bit(yard, name="Snaffle")
    on = date(2026, 11, 1)
    held = TryOn.objects.create(horse=ash, on=on, tack=item, how="held", answer="good")
    worn = TryOn.objects.create(horse=ash, on=on, tack=item, how="worn")
    worn.parts.create(part="noseband", seen="rubs", hole=3, gap_mm=18.0)
    first = TryOnFact(on=on, item="Snaffle", how="held", answer="good")
    tried = Tried(part="noseband", seen="rubs", hole=3, gap_mm=18.0)
    second = TryOnFact(on=on, item="Snaffle", how="worn", parts=(tried,))
    assert tryons_by_horse(yard) == {ash.pk: [first, second]}
    assert [one.record for one in tryons_by_horse(yard)[ash.pk]] == [
        f"tried/{held.pk}/",
        f"tried/{worn.pk}/",
    ]
    worn.struck = "Another horse"
    worn.save()
    assert tryons_by_horse(yard) == {ash.pk: [first]}
