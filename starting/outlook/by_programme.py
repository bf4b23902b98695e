"""What a programme's settings make of one horse's way up."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from typing import Final

from fitting.looks import MeasureLook
from starting.gates import GateFacts
from starting.outlook.facts import HorseFacts
from starting.outlook.values import StageLook
from starting.outlook.work import ends_without_rider
from starting.progress.ending import beyond_end, completed_on
from starting.progress.of_its_age import of_its_age
from starting.proposing import Proposal, proposal

HEIGHT: Final = "withers_height"
BEGUN: Final = frozenset({"established", "under_way"})


def at_its_age(horse: HorseFacts, on: date) -> HorseFacts:
    """Return a horse with the good sessions its programme asks for at its age."""
    if horse.programme is None:
        return horse
    programme = of_its_age(horse.programme, horse.foaled, horse.sessions, on)
    return replace(horse, programme=programme)


def with_end(horse: HorseFacts, looks: Iterable[StageLook]) -> list[StageLook]:
    """Return steps that say why they are left out, where the way up ends before."""
    programme = horse.programme
    if programme is None or not ends_without_rider(horse, programme):
        return list(looks)
    end = programme.stage(programme.may_end_at or "").name
    beyond, by_hand = beyond_end(programme), {one.stage for one in horse.records}
    why = f"Nobody is named to ride {horse.name}: the way up ends with {end}."
    return [
        replace(look, because=why)
        if look.state == "left_out" and look.stage in beyond - by_hand
        else look
        for look in looks
    ]


def asked_about(
    horse: HorseFacts,
    stages: Iterable[StageLook],
    measures: Iterable[MeasureLook],
    on: date,
) -> Proposal | None:
    """Return a programme to ask the keeper about; None: none, or one was chosen."""
    if not horse.may_ask or horse.programme is None:
        return None
    height = next((m for m in measures if m.measure == HEIGHT), None)
    return proposal(
        horse.name,
        horse.horse_type,
        horse.foaled,
        on,
        begun=any(look.state in BEGUN for look in stages),
        grown_mm=height.grown.p50 if height and height.grown else None,
    )


def complete_words(horse: HorseFacts, facts: GateFacts | None) -> str:
    """Return that a way up without a rider is complete; empty: it is not."""
    if facts is None or not ends_without_rider(horse, facts.programme):
        return ""
    since = completed_on(facts.programme, facts.progress)
    if since is None:
        return ""
    end = facts.programme.stage(facts.programme.may_end_at or "").name
    day = f"{since.day} {since:%b %Y}"
    return f"{end} is established since {day}: {horse.name}'s way up is complete."
