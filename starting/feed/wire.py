"""Text and components become the octets of a calendar file."""

from __future__ import annotations

import re
from typing import Final

from icalendar import Component, vText

LINE_OCTETS: Final = 75  # RFC 5545 section 3.1, without the line end
_LEADING_BITS: Final = 0b1100_0000
_INSIDE_A_CHARACTER: Final = 0b1000_0000  # RFC 3629: 10xxxxxx never begins one
# RFC 5545 section 3.3.11: text holds no control characters; the rest breaks parsers
_FORBIDDEN: Final = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ufeff\ud800-\udfff]"
)
_LINE_ENDS: Final = re.compile("\r\n?|\x85|\u2028|\u2029")


class Text(vText):
    """Text escaped as RFC 5545 section 3.3.11 says, no more.

    vText turns a backslash before a capital N into a line break.
    """

    def to_ical(self) -> bytes:
        """Return the escaped text."""
        escaped = re.sub(r"([\\;,])", r"\\\1", self).replace("\n", r"\n")
        return escaped.encode()


def clean(text: str) -> str:
    """Return the text with plain line ends and nothing that a parser stumbles on."""
    return _FORBIDDEN.sub("", _LINE_ENDS.sub("\n", text)).strip()


def one_line(text: str) -> str:
    """Return the clean text in one line, its blanks run together."""
    return " ".join(clean(text).split())


def bytes_of(component: Component) -> bytes:
    """Return a component with all its parts as folded lines, CRLF after each."""
    return b"".join(folded(str(line)) for line in component.content_lines() if line)


def folded(line: str) -> bytes:
    """Return a content line in lines of at most 75 octets.

    Never inside a character, and never inside an escape: some programs drop an event
    whose escaped line end is cut, and the library's folding can cut a double backslash.
    """
    octets, pieces, room = line.encode(), [], LINE_OCTETS
    while len(octets) > room:
        cut = _cut(octets, room)
        pieces.append(octets[:cut])
        octets, room = octets[cut:], LINE_OCTETS - 1  # the space that marks a fold
    return b"\r\n ".join((*pieces, octets)) + b"\r\n"


def _cut(octets: bytes, room: int) -> int:
    cut = room
    while octets[cut] & _LEADING_BITS == _INSIDE_A_CHARACTER:
        cut -= 1
    slashes = cut - len(octets[:cut].rstrip(b"\\"))
    return cut - slashes % 2
