"""The gate of the steps before."""

from __future__ import annotations

from fitting.listed import listed
from starting.gates.asked import Asked
from starting.gates.facts import Gate, GateAnswer
from starting.progress import StageProgress


def stages_before(ask: Asked) -> Gate:
    """Return whether every step before is established, or an optional one left out."""
    once = ask.stage.prerequisites_once
    usual = tuple(key for key in ask.stage.prerequisites if key not in once)
    missing = (
        *(key for key in usual if not _settled(ask, key)),
        *(key for key in once if not _ever_settled(ask, key)),
    )
    again = tuple(key for key in usual if _go_over(ask, key))
    if missing:
        return _before(ask, GateAnswer.SHUT, missing)
    if again:
        return _before(ask, GateAnswer.CAUTION, again)
    return _before(ask, GateAnswer.MET, (*usual, *once))


def _of(ask: Asked, key: str) -> StageProgress | None:
    return next((at for at in ask.facts.progress.stages if at.stage == key), None)


def _settled(ask: Asked, key: str) -> bool:
    """Return whether a step is established; left out counts only where it may be."""
    at = _of(ask, key)
    if at is not None and at.state == "left_out":
        return _optional(ask, key)
    return at is not None and at.state == "established"


def _optional(ask: Asked, key: str) -> bool:
    return any(s.key == key and s.optional for s in ask.facts.programme.stages)


def _ever_settled(ask: Asked, key: str) -> bool:
    at = _of(ask, key)
    return _settled(ask, key) or (at is not None and at.established_on is not None)


def _go_over(ask: Asked, key: str) -> bool:
    at = _of(ask, key)
    return at is not None and at.go_over_again


def _before(ask: Asked, answer: GateAnswer, keys: tuple[str, ...]) -> Gate:
    names = listed(tuple(_step_name(ask, key) for key in keys))
    is_are = "is" if len(keys) == 1 else "are"
    why, would_meet = {
        GateAnswer.SHUT: (f"First comes: {names}.", f"{names} established."),
        GateAnswer.CAUTION: (
            f"{names} {is_are} to be gone over again with {ask.name} first.",
            f"A good session of {names}.",
        ),
        GateAnswer.MET: (f"Settled before: {names}." if names else "First step.", ""),
    }[answer]
    return Gate(
        stage=ask.stage.key,
        gate=ask.gate,
        kind="to_do",
        answer=answer,
        why=why,
        would_meet=would_meet,
        record=f"stage:{keys[0]}" if keys else "",
        sources=("ours",),
    )


def _step_name(ask: Asked, key: str) -> str:
    found = (stage.name for stage in ask.facts.programme.stages if stage.key == key)
    return next(found, key.replace("_", " "))
