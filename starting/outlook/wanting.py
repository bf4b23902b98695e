"""What a horse needs ahead, and what it wears that growth will pass."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import Final

from fitting.fit import Answer, Finding, Wearer
from fitting.fit.hung import BIT_PART, HANGING, SADDLE
from fitting.wanted import LOOK_AHEAD_DAYS, Need, Wants, room_of, wants_of
from fitting.wanted.hanging import WHOLE
from starting.outlook.facts import HorseFacts, YardFacts
from starting.outlook.values import StageLook

IN_USE_DAYS: Final = 365  # ours: what was last worn longer ago is not in use
DONE: Final = frozenset({"established", "left_out"})


def wants(
    yard: YardFacts,
    horse: HorseFacts,
    wearer: Wearer,
    findings: tuple[Finding, ...],
    stages: Sequence[StageLook],
    on: date,
) -> Wants:
    """Return what one horse wants; a grown one, kept for comparison, nothing."""
    needs = (*_of_stages(stages, on), *_of_use(horse, findings, on))
    if horse.grown or not needs:
        return Wants()
    room = room_of(wearer, (yard.tack, yard.made_up), yard.pegs, on, findings)
    return wants_of(wearer, room, needs, horse.got, on)


def _of_stages(stages: Sequence[StageLook], on: date) -> Iterator[Need]:
    """Yield the kinds of tack that the steps ahead ask for, on their planned days."""
    for stage in stages:
        if stage.start is None or stage.state in DONE:
            continue
        if (stage.start - on).days > LOOK_AHEAD_DAYS:
            continue
        for gate in stage.gates:
            subject, _, kind = gate.gate.partition(":")
            if subject == "fit":
                yield Need(
                    kind=kind,
                    on=max(stage.start, on),
                    stage=stage.stage,
                    stage_name=stage.name,
                )


def _of_use(horse: HorseFacts, findings: Sequence[Finding], on: date) -> Iterator[Need]:
    """Yield what is worn, on the day from which it is no longer good.

    A saddle is left out: not its size runs out, but the time it was last looked at.
    """
    since = on - timedelta(days=IN_USE_DAYS)
    worn = {t.item for t in horse.tryons if t.how == "worn" and t.on >= since}
    for finding in findings:
        ends = _ends(finding, on)
        if finding.item not in worn or finding.kind == SADDLE or ends is None:
            continue
        part = WHOLE if finding.part in HANGING else finding.part
        kind = "bit" if part == BIT_PART else finding.kind
        yield Need(kind=kind, on=ends, item=finding.item, parts=(part,))


def _ends(finding: Finding, on: date) -> date | None:
    """Return the day from which a part is no longer good by its size."""
    if finding.chance_no is None and finding.answer is not Answer.NO:
        return None  # only seen to fit: another look tells, not another size
    if finding.answer is Answer.GOOD:
        return finding.good_until
    return on if finding.answer in {Answer.NO, Answer.WATCH} else None
