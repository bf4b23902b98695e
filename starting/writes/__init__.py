"""Writes of the way up, and the one that plans a yard again."""

from starting.writes.replan import ensure_planned, listen, replan, today_in

__all__ = ["ensure_planned", "listen", "replan", "today_in"]
