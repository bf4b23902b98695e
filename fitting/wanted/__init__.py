"""What to buy or borrow for a horse, in which size, by when."""

from fitting.wanted.hanging import Room, room_of
from fitting.wanted.reckoning import wants_of
from fitting.wanted.things import Thing, things_of
from fitting.wanted.values import (
    GET_BEFORE_DAYS,
    GOT_STANDS_DAYS,
    LOOK_AHEAD_DAYS,
    First,
    Got,
    Need,
    Offer,
    Peg,
    Range,
    Step,
    Wanted,
    Wants,
)

__all__ = [
    "GET_BEFORE_DAYS", "GOT_STANDS_DAYS", "LOOK_AHEAD_DAYS", "First", "Got", "Need",
    "Offer", "Peg", "Range", "Room", "Step", "Thing", "Wanted", "Wants", "room_of",
    "things_of", "wants_of",
]  # fmt: skip
