"""A text taken apart into headings and lines, by commas, semicolons or tabs."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Final

from fitting.bringing_in.columns import match_headings
from fitting.bringing_in.text import UnreadableFileError

DELIMITERS: Final = {"comma": ",", "semicolon": ";", "tab": "\t"}
MOST_COLUMNS: Final = 40  # ours
MOST_LINES: Final = 5_000  # ours
MOST_IN_A_HEADING: Final = 80  # characters; ours
_LOOKED_AT_LINES: Final = 30  # to find what parts the cells; ours
_SAYS_DELIMITER: Final = "sep="  # the first line that some spreadsheets write


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line under the headings: its number in the file, its cells."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Headings, and the lines under them; every line has at least one cell filled."""

    headings: tuple[str, ...]
    lines: tuple[Line, ...]

    def column(self, at: int) -> tuple[str, ...]:
        """Return what stands in one column, empty cells left out."""
        cells = (line.cells[at] for line in self.lines if at < len(line.cells))
        return tuple(cell for cell in cells if cell)


def read_table(text: str, delimiter: str) -> Table:
    """Return the table that a text holds; ``delimiter``: a key of ``DELIMITERS``.

    Raises:
        UnreadableFileError: a quotation mark stays open, or there is too much of it.
    """
    rows = tuple(islice(_rows(text, DELIMITERS[delimiter]), MOST_LINES + 2))
    if not rows:
        raise UnreadableFileError("Nothing is written in it.")
    if len(rows) > MOST_LINES + 1:
        raise UnreadableFileError(
            f"A file may have {MOST_LINES} lines at most. Bring it in in parts."
        )
    _check_headings(rows[0].cells)
    if len(rows) == 1:
        raise UnreadableFileError(
            "There is one line only. The first names the columns; the readings follow."
        )
    return Table(headings=rows[0].cells, lines=rows[1:])


def _check_headings(headings: tuple[str, ...]) -> None:
    if len(headings) > MOST_COLUMNS:
        raise UnreadableFileError(
            f"A file may have {MOST_COLUMNS} columns at most; this has {len(headings)}."
        )
    if any(len(heading) > MOST_IN_A_HEADING for heading in headings):
        raise UnreadableFileError(
            f"A heading takes at most {MOST_IN_A_HEADING} characters. The first line"
            " names the columns."
        )


def find_delimiter(text: str) -> str:
    """Return what parts the cells, a key of ``DELIMITERS``.

    The one by which most headings are known; then by which the lines are of one width.
    """
    return max(DELIMITERS, key=lambda name: _likelihood(text, DELIMITERS[name]))


def _likelihood(text: str, sign: str) -> tuple[float, ...]:
    try:
        rows = tuple(islice(_rows(text, sign), _LOOKED_AT_LINES))
    except UnreadableFileError:
        return (0.0,)
    if not rows:
        return (0.0,)
    width = len(rows[0].cells)
    known = sum(1 for role in match_headings(rows[0].cells) if role)
    alike = sum(1 for row in rows if len(row.cells) == width) / len(rows)
    return (float(known), float(width > 1), alike, float(width))


def _rows(text: str, sign: str) -> Iterator[Line]:
    """Yield every line with something in it, numbered as it stands in the file.

    Raises:
        UnreadableFileError: a line cannot be taken apart.
    """
    reader = csv.reader(io.StringIO(text), delimiter=sign, strict=True)
    began = 1
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise UnreadableFileError(_why_not(began, error)) from None
        if any(cell.strip() for cell in cells) and not _says_delimiter(began, cells):
            yield Line(number=began, cells=tuple(" ".join(c.split()) for c in cells))
        began = reader.line_num + 1


def _says_delimiter(number: int, cells: list[str]) -> bool:
    return number == 1 and cells[0].strip().casefold().startswith(_SAYS_DELIMITER)


def _why_not(number: int, error: csv.Error) -> str:
    if "limit" in str(error):
        return f"A cell that begins on line {number} is far too long."
    return (
        f"Line {number} cannot be taken apart: a quotation mark that opens a cell is"
        " not closed at its end. An inch mark in quotation marks is written twice."
    )
