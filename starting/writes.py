"""Writes of the way up."""


def listen() -> None:
    """Plan a yard again when it says that it changed."""
