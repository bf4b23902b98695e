"""How much room tack needs, from ``clearances.toml`` or as a yard changed it."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from fitting.body import HorseType
from fitting.fit.answers import Gap, Window
from fitting.fit.edges import ASCENDING, NUMBERS, OURS, Edges

GAP_EDGES: Final = ("no_below", "good_from")
GOOD_EDGES: Final = ("good_from", "good_to")
SMALL: Final = frozenset({"small_pony", "pony"})


@lru_cache(maxsize=1024)  # asked for every strap of every item
def window(table: str, edges: Edges = OURS) -> Window:
    """Return the edges of a clearance (mm, in all): ``strap.noseband``.

    Source: as beside each number in ``clearances.toml``.
    """
    paths = tuple(f"{table}.{name}" for name in ASCENDING)
    no_below, good_from, good_to, no_above = map(edges.value, paths)
    return Window(
        no_below=no_below,
        good_from=good_from,
        good_to=good_to,
        no_above=no_above,
        decided=edges.decided(*paths),
        told_in=edges.told_in,
    )


def gap(table: str, edges: Edges = OURS) -> Gap:
    """Return the room wanted under a nose strap (mm): ``gap.noseband``.

    Source: as beside each number in ``clearances.toml``.
    """
    paths = tuple(f"{table}.{name}" for name in GAP_EDGES)
    no_below, good_from = map(edges.value, paths)
    return Gap(
        no_below=no_below,
        good_from=good_from,
        decided=edges.decided(*paths),
        told_in=edges.told_in,
    )


def thickness_window(horse_type: HorseType, edges: Edges = OURS) -> Window:
    """Return the edges of a mouthpiece's thickness for an unmeasured mouth (mm)."""
    kind = horse_type if horse_type in SMALL else "horse"
    return _thickness(f"thickness.{kind}", edges)


@lru_cache(maxsize=256)
def _thickness(table: str, edges: Edges) -> Window:
    good_from, good_to = (edges.value(f"{table}.{name}") for name in GOOD_EDGES)
    either_side = edges.value("thickness.watch.either_side")
    low, high = edges.decided(*(f"{table}.{name}" for name in GOOD_EDGES))
    (watch,) = edges.decided("thickness.watch.either_side")
    return Window(
        no_below=good_from - either_side,
        good_from=good_from,
        good_to=good_to,
        no_above=good_to + either_side,
        decided=(watch, low, high, watch),
    )


def path_share(word: str, edges: Edges = OURS) -> float:
    """Return how much of its measure a strap lies along; all of it, if not said."""
    return edges.value(f"path.{word}") if word in NUMBERS["path"] else 1.0


# Sources: as beside each number in ``clearances.toml``.
STRAPS: Final = {part: window(f"strap.{part}") for part in NUMBERS["strap"]}
GAPS: Final = {part: gap(f"gap.{part}") for part in NUMBERS["gap"]}
BIT_FIXED: Final = window("bit.fixed")
