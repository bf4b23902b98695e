"""A yard with one youngster that is under way, for tests of its pages."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from starting.models import Session, StageRecord
from starting.programme import shipped
from starting.writes import replan, today_in
from tests.make import make_horse

STEPS = tuple(stage.key for stage in shipped().stages)
BEFORE_BRIDLE = STEPS[: STEPS.index("bridle")]
TICKS = tuple(check.key for check in shipped().stage("bridle").checks)


def today(yard: Yard) -> date:
    return today_in(yard)


def make_youngster(yard: Yard, name: str = "Tansy", **fields: Any) -> Horse:
    """Make a filly of 31 months whose steps before the bridle are set by hand."""
    on = today(yard)
    fields.setdefault("foaled", (on - timedelta(days=950)).isoformat())
    horse = make_horse(yard, name=name, **fields)
    StageRecord.objects.bulk_create(
        StageRecord(
            horse=horse, stage=stage, state="established", on=on - timedelta(days=3)
        )
        for stage in BEFORE_BRIDLE
    )
    return horse


def make_record(horse: Horse, stage: str, **fields: Any) -> StageRecord:
    fields.setdefault("state", "established")
    return StageRecord.objects.create(horse=horse, stage=stage, **fields)


def make_session(
    horse: Horse, days_ago: int = 1, stage: str = "bridle", **fields: Any
) -> Session:
    keys = [check.key for check in shipped().stage(stage).checks]
    fields.setdefault("checks", dict.fromkeys(keys, "yes"))
    on = today(horse.yard) - timedelta(days=days_ago)
    return Session.objects.create(horse=horse, stage=stage, on=on, **fields)


def not_planned(yard: Yard) -> None:
    """Leave a yard without outlooks: quick, for what does not look at them."""
    Yard.objects.filter(pk=yard.pk).update(
        planned_version=yard.version, planned_on=today(yard)
    )


def planned(yard: Yard) -> Yard:
    replan(yard, today(yard))
    return yard


def page(name: str, horse: Horse, *more: object) -> str:
    return reverse(f"starting:{name}", args=[horse.yard.slug, horse.key, *more])


def said(horse: Horse, answer: str = "yes", **more: Any) -> dict[str, Any]:
    """Return what a session's form sends for the bridle step."""
    ticks = {f"check_{key}": answer for key in TICKS}
    on = today(horse.yard).isoformat()
    return {"on": on, "minutes": "8", "seen_revision": "0", **ticks, **more}


def words(client: Client, path: str, **data: Any) -> str:
    return client.get(path, data).content.decode()
