"""What beside the log holds steps back: incidents, who has looked, new tack."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import Final

from fitting.fit import Answer, Finding
from fitting.fit.answers import worst
from fitting.tryons import TryOn
from starting.gates import CareDone
from starting.gates.fit import BIT_PARTS
from starting.outlook.facts import HorseFacts, YardFacts
from starting.programme_fields import FIT_KINDS
from starting.progress import Beside, Look, Looked, NewTack, Outgrown, is_good
from starting.progress.tack import WEAR_STEPS

# What each visit has looked at: ours.
LOOKED: Final[Mapping[str, tuple[Look, ...]]] = {
    "vet": ("vet", "back"),
    "teeth": ("teeth",),
    "back": ("back",),
    "farrier": ("feet",),
    "saddle_fitter": ("saddle", "tack"),
}
# Of a bridle in parts, what it hangs by: a browband is soon learnt.
HANGING: Final = frozenset({"whole", "cheekpieces", "headpiece"})
USABLE: Final = frozenset({Answer.GOOD, Answer.WATCH})


def beside_of(
    yard: YardFacts, horse: HorseFacts, findings: Sequence[Finding]
) -> Beside:
    """Return what holds a horse's steps back beside its log."""
    return Beside(
        incidents=horse.incidents,
        looked=(*looked_at(horse.care), *_tried(horse.tryons)),
        new_tack=tuple(_new_tack(yard, horse, findings)),
        outgrown=tuple(_outgrown(yard, horse, findings)),
    )


def looked_at(care: Iterable[CareDone]) -> Iterator[Looked]:
    """Yield what each visit looked at, and whether it was left clear."""
    for visit in care:
        for what in LOOKED.get(visit.kind, ()):
            yield Looked(what=what, on=visit.on, clear=visit.clear)


def _tried(tryons: Iterable[TryOn]) -> Iterator[Looked]:
    """Yield the tack that was put on, clear where nothing was seen amiss."""
    for tried in tryons:
        if tried.how == "worn":
            right = all(part.seen == "sits_right" for part in tried.parts)
            clear = right and tried.answer in {None, "good"}
            yield Looked(what="tack", on=tried.on, clear=clear)


def _new_tack(
    yard: YardFacts, horse: HorseFacts, findings: Sequence[Finding]
) -> Iterator[NewTack]:
    """Yield each kind that the horse has worn, but in nothing that is good now.

    Who never writes down what was worn is asked for nothing: nobody knows then
    whether it is new.
    """
    if horse.programme is None:
        return
    altered = dict(yard.altered)
    worn = _last_worn(horse)
    for kind in WEAR_STEPS:
        items = _items(yard, kind)
        usable = [item for item in items if _is_usable(item, findings)]
        known = [i for i in usable if i in worn and worn[i] > altered.get(i, date.min)]
        if usable and not known and any(item in worn for item in items):
            since = max((altered[i] for i in usable if i in worn), default=None)
            yield NewTack(kind=kind, items=tuple(usable), since=since)


def _outgrown(
    yard: YardFacts, horse: HorseFacts, findings: Sequence[Finding]
) -> Iterator[Outgrown]:
    """Yield each kind that the horse has worn, and of which nothing here fits now.

    Unknown is not outgrown: then it is asked for, measured or tried on.
    """
    worn = _well_worn(horse)
    for kind in sorted(FIT_KINDS):
        items = [item.name for item in yard.tack if item.kind == kind]
        mine = [name for name in items if name in worn]
        told = {_answer(name, findings) for name in items} - {None}
        told |= {_answer_of(made_up.name, kind, findings) for made_up in yard.made_up}
        if mine and told - {None} == {Answer.NO}:
            last = max(worn[name] for name in mine)
            yield Outgrown(kind=kind, items=tuple(mine), since=last)


def _answer_of(made_up: str, kind: str, findings: Sequence[Finding]) -> Answer | None:
    """Return how a set's bit, or all but its bit, sits; None: no part of the kind."""
    if kind not in {"bit", "bridle"}:
        return None
    own = [
        finding
        for finding in findings
        if finding.item == made_up and (finding.part in BIT_PARTS) == (kind == "bit")
    ]
    return worst(own) if own else None


def _well_worn(horse: HorseFacts) -> dict[str, date]:
    """Return each item with the last day on which it was worn and sat right."""
    found = _last_worn(horse)
    for tried in horse.tryons:
        right = all(part.seen == "sits_right" for part in tried.parts)
        if tried.how == "worn" and right and tried.answer in {None, "good"}:
            found[tried.item] = max(tried.on, found.get(tried.item, tried.on))
    return found


def _answer(item: str, findings: Sequence[Finding]) -> Answer | None:
    """Return how an item sits by itself; None: nothing is said of it."""
    own = [finding for finding in findings if finding.item == item]
    return worst(own) if own else None


def _items(yard: YardFacts, kind: str) -> list[str]:
    return [
        item.name
        for item in yard.tack
        if item.kind == kind
        and (kind != "bridle" or HANGING & {part.part for part in item.parts})
    ]


def _is_usable(item: str, findings: Sequence[Finding]) -> bool:
    return _answer(item, findings) in USABLE


def _last_worn(horse: HorseFacts) -> dict[str, date]:
    """Return each item with the last day on which it was worn and all went well."""
    found = dict(horse.first_worn)
    steps = {s.key: s for s in horse.programme.stages} if horse.programme else {}
    for session in horse.sessions:
        stage = steps.get(session.stage)
        for item in session.worn if stage and is_good(stage, session) else ():
            found[item] = max(session.on, found.get(item, session.on))
    return found
