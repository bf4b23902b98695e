"""What is wanted for a horse, from whom it may come, and what to find out first."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

GET_BEFORE_DAYS: Final = 21  # ours: time to find it, and to try it on
LOOK_AHEAD_DAYS: Final = 365  # what is needed later than that is not looked for yet
GOT_STANDS_DAYS: Final = 90  # ours: then what was got hangs here, or is asked for again


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """A kind of tack that is needed on a day.

    ``stage`` and ``stage_name``: the step that needs it; empty where ``item``, which is
    in use, is no longer good from that day on. ``parts`` empty: all that the kind has.
    """

    kind: str
    on: date
    stage: str = ""
    stage_name: str = ""
    item: str = ""
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Peg:
    """Whose an item is, and to whom it is lent just now.

    ``owner`` empty: the yard's own. ``lent_to`` empty: it hangs on its peg;
    ``back_by`` None: lent without a day to go back on.
    """

    item: str
    owner: str = ""
    lent_to: str = ""
    back_by: date | None = None

    def is_free(self, horse: str, on: date, today: date) -> bool:
        """Whether that horse has it on a day without asking anybody."""
        if self._out(horse, on, today):
            return self.lent_to == horse
        return self.lent_to != horse and self.owner in {"", horse}

    def is_to_lend(self, horse: str, on: date, today: date) -> bool:
        """Whether somebody could be asked for it, for that horse on that day."""
        return not self._out(horse, on, today) and not self.is_free(horse, on, today)

    def _out(self, horse: str, on: date, today: date) -> bool:
        """Whether it is lent that day; what another has past its day is still away."""
        if not self.lent_to or self.back_by is None:
            return bool(self.lent_to)
        overdue = self.back_by < today and self.lent_to != horse
        return overdue or on <= self.back_by


@dataclass(frozen=True, slots=True, kw_only=True)
class Got:
    """Something of the list that was ticked off; ``part`` empty: all of the kind."""

    kind: str
    part: str
    on: date

    def ticks(self, kind: str, part: str, today: date) -> bool:
        """Whether it still ticks off a part that is wanted."""
        lately = self.on <= today <= self.on + timedelta(days=GOT_STANDS_DAYS)
        return lately and self.kind == kind and self.part in {"", part}


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One usual size in a shop; ``until``: the first day it is no longer good.

    ``unit``: in which it is sold, ``in`` or ``mm``; ``until`` None: as far as looked.
    """

    mm: float
    unit: str
    until: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """An item that somebody could lend: whose, on which hole, good until when.

    ``besides``: its other parts, where they are not good by then, or not known.
    """

    item: str
    owner: str
    hole: int | None
    until: date | None
    besides: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GoesBack:
    """An item that would be good, but is lent and goes back before it is needed.

    ``besides``: as of an offer.
    """

    item: str
    by: date
    besides: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """Sizes (mm): from one, up to another; None: there is no such end."""

    from_mm: float | None = None
    to_mm: float | None = None

    def has(self, size_mm: float) -> bool:
        """Whether a size lies inside, ends and all."""
        above = self.from_mm is None or self.from_mm <= size_mm
        return above and (self.to_mm is None or size_mm <= self.to_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One part to buy or borrow.

    ``good``: the sizes that are good on the day it is needed, done up where it does up
    (of a roller: at its longest); ``grown``: the same for the grown horse. ``until``:
    the first day on which even the longest-lasting of ``good`` is no longer good.
    ``loose``: the lengths of a loose-ring bit; ``thick``: beside its ring,
    ``ring_mm`` across it, inside. ``body_mm``:
    the horse's own size on that day; ``stale``: measured too long ago. ``goes_back``:
    what the horse has on loan that would have done.
    """

    kind: str
    part: str
    needed_on: date
    by: date
    good: Range
    measure: str
    measure_name: str
    body_mm: float
    keep: bool
    stage: str = ""
    stage_name: str = ""
    item: str = ""
    until: date | None = None
    grown: Range | None = None
    loose: Range | None = None
    ring_mm: float | None = None
    thick: Range | None = None
    steps: tuple[Step, ...] = ()
    borrow: tuple[Offer, ...] = ()
    stale: bool = False
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    got_on: date | None = None
    goes_back: tuple[GoesBack, ...] = ()

    @property
    def is_due(self) -> bool:
        """Whether it is needed on the very day from which is looked ahead."""
        return self.needed_on == self.by

    @property
    def longest(self) -> Step | None:
        """The usual size that is good for longest, the smaller of two alike."""
        if not self.steps:
            return None
        return max(self.steps, key=lambda step: (step.until or date.max, -step.mm))

    @property
    def outlasting(self) -> Step | None:
        """The usual size that is good for longer than every other, if there is one."""
        longest = self.longest
        alike = [step for step in self.steps if longest and step.until == longest.until]
        return longest if len(alike) == 1 < len(self.steps) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class First:
    """What has to be known before anything can be wanted; ``measure``: to be taken."""

    kind: str
    part: str
    needed_on: date
    ask: str
    measure: str = ""
    stage: str = ""
    stage_name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wants:
    """What is wanted for one horse, soonest first, and what to find out first."""

    wanted: tuple[Wanted, ...] = ()
    first: tuple[First, ...] = ()
