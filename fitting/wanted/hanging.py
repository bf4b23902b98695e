"""How the tack that hangs here sits on a day ahead, and whose it is by then."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Final

from fitting.fit import Answer, Finding, MadeUp, Tack, Wearer, fits, worse
from fitting.fit.answers import Judged, NoRule, Rule
from fitting.fit.findings import hung_rules
from fitting.fit.hung import BIT_PART, HANGING, SADDLE, Hung
from fitting.fit.lasting import Sizes, good_until
from fitting.fit.straps import StrapRule
from fitting.wanted.sizing import UNKNOWN, by_size
from fitting.wanted.values import GoesBack, Offer, Peg

WHOLE: Final = "whole"
BY_SIGHT: Final = "put on"  # what a finding rests on that outranks the arithmetic


@dataclass(frozen=True, slots=True, kw_only=True)
class Hangs:
    """One part of one item or made-up set, on one horse; ``part``: as it is wanted.

    Headpiece, cheekpieces and a bridle measured whole hang the bit together: ``whole``.
    """

    item: str
    kind: str
    part: str
    in_set: bool
    rule: Rule | NoRule
    now: Finding

    def on(self, day: date, sizes: Sizes) -> Answer:
        """Return how it sits on a day: as it was seen, until growth passes it."""
        until = self.now.good_until
        if self.now.answer is Answer.GOOD and (until is None or day < until):
            return Answer.GOOD
        if isinstance(self.rule, NoRule):
            by_sight = self.now.answer in {Answer.WATCH, Answer.NO}
            return self.now.answer if by_sight else Answer.NOT_KNOWN
        return self._reckoned(self.rule, day, sizes)

    def _reckoned(self, rule: Rule, day: date, sizes: Sizes) -> Answer:
        if not is_known(rule.measure, sizes):
            return Answer.NOT_KNOWN
        then = judge_on(rule, day, sizes).answer
        if self.kind == SADDLE:  # its length can only rule it out
            return then if then is Answer.NO else Answer.NOT_KNOWN
        seen = self.now.rests_on.startswith(BY_SIGHT)
        if seen and judge_on(rule, sizes.start, sizes).answer is Answer.GOOD:
            return worse((then, self.now.answer))  # seen to sit otherwise
        return then

    def until(self, day: date, sizes: Sizes) -> date | None:
        """Return the first day it is no longer good, from a day on which it is."""
        seen = self.now.good_until
        if self.now.answer is Answer.GOOD and seen is not None and day < seen:
            return seen
        if isinstance(self.rule, NoRule):
            return seen
        rule, later = self.rule, Sizes(growth=sizes.growth, start=day)
        return good_until(lambda one: judge_on(rule, one, later), day)

    def hole_on(self, day: date, sizes: Sizes) -> int | None:
        """Return the hole it is good on, on a day."""
        if isinstance(self.rule, NoRule):
            return self.now.hole
        body = sizes.at(self.rule.measure, day)
        if body is None:
            return self.now.hole
        return self.rule.finding(body, day, worn=False).hole


def is_known(measure: str, sizes: Sizes) -> bool:
    """Whether a size was ever measured, or told by what was tried on."""
    growth = sizes.growth
    known = growth.known(measure) or bool(growth.taught_on(measure))
    return known and sizes.at(measure, sizes.start) is not None


def judge_on(rule: Rule, day: date, sizes: Sizes) -> Judged:
    """Return the answer of a day by size; a strap's gap and a daily look set aside."""
    body = sizes.at(rule.measure, day)
    if body is None:
        return UNKNOWN
    if isinstance(rule, StrapRule):
        return by_size(rule, body)
    return rule.judge(body, day, worn=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What hangs here, on one horse: each part with its rule, and whose it is.

    ``start``: the day from which is looked ahead.
    """

    horse: str
    start: date
    hangs: tuple[Hangs, ...]
    items_of: tuple[tuple[str, tuple[str, ...]], ...]  # a set's items, by its name
    pegs: tuple[Peg, ...]

    def of_kind(self, kind: str) -> tuple[Hangs, ...]:
        """Return what counts for a kind of tack; a set counts as bit and bridle."""
        found = (one for one in self.hangs if _kind_of(one) == kind)
        return tuple(
            one for one in found if not one.in_set or kind in {"bit", "bridle"}
        )

    def free(self, kind: str, day: date) -> tuple[Hangs, ...]:
        """Return what of a kind the horse has on a day without asking anybody."""
        return tuple(one for one in self.of_kind(kind) if self._is_free(one.item, day))

    def to_lend(self, kind: str, part: str, day: date) -> Iterator[tuple[Hangs, str]]:
        """Yield the items, with whose each is, that could be lent by then."""
        pegs = {peg.item: peg for peg in self.pegs}
        for one in self.of_kind(kind):
            peg = pegs.get(one.item)
            if one.in_set or one.part != part or peg is None:
                continue
            if peg.is_to_lend(self.horse, day, self.start):
                yield one, peg.owner

    def worn_with(self, part: Hangs) -> tuple[Hangs, ...]:
        """Return what goes on with a part: only a bridle is taken apart to be lent."""
        if part.kind == "bridle":
            return (part,)
        return tuple(
            one for one in self.hangs if one.item == part.item and not one.in_set
        )

    def besides(self, part: Hangs, day: date, sizes: Sizes) -> tuple[str, ...]:
        """Return the other parts of its item that are not known to be good by then."""
        others = {
            one.part: None
            for one in self.hangs
            if one.item == part.item and one.part != part.part and not one.in_set
            if one.on(day, sizes) is not Answer.GOOD
        }
        return tuple(others)

    def goes_back(
        self, kind: str, part: str, day: date, sizes: Sizes
    ) -> tuple[GoesBack, ...]:
        """Return what the horse has on loan that is good then, but goes back before."""
        pegs = {peg.item: peg for peg in self.pegs if peg.lent_to == self.horse}
        return tuple(
            GoesBack(item=one.item, by=back, besides=self.besides(one, day, sizes))
            for one in self.of_kind(kind)
            if one.part == part and not one.in_set and one.item in pegs
            if (back := pegs[one.item].back_by) is not None and back < day
            if one.on(day, sizes) is Answer.GOOD
        )

    def _is_free(self, name: str, day: date) -> bool:
        pegs = {peg.item: peg for peg in self.pegs}
        items = dict(self.items_of).get(name, (name,))
        return all(
            pegs.get(item, Peg(item=item)).is_free(self.horse, day, self.start)
            for item in items
        )


def _kind_of(one: Hangs) -> str:
    if one.part == BIT_PART:
        return "bit"
    return "bridle" if one.in_set else one.kind


def room_of(
    wearer: Wearer,
    hanging: tuple[tuple[Tack, ...], tuple[MadeUp, ...]],
    pegs: tuple[Peg, ...],
    on: date,
    findings: tuple[Finding, ...] = (),
) -> Room:
    """Return what hangs here, on one horse.

    Args:
        wearer: the horse.
        hanging: the items on their pegs, and the made-up sets.
        pegs: whose each item is.
        on: the day from which is looked ahead.
        findings: what ``fits`` found of it all, if that is known already.
    """
    tack, made_up = hanging
    now = findings or fits(wearer, tack, made_up, on)
    ruled = hung_rules(wearer, tack, made_up, on)
    return Room(
        horse=wearer.name,
        start=on,
        hangs=tuple(
            _hangs(hung, rule, found)
            for (hung, rule), found in zip(ruled, now, strict=True)
        ),
        items_of=tuple(
            (made.name, tuple(item.name for _, item in made.parts)) for made in made_up
        ),
        pegs=pegs,
    )


def _hangs(hung: Hung, rule: Rule | NoRule, now: Finding) -> Hangs:
    part = hung.part.part
    return Hangs(
        item=hung.item,
        kind=hung.kind,
        part=WHOLE if part in HANGING else part,
        in_set=hung.in_set,
        rule=rule,
        now=now,
    )


def offers(
    room: Room, kind: str, part: str, day: date, sizes: Sizes
) -> tuple[Offer, ...]:
    """Return who could lend a part that is good on a day, the longest good first.

    What is not taken apart is good only as a whole.
    """
    found: dict[str, Offer] = {}
    for one, owner in room.to_lend(kind, part, day):
        worn = room.worn_with(one)
        if worse(each.on(day, sizes) for each in worn) is Answer.GOOD:
            ends = (each.until(day, sizes) for each in worn)
            until = min((end for end in ends if end is not None), default=None)
            hole = one.hole_on(day, sizes)
            offer = Offer(
                item=one.item,
                owner=owner,
                hole=hole,
                until=until,
                besides=room.besides(one, day, sizes),
            )
            found.setdefault(one.item, offer)
    longest = sorted(found.values(), key=lambda one: one.item)
    return tuple(sorted(longest, key=lambda one: one.until or date.max, reverse=True))
