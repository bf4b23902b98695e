"""A horse's rows as the rules of tack see it: nothing of what they go by is lost."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from fitting.fit.edge_text import kept_of
from fitting.fit.edges import Change
from fitting.models import TryOn, Yard
from fitting.models.horse import OWN_EDGES
from fitting.reads.growths import known_of
from fitting.reads.today import today_in
from fitting.reads.wearers import wearer_on
from tests.make import make_bit, make_horse, make_measurement

pytestmark = pytest.mark.django_db


def test_a_horse_keeps_its_room_its_figures_its_teeth_and_its_try_ons(
    yard: Yard,
) -> None:
    today = today_in(yard)
    changed = Change(
        edge="bit.fixed.good_to",
        to=8.0,
        by="Jo",
        on=date(2026, 5, 3),
        why="Thin skin",
        written="8 mm",
    )
    horse = make_horse(yard, name="Ash")
    horse.clearances = {
        "bit": {"mm": 4.0, "written": "4 mm"},
        OWN_EDGES: [kept_of(changed)],
    }
    horse.save()
    measured = today - timedelta(days=20)
    make_measurement(horse, "mouth_width", on=measured, value=118.0, method="gauge")
    bit = make_bit(yard, name="Snaffle")
    TryOn.objects.create(horse=horse, on=today, tack=bit, how="worn", answer="good")
    (known,) = known_of([horse])
    wearer = wearer_on(known, None, today)
    assert wearer.clearances == (("bit", 4.0),)
    assert wearer.edges.value("bit.fixed.good_to") == 8.0
    assert [one.item for one in wearer.tryons] == ["Snaffle"]
    standing = dict(wearer.standing)
    assert (standing["mouth_width"], standing["brow"]) == ("stands", "never")
    lost_a_tooth = wearer_on(known, today - timedelta(days=1), today)
    assert lost_a_tooth.tooth_change == today - timedelta(days=1)
    assert dict(lost_a_tooth.standing)["mouth_width"] == "stale"
