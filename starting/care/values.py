"""What is known of a horse's care, and how it is told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.age import Foaled
from starting.gates import CareDone
from starting.gates.asked import HER

# Of these it is always said whether anything was left open: something rests on it.
LOOKED_OVER: Final = frozenset({"teeth", "vet", "back", "saddle_fitter"})
# Of these it is asked: after a gelding, whether the vet has cleared the horse.
ASKED_WHETHER_CLEAR: Final = LOOKED_OVER | {"gelding"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One visit, and who came."""

    done: CareDone
    who: str = ""

    @property
    def by(self) -> str:
        """Who came, inside a sentence: ``the vet`` where ``The vet`` was typed."""
        return f"the {self.who[4:]}" if self.who.startswith("The ") else self.who


@dataclass(frozen=True, slots=True, kw_only=True)
class Whose:
    """Whose records they are."""

    name: str
    she: str
    grown: bool = False
    foaled: Foaled | None = None

    @property
    def her(self) -> str:
        """``her`` or ``him``."""
        return HER.get(self.she, self.name)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One row: what a record says. ``tone`` empty: nothing to answer."""

    title: str
    text: str
    tone: str = ""  # met, caution, shut, unknown
    word: str = ""
    notes: tuple[str, ...] = ()

    @property
    def sign(self) -> str:
        """The sign that stands in the margin; empty: none."""
        return f"gate-{self.tone}" if self.tone else ""


def say_date(on: date) -> str:
    """Return a day as the pages show it: ``26 Nov 2026``."""
    return f"{on.day} {on:%b %Y}"


def last_visit(visits: Sequence[Visit], kind: str, on: date) -> Visit | None:
    """Return the last visit of a kind up to a day; None if there is none."""
    of_kind = (v for v in visits if v.done.kind == kind and v.done.on <= on)
    return max(of_kind, key=lambda v: (v.done.on, not v.done.clear), default=None)
