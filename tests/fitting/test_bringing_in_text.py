"""A keeper's file: its letters, what parts its cells, and what is refused."""

from __future__ import annotations

import pytest

from fitting.bringing_in import (
    MOST_BYTES,
    UnreadableFileError,
    decode,
    find_delimiter,
    plain_text,
    read_table,
)
from fitting.bringing_in.table import MOST_COLUMNS, MOST_LINES

LIST = "Horse;Day;Withers\r\nÜlle;2026-11-01;13.0½\r\n"


@pytest.mark.parametrize(
    ("encoding", "letters"),
    [
        ("utf-8", "UTF-8"),
        ("utf-8-sig", "UTF-8"),
        ("utf-16", "UTF-16"),
        ("utf-16-le", "UTF-16"),
        ("utf-16-be", "UTF-16"),
        ("cp1252", "Windows-1252"),
    ],
)
def test_letters_and_fractions_survive_however_the_file_was_saved(
    encoding: str, letters: str
) -> None:
    found = decode(LIST.encode(encoding))
    assert found.letters == letters
    assert found.text == "Horse;Day;Withers\nÜlle;2026-11-01;13.0½"


@pytest.mark.parametrize(
    ("raw", "why"),
    [
        (b"", "Nothing is written"),
        (b" \r\n\r\n", "Nothing is written"),
        (b"PK\x03\x04 and so on", "spreadsheet's own kind"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "spreadsheet's own kind"),
        (b"Horse,Day\nAsh\x00,1", "no text"),
        (b"Horse,Day\nAsh\x1b[2J,1", "no text"),
        (b"Horse\x81\x8d,Day", "letters of this file"),
        (b"\xff\xfea", "letters of this file"),
        (b"x" * (MOST_BYTES + 1), "1 MB at most"),
    ],
)
def test_what_is_no_list_is_refused_in_words(raw: bytes, why: str) -> None:
    with pytest.raises(UnreadableFileError, match=why):
        decode(raw)


def test_a_text_that_grows_past_the_bound_when_pasted_is_refused() -> None:
    assert len(plain_text("½" * (MOST_BYTES // 2))) == MOST_BYTES // 2
    with pytest.raises(UnreadableFileError, match="1 MB at most"):
        plain_text("½" * (MOST_BYTES // 2 + 1))


@pytest.mark.parametrize(
    ("text", "delimiter"),
    [
        ("Horse,Day,Withers\nAsh,2026-11-01,132", "comma"),
        ("Horse;Day;Withers\nAsh;2026-11-01;132,5", "semicolon"),
        ("Horse\tDay\tWithers, stick\nAsh\t2026-11-01\t132,5", "tab"),
        ("Pferd;Tag;Maß\nAsh;1.2.2026;132,5\nMay;2.2.2026;13,1", "semicolon"),
        ('Horse,Day,Note\nAsh,2026-11-01,"a; b; c; d"', "comma"),
    ],
)
def test_what_parts_the_cells_is_found(text: str, delimiter: str) -> None:
    assert find_delimiter(text) == delimiter


def test_lines_keep_the_number_they_have_in_the_file() -> None:
    text = 'sep=,\nHorse,Note\n\nAsh,"two\nlines"\n,\nMay,one'
    table = read_table(text, "comma")
    assert table.headings == ("Horse", "Note")
    numbered = [(line.number, line.cells) for line in table.lines]
    assert numbered == [(4, ("Ash", "two lines")), (7, ("May", "one"))]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ('Horse,Day\nAsh,"2026\nMay,2', "Line 2 cannot be taken apart"),
        ('Horse,Day\nAsh,1\n"4"x,2', "Line 3 cannot be taken apart"),
        ("Horse,Day\nAsh," + "9" * 140_000, "line 2 is far too long"),
        ("Horse,Day", "one line only"),
        (",".join("x" * (MOST_COLUMNS + 1)) + "\n1", "40 columns at most; this has 41"),
        ("H" * 81 + ",Day\n1,2", "heading takes at most 80"),
        ("Horse,Day\n" + "a,b\n" * (MOST_LINES + 1), "5000 lines at most"),
        (",,\n;", "one line only"),
    ],
)
def test_a_table_out_of_bounds_is_refused_in_words(text: str, why: str) -> None:
    with pytest.raises(UnreadableFileError, match=why):
        read_table(text, "comma")


def test_as_many_lines_as_allowed_are_read() -> None:
    assert len(read_table("Horse,Day\n" + "a,b\n" * MOST_LINES, "comma").lines) == 5000
