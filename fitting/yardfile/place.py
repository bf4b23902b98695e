"""Places in a yard file, and what is said when something there is wrong."""

from __future__ import annotations

from typing import Final

SHOWN_CHARACTERS: Final = 60


class YardFileError(ValueError):
    """Something in a yard file that cannot be used; one line says where and why.

    Attributes:
        where: the path in the file, such as ``$.horses[0].measurements[3]``.
    """

    def __init__(self, where: str, found: str, allowed: str) -> None:
        message = f"{where}: {found}; allowed: {allowed}"
        super().__init__(" ".join(message.split()))
        self.where = where


class Place(str):
    """A path in the file; ``/`` leads one key, or one entry of a list, further in."""

    __slots__ = ()

    def __truediv__(self, step: str | int) -> Place:
        """Return the place one step further in."""
        return Place(f"{self}[{step}]" if isinstance(step, int) else f"{self}.{step}")

    def error(self, found: str, allowed: str) -> YardFileError:
        """Return the error that says what is wrong here."""
        return YardFileError(self, found, allowed)


ROOT: Final = Place("$")


def shown(value: object) -> str:
    """Return a found value, short enough for one line."""
    text = repr(value)
    cut = text[:SHOWN_CHARACTERS]
    return f"found {cut}{'…' if cut != text else ''}"
