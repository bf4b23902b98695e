"""Which teeth may be changing about now, and how to watch without reaching in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from fitting.teeth import Span, beginning, changing
from starting.care import notes
from starting.care.values import Told, Whose, say_date


def mouth_watch_told(whose: Whose, on: date) -> Iterator[Told]:
    """Return what may be changing in a youngster's mouth; nothing once it is over."""
    if whose.foaled is None or whose.grown:
        return
    now = changing(whose.foaled, on)
    later = next(beginning(whose.foaled, on), None)
    said = [f"May be changing about now: {_listed(now)}."] if now else []
    if later:
        names = " and ".join(change.name for change in later[1])
        said.append(f"From {say_date(later[0])}: {names}.")
    if said:
        beside = notes.MOUTH_WATCH if now else notes.MOUTH_WATCH[-1:]
        yield Told(title="Watch the mouth", text=" ".join(said), notes=beside)


def _listed(now: tuple[Span, ...]) -> str:
    return "; ".join(
        f"{span.change.name}, at {span.change.from_months} to"
        f" {span.change.to_months} months"
        for span in now
    )
