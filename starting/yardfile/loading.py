"""A whole yard file becomes a yard: all of it, or nothing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date

from django.db import transaction

from fitting.models import Part, Tack, Yard
from fitting.reads.units import units_of
from fitting.writes import touch
from fitting.writes.touch import free_key
from fitting.yardfile import ROOT, Place
from fitting.yardfile.loading import (
    clear_bodies,
    fill_yard,
    keys_for,
    load_body,
    load_horses,
)
from fitting.yardfile.pegs import load_sets, load_tack
from fitting.yardfile.place import shown
from fitting.yardfile.rows import Loading, each_once, find, keep, one_of, weekdays
from fitting.yardfile.sizes import read_size, read_tack_weight
from starting.models import (
    Bought,
    CareVisit,
    DiaryEntry,
    DiaryTick,
    Incident,
    OffWork,
    Person,
    Plan,
    ProgrammeVersion,
    Rest,
    Session,
    StageRecord,
    WentAhead,
)
from starting.programme import ProgrammeError
from starting.reads.facts import programme_of
from starting.writes.plans import shipped_version
from starting.yardfile import shapes
from starting.yardfile.log import Steps, load_log
from starting.yardfile.programmes import known_programmes, load_programmes
from starting.yardfile.reading import read_file

CAN = ("handle", "help", "ride", "train")
RECORDS = (
    Plan, StageRecord, Session, CareVisit, Incident, OffWork, Rest, WentAhead, Bought,
    DiaryTick,
)  # fmt: skip


class YardThereError(ValueError):
    """A yard of that name is there already."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ways:
    """Who and what a plan may name."""

    people: dict[str, Person] = field(default_factory=dict)
    programmes: dict[str, ProgrammeVersion] = field(default_factory=dict)


def load_yard(body: bytes, on: date, *, replace: bool = False) -> Yard:
    """Make the yard that a file describes; ``on`` is the day it is loaded on.

    Raises:
        YardFileError: the file is wrong somewhere; nothing has changed.
        YardThereError: a yard of that name is there, and is not to be replaced.
    """
    file = read_file(body)
    with transaction.atomic():
        yard = Yard.objects.select_for_update().filter(name=file.yard.name).first()
        if yard is None:
            taken = set(Yard.objects.values_list("slug", flat=True))
            yard = Yard(slug=free_key(file.yard.name, taken))
        elif replace:
            _clear(yard, keys_for(ROOT / "horses", file.horses))
        else:
            raise YardThereError(f"A yard called {yard.name} is there already.")
        yard = fill_yard(ROOT / "yard", yard, file.yard, on)
        _load(yard, file, on)
        touch(yard)
    yard.refresh_from_db()
    return yard


def _clear(yard: Yard, keys: Sequence[str]) -> None:
    """Take out what the file brings anew.

    What stays: members, calendar links, photos of horses that stay, and the diary as
    it was published, so that its sequences go on.
    """
    for model in RECORDS:
        model._default_manager.filter(horse__yard=yard).delete()  # noqa: SLF001
    yard.people.all().delete()
    yard.programmes.all().delete()
    left = DiaryEntry.objects.filter(yard=yard).exclude(horse__key__in=keys)
    left.update(horse=None)  # the entry is retired when the yard is planned again
    clear_bodies(yard, keys)


def _load(yard: Yard, file: shapes.YardFile, on: date) -> None:
    loading = Loading(yard=yard, on=on, units=units_of(yard))
    ways = _Ways(
        people=_people(ROOT / "people", loading, file.people),
        programmes=load_programmes(ROOT / "programmes", yard, file.programmes),
    )
    steps = Steps.of(known_programmes(ways.programmes))
    horses = ROOT / "horses"
    load_horses(horses, loading, file.horses)
    load_tack(ROOT / "tack", loading, file.tack)
    load_sets(ROOT / "sets", loading, file.sets)
    for at, horse in enumerate(file.horses):
        load_body(horses / at, loading, horse)
        _plan(horses / at / "plan", loading, ways, horse)
        load_log(horses / at, loading, steps, horse)
    for at, bought in enumerate(file.bought):
        _bought(ROOT / "bought" / at, loading, bought)


def _people(
    where: Place, loading: Loading, people: Sequence[shapes.Person]
) -> dict[str, Person]:
    each_once(where, [person.name for person in people], "name")
    return {p.name: _person(where / at, loading, p) for at, p in enumerate(people)}


def _person(where: Place, loading: Loading, person: shapes.Person) -> Person:
    text = person.weight
    size = None
    if text is not None:
        size = read_size(where / "weight", text, "weight", loading.units)
    row = Person(
        yard=loading.yard,
        name=person.name,
        can=weekdays(where / "can", person.can, CAN),
        weight_kg=size.value if size else None,
        weight_written=size.written if size else "",
        has_backed_horses=person.has_backed_horses,
        child=person.child,
    )
    return keep(where, row, weight_written="weight")


def _plan(where: Place, loading: Loading, ways: _Ways, horse: shapes.Horse) -> None:
    """Give a youngster its plan; a grown horse is not brought on."""
    if horse.grown:
        if horse.plan is not None:
            found = f"found a plan for {horse.name}, who is grown"
            raise where.error(found, "no plan for a grown horse")
        return
    plan = horse.plan or shapes.Plan()
    text = plan.tack_weight
    weight = None
    if text is not None:
        weight = read_tack_weight(where / "tack_weight", text, loading.units)
    programme = _programme(where / "programme", ways, plan.programme)
    if plan.aim.stage:
        steps = Steps.of([programme_of(programme)])
        steps.step(where / "aim" / "stage", plan.aim.stage)
    row = Plan(
        horse=loading.horses[horse.name],
        programme=programme,
        aim_stage=plan.aim.stage,
        aim_by=loading.maybe_day(where / "aim" / "by", plan.aim.by),
        as_early_as_allowed=plan.as_early_as_allowed,
        rider=_maybe(where / "rider", plan.rider, ways),
        trainer=_maybe(where / "trainer", plan.trainer, ways),
        tack_weight_kg=weight.value if weight else None,
        tack_weight_written=weight.written if weight else "",
    )
    keep(where, row, tack_weight_written="tack_weight")


def _maybe(where: Place, name: str | None, ways: _Ways) -> Person | None:
    return None if name is None else find(where, name, ways.people)


def _programme(where: Place, ways: _Ways, name: str) -> ProgrammeVersion:
    if name in ways.programmes:
        return ways.programmes[name]
    try:
        return shipped_version(name)
    except ProgrammeError as error:
        names = ", ".join([error.allowed, *ways.programmes])
        raise where.error(shown(name), names) from error


def _bought(where: Place, loading: Loading, bought: shapes.Bought) -> None:
    horse = find(where / "horse", bought.horse, loading.horses)
    kind, part = bought.kind, bought.part
    one_of(where / "kind", kind, Tack.Kind.values)
    if part:
        one_of(where / "part", part, Part.Name.values)
    day = loading.day(where / "on", bought.on)
    keep(where, Bought(horse=horse, kind=kind, part=part, on=day))
