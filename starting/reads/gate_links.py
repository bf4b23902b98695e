"""Where what a gate rests on is seen and mended."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from django.urls import reverse

from fitting.models import Horse, Tack, TackSet, Yard
from starting.gates import Gate


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """An address and what it is called."""

    href: str = ""
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Where a horse's records lie, for one who may or may not write there."""

    yard: str
    horse: str
    her: str
    role: str
    steps: Mapping[str, str]  # key: name
    items: Mapping[str, str]  # name: key
    sets: Mapping[str, str]

    def link(self, name: str, *args: str, text: str) -> Link:
        """Return a link inside the yard."""
        return Link(href=reverse(name, args=[self.yard, *args]), text=text)

    def of_horse(self, name: str, text: str) -> Link:
        """Return a link to a page of the horse."""
        return self.link(name, self.horse, text=text)

    @property
    def keeps(self) -> bool:
        """Whether they may use every form."""
        return self.role == "keeper"

    @property
    def writes(self) -> bool:
        """Whether they may write sessions, measurements and try-ons."""
        return self.role != "viewer"


def places(horse: Horse, role: str, steps: Mapping[str, str]) -> Places:
    """Return where a horse's records lie (2 queries: items, sets)."""
    yard: Yard = horse.yard
    items = Tack.objects.filter(yard=yard).values_list("name", "key")
    sets = TackSet.objects.filter(yard=yard).values_list("name", "key")
    return Places(
        yard=yard.slug,
        horse=horse.key,
        her="her" if horse.she == "she" else "him",
        role=role,
        steps=steps,
        items=dict(items),
        sets=dict(sets),
    )


def link_of(gate: Gate, at: Places) -> Link:
    """Return the page where a gate's record is seen, or mended by who may."""
    subject, _, what = gate.record.partition(":")
    if subject in {"item", "set"}:
        return _tack(what, at)
    if subject == "stage":
        return _step(gate, what, at)
    if subject in _OF_HORSE:
        return _of_horse(subject, at)
    if subject in {"plan", "people", "yard"}:
        return _of_yard(subject, at)
    return _nothing_on_the_pegs(at) if gate.gate.startswith("fit:") else Link()


def _nothing_on_the_pegs(at: Places) -> Link:
    if at.keeps:
        return at.link("fitting:add-tack", text="Put up an item")
    return at.of_horse("fitting:horse-tack", "See what fits")


def _of_yard(subject: str, at: Places) -> Link:
    """Return where people, the plan or the yard's ways are written down."""
    if subject == "yard":
        name = "edit-yard" if at.keeps else "yard-settings"
        return at.link(f"starting:{name}", text="See days and places")
    if subject == "plan" and at.keeps:
        return at.of_horse("starting:edit-plan", "Name rider, trainer and tack")
    return at.link("starting:people", text="See who rides and helps")


_OF_HORSE: Final = {
    "measure": ("fitting:measured", "See what was measured"),
    "weight": ("fitting:weight", "See weight and condition"),
    "care": ("starting:care", "See care"),
    "off_work": ("starting:care", "See off work"),
    "rest": ("starting:care", "See the rest"),
    "horse": ("fitting:horse", "See the foaling date"),
    "croup": ("fitting:horse", "See croup and withers"),
    "sessions": ("starting:sessions", "See the sessions"),
}


def _of_horse(subject: str, at: Places) -> Link:
    if subject == "measure" and at.writes:
        return at.of_horse("fitting:measure", f"Measure {at.her}")
    if subject == "horse" and at.keeps:
        return at.of_horse("fitting:edit-horse", "See the foaling date")
    return at.of_horse(*_OF_HORSE[subject])


def _step(gate: Gate, key: str, at: Places) -> Link:
    if key == gate.stage or key not in at.steps:
        return Link()
    return at.link("starting:step", at.horse, key, text=f"See {at.steps[key]}")


def _tack(name: str, at: Places) -> Link:
    if name in at.items:
        return at.link("fitting:tack", at.items[name], text=f"See {name}")
    if name in at.sets:
        return at.link("fitting:set", at.sets[name], text=f"See {name}")
    return at.of_horse("fitting:horse-tack", "See what fits")
