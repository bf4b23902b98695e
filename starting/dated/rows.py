"""An entry of the diary as a row of a page."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from fitting.drawings.signs import WORDS
from starting.dated.standing import SIGNS, Standing
from starting.diary import EntryKind, said_in_title


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """Where the record that makes an entry true is written, and by whom."""

    href: str
    text: str
    keepers: bool = False  # else helpers write it too


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryRow:
    """One entry, live or past, as a row."""

    on: date
    title: str
    short: str
    horse: str
    horse_key: str
    kind: EntryKind
    reason: str
    standing: Standing
    words: str
    href: str
    act: Act | None = None

    @property
    def sign(self) -> str:
        """The name of its sign."""
        return SIGNS[self.standing]

    @property
    def state(self) -> str:
        """How it stands, in a word."""
        return WORDS[self.sign]

    @property
    def what(self) -> str:
        """The title without the horse; of measuring, without what is measured."""
        if self.kind == "measure":
            return "Measure"
        said = said_in_title(self.title, self.horse)
        return f"{said[:1].upper()}{said[1:]}"
