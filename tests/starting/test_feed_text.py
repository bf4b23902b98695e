import re
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime

import icalendar
import pytest
import vobject
from hypothesis import example, given
from hypothesis import strategies as st
from ical.calendar_stream import IcsCalendarStream

from starting.diary import Entry
from starting.feed import (
    FeedHead,
    FeedOptions,
    clean,
    render_event,
    render_head,
    revise,
    splice,
)
from tests.starting.line_checker import faults_of, unescaped

HEAD = FeedHead(name="Diary", description="", site_url="https://yard.example")
NOW = datetime(2025, 12, 1, 6, 30, tzinfo=UTC)

# what people paste, and what a fold or an escape could break
awkward = st.sampled_from(
    [
        *'\\;,:"\n\r\t é½😀\u2028\u2029\x85\ufeff\x00\x0b\x1b\x7f\ud800',
        *("\\n", "\\N", "\\\\", "\r\n", "^n", "e\u0301", "👩🏽‍🌾"),
        *("BEGIN:VEVENT", "\nEND:VEVENT\n", "pony"),
        # right to left, and the marks that turn the direction
        *("מָה", "مهر", "\u202eynop\u202c", "\u200f", "\u2067x\u2069"),
    ]
)
short = st.one_of(
    st.lists(awkward, max_size=80).map("".join),
    st.text(st.characters(codec=None), max_size=300),
)
LONG = 5000
long = st.builds(lambda text, pad: (pad + text * LONG)[:LONG], short, short)
written = st.one_of(short, long)


def event_of(
    title: str, text: str, *, horse: str = "Pennyroyal", plain_titles: bool = False
) -> bytes:
    entry = Entry(
        key="pennyroyal/care/teeth",
        horse=horse,
        on=date(2025, 12, 12),
        kind="care",
        title=title,
        text=text,
        forecast=False,
    )
    (revised,) = revise((), [entry], uid_of=str, now=NOW)
    options = FeedOptions(alarm="day", plain_titles=plain_titles)
    return render_event(revised, options, HEAD)


def value(event: bytes, name: str) -> str:
    unfolded = event.decode().replace("\r\n ", "")
    (line,) = re.findall(rf"^{name}:(.*)\r\n", unfolded.split("BEGIN:VALARM")[0], re.M)
    return unescaped(line)


def with_link(text: str) -> str:
    """The text as it was cleaned, and the page's address below it."""
    return f"{clean(text)}\nhttps://yard.example".lstrip("\n")


@given(title=written, text=written)
@example(title="", text="C:\\New \\n \\\\N " * 20)
@example(title="😀" * 40, text="é" * 200)
def test_text_comes_back_as_it_was_cleaned(title: str, text: str) -> None:
    event = event_of(title, text)
    assert value(event, "DESCRIPTION") == with_link(text)
    assert value(event, "SUMMARY") == " ".join(clean(title).split())


def text_by_vobject(body: bytes) -> str:
    return str(vobject.readOne(body.decode()).vevent.description.value)


def text_by_ical(body: bytes) -> str:
    (event,) = IcsCalendarStream.calendar_from_ics(body.decode()).events
    return event.description or ""


def text_by_icalendar(body: bytes) -> str:
    (event,) = icalendar.Calendar.from_ical(body).walk("VEVENT")
    return str(event["DESCRIPTION"])


READERS = [text_by_vobject, text_by_ical, text_by_icalendar]


@pytest.mark.parametrize("read", READERS)
@given(text=written)
def test_other_programs_read_the_text_as_it_was_cleaned(
    read: Callable[[bytes], str], text: str
) -> None:
    body = splice(render_head(HEAD), [event_of("Teeth", text)])
    assert read(body) == with_link(text)


@given(title=written, text=written)
def test_no_text_makes_a_file_that_the_strict_checker_faults(
    title: str, text: str
) -> None:
    assert faults_of(splice(render_head(HEAD), [event_of(title, text)])) == []


@pytest.mark.parametrize("escaped", ["a\nb", "\n\n", "\\", "\\n", ",\\;"])
def test_a_fold_spares_escapes_wherever_they_fall(escaped: str) -> None:
    for pad in range(80):
        event = event_of("Teeth", "x" * pad + escaped * 60 + "end")
        ends = [re.search(rb"\\*$", line) for line in event.split(b"\r\n")]
        assert all(end and len(end[0]) % 2 == 0 for end in ends)


def names_of(event: bytes) -> list[str]:
    return [line.split(":")[0] for line in re.split("\r\n(?! )", event.decode())]


@given(name=written, description=written)
def test_the_yards_name_comes_back_as_it_was_cleaned(
    name: str, description: str
) -> None:
    head = replace(HEAD, name=name, description=description)
    said = render_head(head)
    assert faults_of(splice(said, [event_of("Teeth", "Due.")])) == []
    for field in ("NAME", "X-WR-CALNAME"):
        assert value(said, field) == " ".join(clean(name).split())
    for field in ("DESCRIPTION", "X-WR-CALDESC"):
        assert value(said, field) == clean(description)


@given(horse=written, text=written)
@example(horse="(", text="( waits.")
@example(horse="\\", text="\\1 \\g<0>")
def test_no_name_of_a_horse_breaks_a_file_without_names(horse: str, text: str) -> None:
    plain = event_of(f"Teeth of {horse}", text, horse=horse, plain_titles=True)
    assert faults_of(splice(render_head(HEAD), [plain])) == []
    assert value(plain, "SUMMARY") == "Care"


@given(title=written, text=written)
@example(title="a\r\nATTACH:b", text="a\nATTACH:b\rATTACH:c\x85ATTACH:d")
def test_no_text_writes_a_line_of_its_own(title: str, text: str) -> None:
    assert names_of(event_of(title, text)) == names_of(event_of("Teeth", "Due."))


def test_long_lines_are_full() -> None:
    lines = event_of("Teeth", "x" * 500).split(b"\r\n")
    folded = [line for line in lines if line.startswith((b"DESCRIPTION:x", b" x"))]
    assert [len(line) for line in folded[:-1]] == [75] * (len(folded) - 1)


@pytest.mark.parametrize(
    ("pasted", "cleaned"),
    [
        ("a\r\nb\rc\x85d\u2028e\u2029f", "a\nb\nc\nd\ne\nf"),
        ("bell\x07, escape\x1b, null\x00", "bell, escape, null"),
        ("\ufeffmark\ud83d", "mark"),
        ("  a\tb  \n", "a\tb"),
        ("naïve 😀 ½", "naïve 😀 ½"),
    ],
)
def test_what_parsers_stumble_on_is_taken_out(pasted: str, cleaned: str) -> None:
    assert clean(pasted) == cleaned
