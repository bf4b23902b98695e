"""Writes of the way up, and the one that plans a yard again."""

from fitting.reads.today import today_in
from starting.writes.replan import ensure_planned, listen, replan

__all__ = ["ensure_planned", "listen", "replan", "today_in"]
