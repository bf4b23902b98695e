from __future__ import annotations

from datetime import date

from fitting.models import Yard
from fitting.reads.facts import tack_facts
from tests.make import make_bit


def test_an_item_taken_down_fits_nobody_and_leaves_its_sets(yard: Yard) -> None:
    kept, gone = make_bit(yard, name="Kept"), make_bit(yard, name="Gone")
    made_up = yard.sets.create(key="best", name="Best")
    made_up.parts.create(slot="bit", tack=gone)
    gone.gone = date(2026, 11, 1)
    gone.save()
    tack, sets = tack_facts(yard)
    assert [item.name for item in tack] == [kept.name]
    assert [one.parts for one in sets] == [()]
