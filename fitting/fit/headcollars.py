"""The rule of a headcollar: nose with slack, crown and jowl strap; a foal's daily."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from fitting.age import reaches_months
from fitting.fit.answers import Gap, NoRule, Wearer
from fitting.fit.clearances import gap, path_share, window
from fitting.fit.lengths import lengths_of
from fitting.fit.straps import StrapRule
from fitting.fit.tack import Part
from fitting.tryons import BODY_OF_PART, FOAL_STANDS_DAYS

DAILY_UNDER: Final = "headcollar.daily_under"
HEADCOLLAR_KIND: Final = "headcollar"
NOSE: Final = "nose"
SOURCES: Final = ("foal_headcollar", "common_practice", "ours")
HEADCOLLAR: Final = (
    "Two fingers under the nose strap, and the strap two fingers below the cheekbone."
    " A headcollar left on can catch on a fence or a hind foot."
)
FOAL_HEADCOLLAR: Final = (
    "Look at a headcollar on a young horse every day it is worn: one that fitted last"
    " week can be too tight, and a tight one marks the growing face."
)
NAMES: Final = {
    "nose": "round the nose",
    "crown": "head length",
    "jowl": "round the throat",
}
PATHS: Final = {
    "nose": "round the nose",
    "crown": "its path over the poll, reckoned from the head length",
    "jowl": "its path under the jaw, reckoned from round the throat",
}
TIGHT: Final = {"nose": "too tight", "crown": "too short", "jowl": "too tight"}
LOOSE: Final = {"nose": "too loose", "crown": "too long", "jowl": "too loose"}
PARTS: Final = tuple(NAMES)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadcollarRule(StrapRule):
    """One strap of a headcollar on one horse.

    ``looked_on``: the day it was last put on and looked at, None if never.
    """

    wearer: Wearer
    looked_on: date | None = None

    @property
    def gap(self) -> Gap | None:
        """The room at the front of the nose that it is judged by when it is worn."""
        return _gap(self.part, self.wearer)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What stands beside every answer."""
        return cautions(self.wearer)

    @property
    def sources(self) -> tuple[str, ...]:
        """The keys of the sources of its numbers."""
        return SOURCES

    def holds_back(self, on: date) -> str:
        """Return that a foal's headcollar was not looked at since, or nothing."""
        return unlooked(self.wearer, self.looked_on, on)


def rule(
    item: str, kind: str, part: Part, wearer: Wearer, on: date
) -> HeadcollarRule | NoRule:
    """Return the rule of a headcollar's strap, or what has to be written down first."""
    word = part.part
    lengths = lengths_of(part, BODY_OF_PART[word])
    if isinstance(lengths, NoRule):
        return replace(
            lengths,
            cautions=cautions(wearer),
            sources=SOURCES,
            gap=_gap(word, wearer),
        )
    return HeadcollarRule(
        item=item,
        kind=kind,
        part=word,
        measure=BODY_OF_PART[word],
        measure_name=NAMES[word],
        path=PATHS[word],
        tight=TIGHT[word],
        loose=LOOSE[word],
        lengths=lengths,
        window=window(_table(word, wearer), wearer.edges),
        share=path_share(word, wearer.edges),
        wearer=wearer,
        looked_on=last_looked(item, wearer, on),
    )


def _table(word: str, wearer: Wearer) -> str:
    young = "young_" if word == NOSE and not wearer.grown else ""
    return f"strap.{young}headcollar_{word}"


def _gap(word: str, wearer: Wearer) -> Gap | None:
    return gap("gap.headcollar", wearer.edges) if word == NOSE else None


def cautions(wearer: Wearer) -> tuple[str, ...]:
    """Return what stands beside every answer on a headcollar."""
    return (HEADCOLLAR,) if wearer.grown else (HEADCOLLAR, FOAL_HEADCOLLAR)


def last_looked(item: str, wearer: Wearer, on: date) -> date | None:
    """Return the day the headcollar was last put on and written down."""
    worn = (
        tryon.on
        for tryon in wearer.tryons
        if tryon.item == item and tryon.how == "worn" and tryon.on <= on
    )
    return max(worn, default=None)


def unlooked(wearer: Wearer, looked_on: date | None, on: date) -> str:
    """Return how long ago a foal's headcollar was looked at, if more than a day.

    Source: an article on foal headcollars asks for the daily look; under which age is
    ours.
    """
    under = round(wearer.edges.value(DAILY_UNDER))
    if looked_on is None or on >= reaches_months(wearer.foaled, under):
        return ""
    days = (on - looked_on).days
    if days <= FOAL_STANDS_DAYS:
        return ""
    return f"Last looked at {days} days ago: look at it every day that it is worn."
