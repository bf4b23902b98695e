"""What is said of a part that no rule judges: try it on, with its kind's cautions."""

from __future__ import annotations

from typing import Final

from fitting.fit import headcollars, nosebands, saddles
from fitting.fit.answers import NoRule, Wearer
from fitting.tryons import BODY_OF_PART

UNRULED: Final = "Longrein has no rule for this part yet: judge it by trying it on."


def unruled(part: str, kind: str, wearer: Wearer) -> NoRule:
    """Return why a part cannot be reckoned, and what stands beside it."""
    return NoRule(
        measure=BODY_OF_PART.get(part, "heart_girth"),
        why=UNRULED,
        ask="try it on",
        cautions=_cautions(part, kind, wearer),
    )


def _cautions(part: str, kind: str, wearer: Wearer) -> tuple[str, ...]:
    if part == headcollars.NOSE:
        return nosebands.CAUTIONS
    if kind == "saddle":
        return saddles.CAUTIONS
    if kind == "headcollar":
        return headcollars.cautions(wearer)
    return ()
