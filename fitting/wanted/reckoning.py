"""From what a horse needs, and what hangs here, to what is wanted by when."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from fitting.body import measure_by_key
from fitting.fit import Answer, Wearer, worse
from fitting.fit.answers import NoRule
from fitting.fit.bridles import RING_USUAL
from fitting.fit.hung import SADDLE
from fitting.fit.lasting import Sizes
from fitting.growth import Spread
from fitting.wanted.hanging import WHOLE, Hangs, Room, is_known, offers
from fitting.wanted.sizing import (
    Sort,
    good_sizes,
    is_to_keep,
    rule_for,
    steps_of,
    thick_sizes,
    until_of,
)
from fitting.wanted.values import (
    GET_BEFORE_DAYS,
    LOOK_AHEAD_DAYS,
    First,
    Got,
    Need,
    Range,
    Wanted,
    Wants,
)

# The parts a kind cannot do without, then those that are asked for with it where
# nothing of the kind hangs here, or where it has one.
PARTS: Final = {
    "bit": (("mouthpiece",), ()),
    "bridle": ((WHOLE,), ("noseband", "browband", "throatlash")),
    "headcollar": (("nose",), ("crown", "jowl")),
    "cavesson": (("nose",), ("crown", "jowl")),
    "roller": (("strap",), ()),
    "girth": (("strap",), ()),
    "saddle": (("panel",), ()),
    "rug": (("back_seam",), ()),
}
PROBE_MM: Final = 500.0  # any size: the rule says which measure it goes by
TO_TRY: Final = "try it on"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """One need of one horse, and what there is for it."""

    need: Need
    wearer: Wearer
    room: Room
    sizes: Sizes

    @property
    def by(self) -> date:
        """The day it is needed by; not before the day that is looked from."""
        by = self.need.on - timedelta(days=GET_BEFORE_DAYS)
        return max(by, self.sizes.start)


def wants_of(
    wearer: Wearer, room: Room, needs: Iterable[Need], got: Iterable[Got], on: date
) -> Wants:
    """Return what a horse wants within a year, soonest first, each part once.

    Nothing is wanted of what is not known: what to find out first stands apart.
    """
    sizes = Sizes(growth=wearer.growth, start=on)
    last = on + timedelta(days=LOOK_AHEAD_DAYS)
    soon = sorted((n for n in needs if n.on <= last), key=lambda n: (n.on, n.kind))
    found: dict[tuple[str, str], Wanted | First] = {}
    for need in soon:
        asked = _Asked(need=need, wearer=wearer, room=room, sizes=sizes)
        for one in _lacking(asked):
            found.setdefault((one.kind, one.part), one)
    ticks = tuple(got)
    return Wants(
        wanted=tuple(
            _ticked(one, ticks, on) for one in found.values() if isinstance(one, Wanted)
        ),
        first=tuple(one for one in found.values() if isinstance(one, First)),
    )


def _ticked(wanted: Wanted, got: tuple[Got, ...], on: date) -> Wanted:
    days = (one.on for one in got if one.ticks(wanted.kind, wanted.part, on))
    return replace(wanted, got_on=max(days, default=None))


def _lacking(asked: _Asked) -> Iterator[Wanted | First]:
    """Yield the parts that a need lacks on its day; none if something is good."""
    need, sizes = asked.need, asked.sizes
    hangs = asked.room.free(need.kind, need.on)
    if need.kind not in PARTS or _something_good(hangs, need, sizes):
        return
    for part in _parts_asked(hangs, need):
        holders = [one for one in hangs if one.part == part]
        answers = [one.on(need.on, sizes) for one in holders]
        if Answer.GOOD in answers:
            continue
        said = zip(holders, answers, strict=True)
        open_ones = [one for one, answer in said if answer is Answer.NOT_KNOWN]
        yield from _one_lacking(asked, part, open_ones)


def _something_good(hangs: tuple[Hangs, ...], need: Need, sizes: Sizes) -> bool:
    """Whether some item or set has all it needs, and all of it is good on the day."""
    must, _ = PARTS[need.kind]
    for name in dict.fromkeys(one.item for one in hangs):
        parts = [one for one in hangs if one.item == name]
        if not {*must} <= {one.part for one in parts}:
            continue
        if worse(one.on(need.on, sizes) for one in parts) is Answer.GOOD:
            return True
    return False


def _parts_asked(hangs: tuple[Hangs, ...], need: Need) -> tuple[str, ...]:
    must, more = PARTS[need.kind]
    if need.parts:
        return tuple(part for part in (*must, *more) if part in need.parts)
    has = {one.part for one in hangs}
    return (*must, *(part for part in more if part in has or not has & {*must}))


def _one_lacking(
    asked: _Asked, part: str, open_ones: list[Hangs]
) -> Iterator[Wanted | First]:
    """Yield what is wanted of one part, or what has to be known before."""
    sort = Sort(kind=asked.need.kind, part=part)
    rule = rule_for(sort, PROBE_MM, asked.wearer, asked.need.on)
    if isinstance(rule, NoRule):  # pragma: no cover - its size is written down
        return
    if not is_known(rule.measure, asked.sizes):
        if part in PARTS[sort.kind][0] or open_ones:
            yield _to_measure(asked, part, rule.measure)
        return
    if open_ones:
        yield _first(asked, part, _ask_of(open_ones[0]))
        return
    body = asked.sizes.at(rule.measure, asked.need.on)
    good = body and good_sizes(sort, body, asked.wearer, asked.need.on)
    if body is None or not good:
        yield _to_measure(asked, part, rule.measure, closer=True)
        return
    yield _wanted(asked, sort, rule.measure, good)


def _to_measure(
    asked: _Asked, part: str, measure: str, *, closer: bool = False
) -> First:
    name = measure_by_key(measure).name
    ask = f"Measure {name} first"
    if closer:
        ask = f"Measure {name} again: it is not known closely enough for a size"
    return replace(_first(asked, part, f"{ask}."), measure=measure)


def _ask_of(one: Hangs) -> str:
    """Return what would tell whether an item does."""
    if one.kind == SADDLE:
        return f"Have a saddle fitter see {one.item} on first: it may do."
    ask = one.now.ask or (one.rule.ask if isinstance(one.rule, NoRule) else "")
    if ask in {"", TO_TRY}:
        return f"Put {one.item} on first: it may do."
    return f"{one.item} may do. Still to be had: {ask}."


def _first(asked: _Asked, part: str, ask: str) -> First:
    need = asked.need
    return First(
        kind=need.kind,
        part=part,
        needed_on=need.on,
        ask=ask,
        stage=need.stage,
        stage_name=need.stage_name,
    )


def _wanted(asked: _Asked, sort: Sort, measure: str, good: Range) -> Wanted:
    need, wearer = asked.need, asked.wearer
    later = Sizes(growth=wearer.growth, start=need.on)
    steps = steps_of(sort, good, wearer, later)
    rule = rule_for(sort, PROBE_MM, wearer, need.on)
    bit = sort.part == "mouthpiece"
    return Wanted(
        kind=need.kind,
        part=sort.part,
        needed_on=need.on,
        by=asked.by,
        good=good,
        measure=measure,
        measure_name=rule.measure_name if not isinstance(rule, NoRule) else measure,
        body_mm=asked.sizes.median(measure, need.on) or 0.0,
        keep=is_to_keep(sort, measure, wearer, need.on),
        stage=need.stage,
        stage_name=need.stage_name,
        item=need.item,
        until=_longest(sort, good, wearer, later),
        grown=_grown(sort, measure, wearer, need.on),
        loose=_loose(measure, wearer, later) if bit else None,
        thick=thick_sizes(wearer, need.on) if bit else None,
        ring_mm=wearer.edges.value(RING_USUAL) if bit else None,
        steps=steps,
        borrow=offers(asked.room, need.kind, sort.part, need.on, asked.sizes),
        goes_back=asked.room.goes_back(need.kind, sort.part, need.on, asked.sizes),
        stale=dict(wearer.standing).get(measure) == "stale",
        cautions=tuple(rule.cautions),
        sources=tuple(rule.sources),
    )


def _longest(sort: Sort, good: Range, wearer: Wearer, later: Sizes) -> date | None:
    """Return until when the best of the good sizes stays good; None: as looked.

    The last good size lasts longest, for a horse grows; of a panel any does.
    """
    size = good.from_mm if good.to_mm is None else good.to_mm
    return None if size is None else until_of(sort, size, wearer, later)


def _grown(sort: Sort, measure: str, wearer: Wearer, on: date) -> Range | None:
    """Return the sizes that are good for the grown horse, if it grows still."""
    body: Spread | None = wearer.growth.grown_size(measure)
    if body is None or wearer.grown:
        return None
    return good_sizes(sort, body, wearer, on)


def _loose(measure: str, wearer: Wearer, later: Sizes) -> Range | None:
    """Return the lengths that are good with loose rings."""
    body = later.at(measure, later.start)
    sort = Sort(kind="bit", part="mouthpiece", cheek="loose_ring")
    return None if body is None else good_sizes(sort, body, wearer, later.start)
