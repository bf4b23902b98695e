"""What a bridle goes without, told: none hangs here, who has it, none fits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from fitting.fit import Tack
from fitting.listed import listed
from fitting.mixing.values import BIT, CHEEKPIECES, MOUTHPIECE, Lacking
from fitting.pieces import part_word

Away = Mapping[str, tuple[str, ...]]


def away_in(lent: Iterable[tuple[Tack, str]]) -> Away:
    """Return by slot what would fill it but is lent, each with who has it."""
    found: dict[str, dict[str, None]] = {}
    for item, horse in lent:
        for part in item.parts:
            slot = BIT if part.part == MOUTHPIECE else part.part
            found.setdefault(slot, {})[f"{item.name} is lent to {horse}"] = None
    return {slot: tuple(said) for slot, said in found.items()}


def lacks_words(one: Lacking, away: Away) -> str:
    """Return why there is no bridle: a part that it cannot do without."""
    word = part_word(one.slot)
    if one.why == "none_hangs":
        hang = "hang" if one.slot == CHEEKPIECES else "hangs"
        return f"No {word} {hang} here{_who_has(one, away)}."
    if one.slot == CHEEKPIECES:
        return "No headpiece and cheekpieces here go with each other on this head."
    return f"No {word} here fits that day."


def leaves_off_words(one: Lacking, away: Away) -> str:
    """Return why a bridle goes without a part that it can do without."""
    word = part_word(one.slot)
    if one.why == "none_hangs":
        return f"Without a {word}: none hangs here{_who_has(one, away)}."
    return f"Without a {word}: none here is known to be good that day."


def _who_has(one: Lacking, away: Away) -> str:
    said = away.get(one.slot, ())
    return f", but {listed(said)}" if said else ""
