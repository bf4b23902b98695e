"""The bytes of a keeper's file become plain text, or are refused in words."""

from __future__ import annotations

import codecs
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

MOST_BYTES: Final = 1_000_000  # of the file, and of its text in UTF-8; ours
_LOOKED_AT_BYTES: Final = 2_000  # where zeros tell UTF-16 without its mark; ours
_MANY_ZEROS: Final = 0.3  # of every second byte; ours
_BOOKS: Final = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")  # spreadsheets' own kinds of file
_MARK: Final = "\ufeff"
_KEPT_CONTROLS: Final = "\t\n"


class UnreadableFileError(ValueError):
    """A file or a text that is no list of readings; says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Decoded:
    """The text of a file, and how its letters were written."""

    text: str
    letters: str


def decode(raw: bytes) -> Decoded:
    """Return the text of a file in UTF-8, UTF-16 or Windows-1252.

    Raises:
        UnreadableFileError: it is too big, no text, or in other letters.
    """
    if len(raw) > MOST_BYTES:
        raise UnreadableFileError(_too_big())
    if raw.startswith(_BOOKS):
        raise UnreadableFileError(
            "This is a spreadsheet's own kind of file. Save it there as CSV, then"
            " choose that."
        )
    for encoding, letters in _likely(raw):
        try:
            text = raw.decode(encoding)
        except UnicodeDecodeError:
            continue
        return Decoded(text=plain_text(text), letters=letters)
    raise UnreadableFileError(
        "The letters of this file cannot be read. Save it as CSV in UTF-8."
    )


def _likely(raw: bytes) -> Iterator[tuple[str, str]]:
    """Yield encodings to try, likeliest first, and what the page calls them."""
    if raw.startswith(codecs.BOM_UTF8):
        yield "utf-8-sig", "UTF-8"
    elif raw.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        yield "utf-16", "UTF-16"
    elif _is_mostly_zero(raw[1:_LOOKED_AT_BYTES:2]):
        yield "utf-16-le", "UTF-16"
    elif _is_mostly_zero(raw[:_LOOKED_AT_BYTES:2]):
        yield "utf-16-be", "UTF-16"
    else:
        yield "utf-8", "UTF-8"
        yield "cp1252", "Windows-1252"


def _is_mostly_zero(every_second: bytes) -> bool:
    return every_second.count(0) > _MANY_ZEROS * max(1, len(every_second))


def plain_text(text: str) -> str:
    """Return a text with one kind of line end and nothing that is no letter.

    Raises:
        UnreadableFileError: it is empty, too big, or holds signs that are no text.
    """
    plain = text.removeprefix(_MARK).replace("\r\n", "\n").replace("\r", "\n")
    if any(c < " " and c not in _KEPT_CONTROLS for c in plain):
        raise UnreadableFileError(
            "There are signs in this that are no text. Save it as CSV, or copy the"
            " lines and paste them."
        )
    if not plain.strip():
        raise UnreadableFileError("Nothing is written in it.")
    if len(plain.encode("utf-8", "replace")) > MOST_BYTES:
        raise UnreadableFileError(_too_big())
    return plain.rstrip("\n")


def _too_big() -> str:
    return "A file may be 1 MB at most. Bring it in in parts."
