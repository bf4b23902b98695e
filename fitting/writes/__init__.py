"""Writes wider than one form's row; every write bumps the yard's version."""

from fitting.writes.touch import remember_token, touch

__all__ = ["remember_token", "touch"]
