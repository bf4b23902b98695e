"""Where the numbers of a weight come from, as its page lists them."""

from __future__ import annotations

from collections.abc import Sequence

from fitting.sources import SOURCES
from fitting.weight import BestWeight, Formula

OURS = (
    "Ours: which weight goes before which and how long it stands; the tenth either way"
    " of a formula; the ages at which one formula follows another; 14 to 60 days, 5 and"
    " 10 % down; the winter's dip; what next to 4 to 6 means"
)


def sources_of(best: BestWeight, formulas: Sequence[Formula]) -> tuple[str, ...]:
    """Return the citations behind a page of weight and condition, ours last."""
    keys = ["ellis_hollands_1998", *(one.source for one in formulas), "gorniak_2020"]
    if best.small:
        keys.append("utrecht_weigh_tape")
    keys += ["henneke_1983", "giles_2015"]
    return (*(SOURCES[key].text for key in dict.fromkeys(keys)), OURS)
