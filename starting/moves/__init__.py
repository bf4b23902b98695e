"""What moved between two outlooks of one horse, and why."""

from starting.moves.marks import Kind, Mark, Marks, marks_of
from starting.moves.moving import Move, carried, moves, net
from starting.moves.told import Told, tell_today

__all__ = [
    "Kind",
    "Mark",
    "Marks",
    "Move",
    "Told",
    "carried",
    "marks_of",
    "moves",
    "net",
    "tell_today",
]
