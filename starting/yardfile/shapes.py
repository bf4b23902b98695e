"""The shape of a yard file: the way up, people, and the file as a whole."""

from __future__ import annotations

from typing import Any

from msgspec import field

from fitting.yardfile import shapes
from fitting.yardfile.shapes import Hole, Name, Shape

FORMAT = "yard-file"
VERSION = 1
DEFAULT_PROGRAMME = "default"


class Person(Shape, kw_only=True):
    """Somebody of the yard."""

    name: Name
    can: list[str] = []
    weight: str | None = None
    has_backed_horses: bool = False
    child: bool = False


class Aim(Shape, kw_only=True):
    """Which step is hoped for, and by when."""

    stage: str = ""
    by: str | None = None


class Plan(Shape, kw_only=True):
    """How one youngster is brought on."""

    programme: Name = field(default=DEFAULT_PROGRAMME)
    aim: Aim = Aim()
    as_early_as_allowed: bool = False
    rider: str | None = None
    trainer: str | None = None
    tack_weight: str | None = None


class WrittenPlan(Plan, kw_only=True, omit_defaults=False):
    """A plan as a dump writes it: always with its programme."""


class StageRecord(Shape, kw_only=True):
    """A step set by hand."""

    stage: str
    state: str
    on: str
    note: str = ""


class Stop(Shape, kw_only=True):
    """A stop sign that was seen, and what it means for the next session."""

    sign: Name
    level: str


class Worn(Shape, kw_only=True):
    """What was worn in a session, and how it sat."""

    item: str = ""
    made_up: str = field(name="set", default="")
    part: str = ""
    seen: str = ""
    hole: Hole | None = None


class Session(Shape, kw_only=True):
    """One session."""

    on: str
    stage: str
    minutes: int | None = None
    checks: dict[str, str] = {}
    stop: str | Stop = ""
    worn: list[Worn] = []
    on_the_day: dict[str, bool] = {}
    mood: str = ""
    who: str = ""
    note: str = ""


class Care(Shape, kw_only=True):
    """One visit."""

    kind: str
    on: str
    clear: bool = True
    wolf_teeth: str = ""
    healing_until: str | None = None
    next_due: str | None = field(name="next", default=None)
    who: str = ""
    note: str = ""


class Incident(Shape, kw_only=True):
    """A fall, a bolt, and the like."""

    on: str
    what: str
    note: str = ""


class OffWork(Shape, kw_only=True):
    """Lame or ill."""

    start: str = field(name="from")
    why: Name
    until: str | None = None
    cleared_by: str = ""
    cleared_on: str | None = None


class Rest(Shape, kw_only=True):
    """Turned away, both days inside."""

    start: str = field(name="from")
    end: str | None = field(name="to", default=None)
    why: str = ""


class WentAhead(Shape, kw_only=True):
    """A caution passed, with its reason."""

    stage: str
    gate: str
    reason: Name
    who: Name
    on: str


class Ticked(Shape, kw_only=True):
    """A plain task of the diary, ticked: no record tells that it is done."""

    task: Name
    due: str
    on: str
    who: Name


class Horse(shapes.Body, kw_only=True):
    """One horse with everything that is written down about it."""

    plan: Plan | None = None
    stages: list[StageRecord] = []
    sessions: list[Session] = []
    care: list[Care] = []
    incidents: list[Incident] = []
    off_work: list[OffWork] = []
    rests: list[Rest] = []
    went_ahead: list[WentAhead] = []
    ticked: list[Ticked] = []


class Programme(Shape, kw_only=True):
    """A programme of the yard's own: what it changes in a shipped one.

    ``version_of``: it is a later version of the programme of that name.
    """

    name: Name
    from_: str = field(name="from", default=DEFAULT_PROGRAMME)
    changes: dict[str, Any] = {}
    version_of: str = ""
    made: str | None = None  # the moment, with its offset
    who: str = ""
    why: str = ""


class WrittenProgramme(Programme, kw_only=True, omit_defaults=False):
    """A programme as a dump writes it: always with what it is made from."""


class Bought(Shape, kw_only=True):
    """Something of the list to buy or borrow that has been got."""

    horse: str
    kind: str
    part: str = ""
    on: str


class YardFile(Shape, kw_only=True):
    """The whole file."""

    format: str
    version: int
    yard: shapes.Yard
    people: list[Person] = []
    horses: list[Horse] = []
    tack: list[shapes.Tack] = []
    sets: list[shapes.TackSet] = []
    programmes: list[Programme] = []
    bought: list[Bought] = []
