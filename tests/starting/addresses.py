"""Every address of the site, and who may read or write there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any, Final

from django.urls import URLPattern, URLResolver, get_resolver
from django.utils import timezone

from fitting import models as body
from fitting.models import Yard
from starting import models as way
from starting.writes import replan, today_in
from starting.writes.links import make_link
from starting.writes.plans import shipped_version
from starting.writes.programmes import copy_programme
from tests.make import (
    make_bit,
    make_horse,
    make_measurement,
    make_member,
    make_photo,
)

OPEN: Final = "open"  # to everybody, signed in or not
OWN: Final = "own"  # to whoever is signed in
READ: Final = "read"  # every member reads; nobody writes
HELP: Final = "help"  # keepers and helpers
KEEP: Final = "keep"  # keepers

WHO_MAY: Final = {
    # the doors
    "sign-in": OPEN,
    "password_reset": OPEN,
    "password_reset_done": OPEN,
    "password_reset_confirm": OPEN,
    "password_reset_complete": OPEN,
    "calendar": OPEN,
    "sign-out": OWN,
    "password_change": OWN,
    "password_change_done": OWN,
    "ground": OWN,
    "yards": OWN,
    "new-yard": OWN,
    # the first visit
    "first-horse": KEEP,
    "first-measurement": HELP,
    # horses
    "fitting:horses": READ,
    "fitting:beside": READ,
    "fitting:horse": READ,
    "fitting:add-horse": KEEP,
    "fitting:edit-horse": KEEP,
    "fitting:delete-horse": KEEP,
    "fitting:weight": READ,
    # measurements
    "fitting:measured": READ,
    "fitting:measure": HELP,
    "fitting:measure-sheet": READ,
    "fitting:measure-sheets": READ,
    "fitting:edit-measurement": HELP,
    "fitting:delete-measurement": HELP,
    # photos
    "fitting:photos": READ,
    "fitting:large-photo": READ,
    "fitting:small-photo": READ,
    "fitting:add-photo": HELP,
    "fitting:edit-photo": HELP,
    "fitting:delete-photo": KEEP,
    "fitting:all-brought": KEEP,
    "fitting:bring-in": KEEP,
    "fitting:see-brought": KEEP,
    "fitting:undo-brought": KEEP,
    # tack
    "fitting:tack-room": READ,
    "fitting:does-it-fit": READ,
    "fitting:who-fits": READ,
    "fitting:tack": READ,
    "fitting:tack-beside": READ,
    "fitting:add-tack": KEEP,
    "fitting:edit-tack": KEEP,
    "fitting:take-down": KEEP,
    "fitting:put-up-again": KEEP,
    "fitting:delete-tack": KEEP,
    "fitting:mix-bridle": READ,
    "fitting:set": READ,
    "fitting:make-up": KEEP,
    "fitting:edit-set": KEEP,
    "fitting:delete-set": KEEP,
    "fitting:take-set-down": KEEP,
    "fitting:put-set-up-again": KEEP,
    "fitting:lend": KEEP,
    "fitting:edit-loan": KEEP,
    "fitting:delete-loan": KEEP,
    "fitting:return-loan": KEEP,
    # the figures tack is judged by
    "fitting:room": KEEP,
    "fitting:change-room": KEEP,
    "fitting:horse-room": KEEP,
    "fitting:change-horse-room": KEEP,
    # try-ons
    "fitting:horse-tack": READ,
    "fitting:item-on": READ,
    "fitting:set-on": READ,
    "fitting:try-on": HELP,
    "fitting:edit-tryon": HELP,
    "fitting:delete-tryon": HELP,
    "fitting:strike-tryon": HELP,
    "fitting:worn": READ,
    "fitting:add-first-worn": HELP,
    "fitting:edit-first-worn": HELP,
    "fitting:delete-first-worn": HELP,
    # day by day
    "starting:today": READ,
    "starting:write": HELP,
    "starting:helping": READ,
    "starting:helping-person": READ,
    "starting:plan": READ,
    "starting:months": READ,
    "starting:horse-months": READ,
    "starting:moved": READ,
    "starting:horse-moved": READ,
    # the diary
    "starting:diary": READ,
    "starting:diary-file": READ,
    "starting:diary-entry": READ,
    "starting:diary-entry-file": READ,
    "starting:tick-entry": HELP,
    "starting:untick-entry": HELP,
    "starting:horse-diary": READ,
    # steps
    "starting:steps": READ,
    "starting:step": READ,
    "starting:step-card": READ,
    "starting:edit-plan": KEEP,
    "starting:record-step": KEEP,
    "starting:went-ahead": KEEP,
    # before a rider, or for others
    "starting:for-others": READ,
    "starting:ready": READ,
    "starting:riders": KEEP,
    # sessions
    "starting:sessions": READ,
    "starting:next-session": READ,
    "starting:log-session": HELP,
    "starting:edit-session": HELP,
    "starting:delete-session": HELP,
    # care
    "starting:care": READ,
    "starting:add-care": KEEP,
    "starting:edit-care": KEEP,
    "starting:delete-care": KEEP,
    "starting:add-rest": KEEP,
    "starting:edit-rest": KEEP,
    "starting:delete-rest": KEEP,
    "starting:add-off-work": KEEP,
    "starting:edit-off-work": KEEP,
    "starting:delete-off-work": KEEP,
    "starting:add-incident": KEEP,
    "starting:edit-incident": KEEP,
    "starting:delete-incident": KEEP,
    # to buy or borrow
    "starting:to-get": READ,
    "starting:horse-to-get": READ,
    "starting:shop-cards": READ,
    "starting:got": KEEP,
    "starting:not-got": KEEP,
    # programmes
    "starting:programmes": READ,
    "starting:programme": READ,
    "starting:programme-versions": READ,
    "starting:copy-programme": KEEP,
    "starting:change-programme-step": KEEP,
    "starting:take-programme-step": KEEP,
    "starting:delete-programme": KEEP,
    "starting:choose-programme": KEEP,
    "starting:move-programme": KEEP,
    # the yard itself
    "starting:yard-settings": READ,
    "starting:edit-yard": KEEP,
    "starting:delete-yard": KEEP,
    "starting:people": READ,
    "starting:add-person": KEEP,
    "starting:edit-person": KEEP,
    "starting:delete-person": KEEP,
    "starting:members": READ,
    "starting:add-member": KEEP,
    "starting:edit-member": KEEP,
    "starting:delete-member": KEEP,
    "starting:calendar-links": KEEP,
    "starting:add-link": KEEP,
    "starting:edit-link": KEEP,
    "starting:end-link": KEEP,
}
# Pages without a form of their own, kept back with the forms that they lead to.
READ_ONLY: Final = frozenset(
    {
        "starting:write",
        "starting:calendar-links",
        "starting:riders",
        "fitting:all-brought",
        "fitting:room",
        "fitting:horse-room",
    }
)
# Addresses that are only written to: the button stands on another page.
POST_ONLY: Final = frozenset(
    {
        "sign-out",
        "fitting:put-up-again",
        "fitting:put-set-up-again",
        "fitting:return-loan",
        "starting:got",
        "starting:not-got",
        "starting:tick-entry",
        "starting:untick-entry",
    }
)
# Addresses that answer with a file to keep.
FILES: Final = frozenset(
    {"calendar", "starting:diary-file", "starting:diary-entry-file"}
)
STAGE: Final = "saddle"
GATE: Final = "age"
GROUP: Final = "strap.noseband"


@dataclass
class Rows:
    """One row of each kind in a yard, and by which part of an address it is found."""

    yard: Yard
    horse: body.Horse
    other_horse: body.Horse
    tack: body.Tack
    made_up: body.TackSet
    secret: str
    pks: dict[str, int] = field(default_factory=dict)

    def parts(self, name: str, wanted: frozenset[str]) -> dict[str, Any]:
        """Return the parts that an address is made of."""
        parts = {
            "yard": self.yard.slug,
            "horse": self.horse.key,
            "tack": self.tack.key,
            "made_up": self.made_up.key,
            "stage": STAGE,
            "gate": GATE,
            "group": GROUP,
            "programme": str(self.pks["programme"]),
            "key": self.secret,
            "uidb64": "x",
            "token": "x",
            "pk": self.pks.get(name.partition(":")[2].partition("-")[2]),
        }
        if "entry" in wanted:
            parts["entry"] = self._entry()
        return {part: parts[part] for part in wanted}

    def _entry(self) -> str:
        """Return the number of an entry of the diary, which is planned first."""
        if not self.yard.diary.exists():
            assert replan(self.yard, today_in(self.yard))
        first = self.yard.diary.filter(horse=self.horse).first()
        assert first is not None
        return first.uid.partition("@")[0]


def make_rows(yard: Yard) -> Rows:
    """Make one row of each kind that has an address."""
    horse, other = make_horse(yard), make_horse(yard)
    bit = make_bit(yard)
    made_up = body.TackSet.objects.create(yard=yard, key=f"set-{bit.pk}", name="Best")
    _, secret = make_link(yard, label="Phone", options={})
    rows = Rows(yard, horse, other, bit, made_up, secret)
    rows.pks = {name: row.pk for name, row in _rows_of(rows).items()}
    rows.pks["member"] = _second_keeper(yard)
    rows.pks["link"] = yard.calendar_keys.get().pk
    return rows


def _rows_of(rows: Rows) -> dict[str, Any]:
    on = timezone.localdate() - timedelta(days=3)  # any near day
    horse, bit = rows.horse, rows.tack
    way.WentAhead.objects.create(  # so that its page is there on any day of the year
        horse=horse, stage=STAGE, gate=GATE, reason="Big for her age", who="Jo", on=on
    )
    return {
        "measurement": make_measurement(horse),
        "photo": make_photo(horse, on=on),
        "tryon": body.TryOn.objects.create(horse=horse, on=on, tack=bit, how="held"),
        "first-worn": body.FirstWorn.objects.create(horse=horse, kind="bit", on=on),
        "loan": body.Loan.objects.create(tack=bit, to=horse),
        "session": way.Session.objects.create(horse=horse, on=on, stage="feet"),
        "care": way.CareVisit.objects.create(horse=horse, kind="teeth", on=on),
        "rest": way.Rest.objects.create(horse=horse, start=on, end=on),
        "off-work": way.OffWork.objects.create(
            horse=horse, start=on, until=on + timedelta(days=1), why="Lame"
        ),
        "incident": way.Incident.objects.create(horse=horse, on=on, what="kick"),
        "brought": body.BroughtIn.objects.create(yard=rows.yard, name="Book", on=on),
        "got": way.Bought.objects.create(horse=horse, kind="bit", on=on),
        "programme": copy_programme(
            rows.yard, shipped_version(), f"Ours {rows.yard.pk}", "To try.", "Jo", ""
        ),
        "entry": way.DiaryTick.objects.create(
            horse=horse, key=f"{horse.key}/care/x", due_on=on, on=on, who="Jo"
        ),
        "person": way.Person.objects.create(yard=rows.yard, name="Jo"),
    }


def _second_keeper(yard: Yard) -> int:
    user = make_member(yard, "keeper")
    return yard.memberships.get(user=user).pk


def addresses() -> dict[str, frozenset[str]]:
    """Return every named address with its parts; the admin has its own test."""
    return dict(_walk(get_resolver(), ""))


def _walk(
    resolver: URLResolver, space: str, above: frozenset[str] = frozenset()
) -> Iterator[tuple[str, frozenset[str]]]:
    for entry in resolver.url_patterns:
        parts = above | frozenset(entry.pattern.converters)
        if isinstance(entry, URLPattern):
            yield f"{space}{entry.name}", parts
        elif entry.namespace != "admin":
            inner = f"{space}{entry.namespace}:" if entry.namespace else space
            yield from _walk(entry, inner, parts)
