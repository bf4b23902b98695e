"""Tack that is new, or altered: one session at the step where it is learnt to wear.

What is outgrown holds the steps that ask for it. The matching is ours.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from starting.programme import Programme, Stage
from starting.progress.log import Log, is_good
from starting.progress.tally import Tally
from starting.progress.values import Held, NewTack, Outgrown

# Where each kind of tack is worn for its own sake: ours.
WEAR_STEPS: Final = {
    "bridle": "bridle",
    "bit": "led_in_bit",
    "roller": "roller",
    "saddle": "saddle",
}


def new_tack(
    log: Log, tallies: Mapping[str, Tally], new: tuple[NewTack, ...]
) -> dict[str, list[Held]]:
    """Return the steps that wait for one good session in new tack, by step.

    A step waits where it asks for that kind and stands on the step of wearing it, and
    that was established before: else it is learnt there anyway.
    """
    found: dict[str, list[Held]] = {}
    for tack in new:
        wear = WEAR_STEPS.get(tack.kind, "")
        tally = tallies.get(wear)
        if tally is None or tally.established_on is None or _worn(log, wear, tack):
            continue
        for stage in _asking(log.programme, wear, tack.kind):
            held = Held(
                rule="new_tack",
                stage=stage.key,
                since=tack.since or tally.established_on,
                to=wear,
                needed=1,
                what=tack.kind,
            )
            found.setdefault(stage.key, []).append(held)
    return found


def _worn(log: Log, wear: str, tack: NewTack) -> bool:
    """Whether a good session of the wearing step names one of the items."""
    stage = log.programme.stage(wear)
    return any(
        is_good(stage, one) and set(one.worn) & set(tack.items)
        for one in log.sessions[wear]
        if tack.since is None or one.on > tack.since
    )


def _asking(programme: Programme, wear: str, kind: str) -> list[Stage]:
    above = {wear}
    found = []
    for stage in programme.stages:
        if above & set(stage.prerequisites):
            above.add(stage.key)
            if stage.kind == "sessions" and f"fit:{kind}" in stage.gates_to_do:
                found.append(stage)
    return found


def outgrown(
    programme: Programme, tallies: Mapping[str, Tally], grown_out: tuple[Outgrown, ...]
) -> dict[str, list[Held]]:
    """Return the steps that wait because what was worn for them is outgrown, by step.

    Those that ask for no such tack go on, and what is established stays so.
    """
    found: dict[str, list[Held]] = {}
    for tack in grown_out:
        for stage in programme.stages:
            tally = tallies[stage.key]
            over = tally.established_on is not None or tally.left_out
            if not over and f"fit:{tack.kind}" in stage.gates_to_do:
                held = Held(
                    rule="outgrown",
                    stage=stage.key,
                    since=tack.since,
                    what=tack.kind,
                    items=tack.items,
                )
                found.setdefault(stage.key, []).append(held)
    return found
