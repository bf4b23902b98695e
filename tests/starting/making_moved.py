"""A filly planned yesterday, what moves her plan, and the rows that say so."""

from __future__ import annotations

from datetime import timedelta
from html import unescape

from django.test import Client
from django.urls import reverse

from fitting.models import Horse, Yard
from starting.models import Moved, Rest
from starting.writes import replan
from tests.starting.making_log import make_session, make_youngster, today


def planned_yesterday(yard: Yard) -> Horse:
    """Return a filly under way with the bridle, planned yesterday."""
    horse = make_youngster(yard)
    make_session(horse, 2)
    replan(yard, today(yard) - timedelta(days=1))
    return horse


def rest(horse: Horse, days: int = 40) -> Rest:
    on = today(horse.yard)
    return Rest.objects.create(horse=horse, start=on, end=on + timedelta(days=days))


def plan_today(horse: Horse) -> None:
    replan(horse.yard, today(horse.yard))


def moved(horse: Horse) -> set[tuple[str, str]]:
    return set(Moved.objects.filter(horse=horse).values_list("kind", "subject"))


def read(client: Client, address: str) -> str:
    answer = client.get(address)
    assert answer.status_code == 200
    return " ".join(unescape(answer.content.decode()).split())


def of_yard(yard: Yard, name: str) -> str:
    return reverse(f"starting:{name}", args=[yard.slug])
