"""The shape of a yard file: yard, horses' bodies, tack. Keys stand in file order.

What a key may hold beyond its shape (choices, lengths of text) the rows know; they
are asked when the row is made.
"""

from __future__ import annotations

from typing import Annotated, Any, dataclass_transform

from msgspec import Meta, Struct, field

from fitting.models.yard import every_day
from fitting.pieces import MOST_HOLES

Name = Annotated[str, Meta(pattern=r"\S")]
Hole = Annotated[int, Meta(ge=1, le=MOST_HOLES)]
Reading = str | int | float


@dataclass_transform(
    kw_only_default=True, frozen_default=True, field_specifiers=(field,)
)
class Shape(
    Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True
):
    """Keys that are not listed are errors; what is as usual may be left out.

    Each class says ``kw_only`` again: it alone is not handed down.
    """


class Units(Shape, kw_only=True, omit_defaults=False):
    """What a bare number means."""

    height: str = "hands"
    length: str = "in"
    weight: str = "kg"


class Yard(Shape, kw_only=True, omit_defaults=False):
    """The yard and its days."""

    name: Name
    timezone: str = "Europe/London"
    hemisphere: str = "north"
    units: Units = Units()
    free_days: list[str] = field(default_factory=every_day)
    helper_days: list[str] = []
    sessions_a_day: int = 2
    covered_area: bool = False
    settings: dict[str, Any] = {}


class Measurement(Shape, kw_only=True):
    """One measure, one day, one method."""

    measure: str
    on: str
    readings: Annotated[list[Reading], Meta(min_length=1)]
    method: str
    same_person: bool = False
    who: str = ""
    shod: bool = False
    struck: str = ""
    note: str = ""


class TriedPart(Shape, kw_only=True):
    """What was seen of one part."""

    part: str
    seen: str
    hole: Hole | None = None
    gap: str | None = None


class TryOn(Shape, kw_only=True):
    """One try-on of an item or of a made-up set."""

    on: str
    item: str = ""
    made_up: str = field(name="set", default="")
    how: str
    answer: str = ""
    who: str = ""
    parts: list[TriedPart] = []
    stop: str = ""
    stop_sign: str = ""
    struck: str = ""
    note: str = ""


class FirstWorn(Shape, kw_only=True):
    """The first day of a kind of tack."""

    kind: str
    item: str = ""
    on: str
    who: str = ""
    how_it_went: str = ""


class EdgeChange(Shape, kw_only=True):
    """A figure that tack is judged by, put in place of ours; without ``to``: back."""

    edge: str
    to: str | None = None
    by: str = ""
    on: str
    why: str = ""


class Body(Shape, kw_only=True):
    """One horse and what is written down about its body."""

    key: Name | None = field(name="id", default=None)
    name: Name
    sex: str
    foaled: str
    horse_type: str = field(name="type")
    grown: bool = False
    lives_out: bool = False
    dam_height: str | None = None
    sire_height: str | None = None
    clearances: dict[str, str | list[dict[str, Any]]] = {}
    measurements: list[Measurement] = []
    tryons: list[TryOn] = []
    first_worn: list[FirstWorn] = []


class Part(Shape, kw_only=True):
    """One part of an item."""

    part: str
    length: str | None = None
    shortest: str | None = None
    longest: str | None = None
    thickness: str | None = None
    cheek: str = ""
    mouthpiece: str = ""
    material: str = ""
    ring: str | None = None
    holes: Hole | None = None
    spacing: str | None = None
    strap_width: str | None = None
    hole: Hole | None = None


class Loan(Shape, kw_only=True):
    """To whom an item is lent."""

    to: str
    start: str | None = field(name="from", default=None)
    own_hole: Hole | None = None
    back_by: str | None = None
    returned: str | None = None


class Tack(Shape, kw_only=True):
    """One item of tack."""

    key: Name | None = field(name="id", default=None)
    name: Name
    kind: str
    label_size: str = ""
    belongs_to: str = ""
    bought: str | None = None
    gone: str | None = None
    loans: list[Loan] = []
    note: str = ""
    parts: list[Part] = []


class Slots(Shape, kw_only=True):
    """Which item each part of a made-up set is taken from."""

    whole: str | None = None
    headpiece: str | None = None
    cheekpieces: str | None = None
    browband: str | None = None
    noseband: str | None = None
    throatlash: str | None = None
    bit: str | None = None


class TackSet(Shape, kw_only=True):
    """A bridle made up from parts."""

    name: Name
    parts: Slots = Slots()
    gone: str | None = None
