"""Measure pages and computing against a bare view, in one run of one process."""

from __future__ import annotations

import os
import sys
import tempfile
from argparse import ArgumentParser
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, timedelta
from functools import partial
from itertools import cycle
from pathlib import Path
from time import process_time
from typing import Any, Final

from django.conf import settings
from django.contrib.auth.models import User
from django.core.management import call_command
from django.core.management.base import BaseCommand
from django.test import Client
from django.test.utils import override_settings
from django.urls import reverse

from fitting.age import Foaled
from fitting.body import Taken
from fitting.growth import Bound, Subject, fit_growth, quantiles
from fitting.growth.posterior import at_its_tempos, evidence
from fitting.models import Membership, Yard
from starting.management.diary_speed import RENDERED, first_render, one_moves
from starting.management.filling import copy_horse, fill_room
from starting.management.foals import by_lot, planned, shared, way_up
from starting.outlook import YardFacts, look_at_yard
from starting.reads.facts import yard_facts
from starting.writes import ensure_planned, replan, today_in
from starting.writes.links import make_link

MARK: Final = "LONGREIN_BENCHMARK"
ROUNDS: Final = 5
TURNS: Final = 12
READINGS: Final = 200
ITEMS: Final = 200
SHARING: Final = (5, 10, 20, 30)
MANY: Final = 1000
MEASURED: Final = (
    ("withers_height", "stick", 1270.0), ("croup_height", "stick", 1280.0),
    ("heart_girth", "tape", 1540.0), ("body_length", "tape", 1240.0),
    ("cannon_round", "tape", 168.0), ("weight", "weighbridge", 250.0),
    ("throat_round", "tape", 480.0), ("back_length", "tape", 420.0),
    ("head_length", "tape", 905.0), ("mouth_width", "dowel", 107.0),
    ("nose_round", "tape", 548.0), ("brow", "tape", 346.0),
)  # fmt: skip
BUDGETS: Final = {  # times the floor that is named
    "calendar, not changed (304)": (1.3, "one query"),
    "calendar, stored file (200)": (2.0, "one query"),
    "one of 300 entries moved": (50.0, "bare view"),
    "first render, 1000 entries": (5.0, "first render, 250 entries"),  # linear: 4
    "Today, 30 horses": (60.0, "bare view"),
    "who fits what, stored": (100.0, "bare view, beside it"),
    "who fits what, another day": (4000.0, "bare view, beside it"),
    "one outlook": (800.0, "bare view"),
    "growth and bands of one horse": (500.0, "bare view"),
    "gates and schedule of one horse": (400.0, "bare view"),
    "early and late of one horse": (1500.0, "bare view"),
    # Linear: 6, less what a yard takes whoever is in it.
    "days of 30 foals, early and late": (7.0, "days of 5 foals, early and late"),
}


class Command(BaseCommand):
    """Print CPU time a request, and how it stands to its budget."""

    help = "Measure pages and computing against a bare view."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Say what may be asked for."""
        parser.add_argument("--horses", type=int, default=30)

    def handle(self, *args: Any, **options: Any) -> None:
        """Work on a database of its own, thrown away afterwards."""
        if os.environ.get(MARK) != "yes":
            self._start_again()
        call_command("migrate", verbosity=0)
        yard = _yard(options["horses"])
        with override_settings(ROOT_URLCONF="starting.management.bare"):
            taken = _measure(yard)
        for name, seconds in taken.items():
            self.stdout.write(_line(name, seconds, taken))

    def _start_again(self) -> None:
        folder = Path(tempfile.mkdtemp(prefix="longrein-benchmark-"))
        os.environ.update(
            {MARK: "yes", "DATABASE_URL": f"sqlite:///{folder / 'yard.sqlite3'}"}
        )
        os.environ.update({"SITE_URL": "http://testserver", "DEBUG": "off"})
        os.environ["STATIC_FROM_PACKAGES"] = "on"
        os.environ["ALLOWED_HOSTS"] = "testserver"
        os.execv(sys.executable, [sys.executable, *sys.argv])  # noqa: S606


def _yard(horses: int) -> Yard:
    """Return a yard of so many horses, each a copy of the demo's youngest two."""
    call_command(
        "load_yard", str(settings.BASE_DIR / "fixtures_demo/yard.json"), verbosity=0
    )
    yard = Yard.objects.get()
    tansy = yard.horses.get(name="Tansy")
    for number in range(horses - yard.horses.count()):
        copy_horse(yard, tansy.pk, f"Tansy {number}")
    ensure_planned(yard)
    return yard


def _measure(yard: Yard) -> dict[str, float]:
    """Return seconds of CPU a call, the least of several rounds."""
    keeper, anybody = Client(), Client()
    user = User.objects.create_user("benchmark")
    Membership.objects.create(yard=yard, user=user, role=Membership.Role.KEEPER)
    keeper.force_login(user)
    _, secret = make_link(yard, label="Benchmark", options={})
    link = reverse("calendar", args=[secret])
    tag = {"if-none-match": keeper.get(link)["ETag"]}
    facts, today = yard_facts(yard), today_in(yard)
    one = _one_heavy_horse(facts)
    pages = {
        "Today": "starting:today", "plan": "starting:plan", "horses": "fitting:horses",
        "tack room": "fitting:tack-room",
    }  # fmt: skip
    horses = len(facts.horses)
    calendar = {
        "bare view": (lambda: anybody.get("/bare/"), 200),
        "one query": (lambda: anybody.get("/one-query/"), 200),
        "calendar, not changed (304)": (lambda: anybody.get(link, headers=tag), 100),
        "calendar, stored file (200)": (lambda: anybody.get(link), 100),
        "one of 300 entries moved": (one_moves(today), 4),
    } | {
        f"first render, {n} entries": (partial(first_render, today, n), 1)
        for n in RENDERED
    }
    return {
        **_in_turn(calendar),
        **{
            f"{name}, {horses} horses": _least(
                partial(keeper.get, reverse(at, args=[yard.slug])), 10
            )
            for name, at in pages.items()
        },
        "one outlook": _least(lambda: look_at_yard(one, today), 5),
        "growth and bands of one horse": _least(partial(_grow, today), 5),
        "gates and schedule of one horse": _least(partial(way_up, today), 5),
        "early and late of one horse": _least(partial(by_lot, today, 1), 3),
        **{
            f"days of {many} foals, early and late": _least(
                partial(shared, today, many), 1
            )
            for many in SHARING
        },
        f"days of {MANY} foals, not drawn": _once(partial(planned, today, MANY)),
        f"replanning {horses} horses": _least(partial(replan, yard, today), 1),
        **_who_fits(yard, keeper, today),
    }


def _who_fits(yard: Yard, keeper: Client, today: date) -> dict[str, float]:
    """Return how long who fits what takes with 200 items: stored, and computed cold."""
    fill_room(yard, ITEMS)
    replan(yard, today)
    page = reverse("fitting:who-fits", args=[yard.slug])
    later = {"day": (today + timedelta(days=200)).isoformat()}

    def cold() -> None:
        evidence.cache_clear()
        at_its_tempos.cache_clear()
        keeper.get(page, later)

    return _in_turn(
        {
            "bare view, beside it": (partial(Client().get, "/bare/"), 200),
            "who fits what, stored": (partial(keeper.get, page), 5),
            "who fits what, another day": (cold, 1),
        }
    )


def _one_heavy_horse(facts: YardFacts) -> YardFacts:
    """Return the facts with one horse only: 200 readings, 40 parts of tack."""
    horse = next(h for h in facts.horses if h.name == "Tansy")
    more = list(horse.measured)
    while len(more) < READINGS:
        old = more[len(more) - len(horse.measured)]
        day = old.taken.on - timedelta(days=1)
        more.append(replace(old, taken=replace(old.taken, on=day)))
    tack = tuple(
        replace(item, name=f"{item.name} {copy}")
        for copy in range(3)
        for item in facts.tack
    )
    return replace(facts, horses=(replace(horse, measured=tuple(more)),), tack=tack)


def _grow(on: date) -> None:
    """Fit 12 measures by 200 readings and a dozen bounds afresh, and find their bands.

    One band today and one a month for two years ahead, of every measure.
    """
    evidence.cache_clear()
    at_its_tempos.cache_clear()
    born = on - timedelta(days=1000)
    subject = Subject(horse_type="pony", foaled=Foaled(first=born, last=born))
    taken = [
        Taken(
            measure=measure,
            on=on - timedelta(days=4 * (n // len(MEASURED))),
            readings=(size,),
            method=method,
        )
        for n, (measure, method, size) in zip(range(READINGS), cycle(MEASURED))
    ]
    growth = fit_growth(subject, taken, _bounds(on))
    days = [on + timedelta(days=30 * month) for month in range(25)]
    for measure, _, _ in MEASURED:
        quantiles(growth.at_days(measure, days), (0.05, 0.5, 0.95))


def _bounds(on: date) -> list[Bound]:
    """Return three bounds on each of the four measures of the head."""
    return [
        Bound(
            measure=measure,
            on=on - timedelta(days=30 * month),
            kind="about",
            value=size,
            sigma=size / 60,
        )
        for measure, _, size in MEASURED[-4:]
        for month in range(3)
    ]


def _once(call: Callable[[], object]) -> float:
    began = process_time()
    call()
    return process_time() - began


def _least(call: Callable[[], object], times: int) -> float:
    call()
    return min(_mean(call, times) for _ in range(ROUNDS))


def _in_turn(calls: Mapping[str, tuple[Callable[[], object], int]]) -> dict[str, float]:
    """Return the least of each, in rounds that all of them take their turn in.

    Who else uses the machine then slows down a call and its floor alike.
    """
    for call, _ in calls.values():
        call()
    rounds = [
        {name: _mean(call, times) for name, (call, times) in calls.items()}
        for _ in range(TURNS)
    ]
    return {name: min(taken[name] for taken in rounds) for name in calls}


def _mean(call: Callable[[], object], times: int) -> float:
    began = process_time()
    for _ in range(times):
        call()
    return (process_time() - began) / times


def _line(name: str, seconds: float, taken: dict[str, float]) -> str:
    said = f"{name:35} {seconds * 1000:9.2f} ms"
    said += f" {seconds / taken['bare view']:8.1f} x bare view"
    if name in BUDGETS:
        most, floor = BUDGETS[name]
        ratio = seconds / taken[floor]
        kept = "kept" if ratio <= most else "OVER"
        said += f"   budget {most:g} x {floor}: {ratio:.1f}, {kept}"
    return said
