"""The cautions of kinds of tack, for pages that tell many answers, or none yet."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from fitting.fit.bits import FIRST_BIT, MOUTH
from fitting.fit.cavessons import CAVESSON
from fitting.fit.nosebands import NOSEBAND
from fitting.fit.saddles import SADDLE

SETS: Final = "sets"  # made-up sets, as a kind beside those of items
BRIEF_BIT: Final = (
    "A first bit is smooth and plain, and a vet or a qualified dental technician looks"
    " at the mouth before."
)
BRIEF_NOSEBAND: Final = "A noseband lies on bone and never holds the mouth shut."
BRIEF_CAVESSON: Final = "A cavesson lies on bone and never pinches."
BRIEF_SADDLE: Final = (
    "Have a saddle checked on the horse by a qualified saddle fitter, and again as the"
    " back changes."
)
_FULL: Final = {
    SETS: (FIRST_BIT, MOUTH, NOSEBAND),
    "bit": (FIRST_BIT, MOUTH),
    "bridle": (NOSEBAND,),
    "cavesson": (CAVESSON,),
    "saddle": (SADDLE,),
}
_BRIEF: Final = {
    SETS: (BRIEF_BIT, BRIEF_NOSEBAND),
    "bit": (BRIEF_BIT,),
    "bridle": (BRIEF_NOSEBAND,),
    "cavesson": (BRIEF_CAVESSON,),
    "saddle": (BRIEF_SADDLE,),
}


def cautions_of(*kinds: str) -> tuple[str, ...]:
    """Return the cautions of kinds of tack, ``SETS`` among them, each once."""
    return _each_once(_FULL, kinds)


def brief_cautions_of(*kinds: str) -> tuple[str, ...]:
    """Return them in brief, for a list whose answers lead to the page that says all."""
    return _each_once(_BRIEF, kinds)


def _each_once(
    said: Mapping[str, tuple[str, ...]], kinds: tuple[str, ...]
) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one for kind in kinds for one in said.get(kind, ())))
