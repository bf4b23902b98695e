"""What is drawn of tack on a horse, and the numbered list that stands beside it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from fitting.drawings.head_shape import Shape, shape_of
from fitting.drawings.ink import Said
from fitting.drawings.signs import word_of
from fitting.drawings.straps import PartOn
from fitting.drawings.tack_on_head import tack_on_head
from fitting.drawings.tack_on_horse import (
    USUAL_TALL_MM,
    Body,
    build_of,
    tack_on_horse,
)
from fitting.fit.answers import Finding
from fitting.fit.holes import Straps, straps_of
from fitting.fit.staleness import stale_words
from fitting.fit.tack import Part
from fitting.looks import Seen
from fitting.pieces import part_word
from fitting.told import told_parts

BRIDLE: Final = "bridle"
ON_HEAD: Final = frozenset({BRIDLE, "headcollar", "cavesson"})
ON_BODY: Final = frozenset({"roller", "girth", "saddle", "rug"})
DRAWN: Final = ON_HEAD | ON_BODY
FOALS_WEAR: Final = frozenset({"headcollar"})
FOAL_UNDER_MONTHS: Final = 5  # ours: from then on it is drawn as a youngster
TOO_YOUNG: Final = (
    "No picture: a foal under five months is built otherwise than the horse that is"
    " drawn here."
)
_ORDER: Final = (
    *("cheekpieces", "headpiece", "whole", "browband", "noseband", "throatlash"),
    *("nose", "crown", "jowl", "strap", "panel", "back_seam", "mouthpiece"),
)
_HANGING: Final = frozenset({"cheekpieces", "headpiece", "whole"})
_COVERS: Final = {"panel": "back_length", "back_seam": "rug_length"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbered:
    """One part's finding with its number on the picture."""

    number: int
    name: str
    finding: Finding
    holes: int | None

    @property
    def rests_on(self) -> str:
        """What the answer rests on, where its reason does not begin with that."""
        found = self.finding
        said = found.why.lower().startswith(found.rests_on.lower())
        return "" if said else found.rests_on

    @property
    def stale(self) -> str:
        """How old the size is that it goes by, and what to do, if too old."""
        return stale_words([self.finding])

    @property
    def tells_hole(self) -> bool:
        """Whether the hole has to be told: its reason does not tell it."""
        told = self.hole_words
        return bool(told) and told not in self.finding.why.lower()

    @property
    def hole_words(self) -> str:
        """The hole and how many there are, in words; nothing where none is told."""
        if not self.finding.hole:
            return ""
        of = f" of {self.holes}" if self.holes else ""
        return f"hole {self.finding.hole}{of}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Worn:
    """An item or a set as it is drawn on one horse; ``kind``: whose rules it keeps."""

    kind: str
    parts: tuple[PartOn, ...]
    said: Said
    shape: Shape
    head_mm: float | None
    body: Body

    def drawn(self) -> str:
        """Return the picture (SVG text)."""
        if self.kind in ON_BODY:
            return tack_on_horse(self.kind, self.parts[0], self.said, self.body)
        return tack_on_head(
            self.kind, self.parts, self.said, shape=self.shape, head_mm=self.head_mm
        )


def numbered(findings: Sequence[Finding]) -> tuple[Numbered, ...]:
    """Return the parts as they are numbered: from the poll down, the bit last."""
    told = sorted(told_parts(findings), key=_place)
    return tuple(
        Numbered(
            number=number,
            name=part_word(finding.part).capitalize(),
            finding=finding,
            holes=_holes(finding),
        )
        for number, finding in enumerate(told, start=1)
    )


def _place(finding: Finding) -> int:
    return _ORDER.index(finding.part) if finding.part in _ORDER else len(_ORDER)


def _holes(finding: Finding) -> int | None:
    """Return how many holes there are, by those to spare each way."""
    longer, shorter = finding.spare_longer, finding.spare_shorter
    return None if longer is None or shorter is None else longer + shorter + 1


def worn(
    thing: str,
    kind: str,
    findings: Sequence[Finding],
    parts: Iterable[Part],
    seen: Seen,
) -> Worn | None:
    """Return how an item or set is drawn on a horse; None where nothing is drawn.

    Args:
        thing: its name.
        kind: its kind; a made-up set is a bridle.
        findings: how each of its parts sits.
        parts: its parts as they are written down, each once.
        seen: the horse on the day.
    """
    foal = seen.age_months < FOAL_UNDER_MONTHS
    if kind not in DRAWN or not findings or (foal and kind in ON_BODY):
        return None
    list_of = numbered(findings)
    numbers = {one.finding.part: one.number for one in list_of}
    known = {part.part: part for part in parts}
    drawn = tuple(
        _drawn(finding, numbers.get(finding.part, 0), known, seen)
        for finding in sorted(findings, key=_place)
    )
    withers, croup = _likely(seen, "withers_height"), _likely(seen, "croup_height")
    tall = withers or USUAL_TALL_MM
    return Worn(
        kind=kind,
        parts=drawn,
        said=_said(thing, seen.horse, list_of),
        shape=shape_of(
            _known(seen, "head_length"),
            _known(seen, "nose_round"),
            _known(seen, "throat_round"),
            foal=foal,
        ),
        head_mm=_likely(seen, "head_length"),
        body=Body(build=build_of(seen.age_months, withers, croup), tall_mm=tall),
    )


def _drawn(
    finding: Finding, number: int, known: Mapping[str, Part], seen: Seen
) -> PartOn:
    part = known.get(finding.part) or Part(part=finding.part)
    covers = _likely(seen, _COVERS.get(finding.part, ""))
    size = finding.size_mm
    return PartOn(
        part=finding.part,
        answer=str(finding.answer),
        number=number,
        hole=finding.hole,
        holes=_holes(finding),
        spacing_mm=_spacing(part, known),
        cheek=part.cheek or "",
        ring_mm=part.ring_mm,
        long=size / covers if size and covers else None,
    )


def _spacing(part: Part, known: Mapping[str, Part]) -> float | None:
    """Return how far apart the holes are (mm), as the rules reckon it."""
    if part.part in _HANGING:
        straps = straps_of(tuple(known.values()))
        return straps.spacing_mm if isinstance(straps, Straps) else None
    if part.spacing_mm:
        return part.spacing_mm
    if part.shortest_mm and part.longest_mm and part.holes and part.holes > 1:
        return (part.longest_mm - part.shortest_mm) / (part.holes - 1)
    return part.strap_width_mm


def _likely(seen: Seen, measure: str) -> float | None:
    """Return the most likely size (mm), measured or not."""
    look = seen.measure(measure)
    return look.now.p50 if look and look.now else None


def _known(seen: Seen, measure: str) -> float | None:
    """Return the most likely size (mm), if more than the type of horse tells it."""
    look = seen.measure(measure)
    return None if look is None or look.rests_on == "type" else _likely(seen, measure)


def _said(thing: str, horse: str, list_of: Sequence[Numbered]) -> Said:
    """Return the picture in words."""
    parts = (
        f"{one.number} {one.name}: {word_of(one.finding.answer)}"
        f"{f', {one.hole_words}' if one.hole_words else ''}."
        for one in list_of
    )
    return Said(
        uid="worn",
        title=f"{thing} on {horse}, part by part",
        desc=" ".join(parts),
    )
