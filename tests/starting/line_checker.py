"""A strict reader of calendar files, written from RFC 5545 alone.

It knows what this site writes, no more: whatever else stands in a file is a fault.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import NamedTuple

OCTETS = 75  # section 3.1, without the line end
# section 3.1: controls are all but the tab; the line separators break programs
CONTROLS = re.compile("[\x00-\x08\x0a-\x1f\x7f-\x9f\u2028\u2029\ufeff]")
CONTENT_LINE = re.compile(r"([A-Z-]+)((?:;[A-Z-]+=[A-Z-]+)*):(.*)", re.DOTALL)
PLAIN_TEXT = r"(?:[^\\;,]|\\[\\;,nN])*"  # section 3.3.11
TEXT = re.compile(PLAIN_TEXT, re.DOTALL)
TEXTS = re.compile(rf"{PLAIN_TEXT}(?:,{PLAIN_TEXT})*", re.DOTALL)
WHOLE = re.compile(r"0|[1-9][0-9]*")
SPAN = re.compile(r"[+-]?P(?:[0-9]+W|(?=[0-9T])(?:[0-9]+D)?(?:T(?:[0-9]+[HMS])+)?)")
ADDRESS = re.compile(r"https?://[!-~]+")


class Seen(NamedTuple):
    """What a calendar program makes of one event, or of a task: its day is its end."""

    uid: str
    on: date
    end: date
    title: str
    text: str
    sequence: int


class Line(NamedTuple):
    """One unfolded content line."""

    name: str
    parameters: str
    value: str


@dataclass
class Part:
    """A component, as it stands between its BEGIN and its END."""

    name: str
    inside: str
    lines: list[Line]

    def value(self, name: str) -> str:
        """Return the value of a property, empty where there is none."""
        return next((line.value for line in self.lines if line.name == name), "")


def _is(pattern: re.Pattern[str]) -> Callable[[str], bool]:
    return lambda value: pattern.fullmatch(value) is not None


def _one_of(*words: str) -> Callable[[str], bool]:
    return lambda value: value in words


def _date(value: str) -> bool:
    return re.fullmatch("[0-9]{8}", value) is not None and _read(value, "%Y%m%d")


def _moment(value: str) -> bool:
    shape = re.fullmatch("[0-9]{8}T[0-9]{6}Z", value)
    return shape is not None and _read(value, "%Y%m%dT%H%M%SZ")


def _read(value: str, form: str) -> bool:
    try:
        datetime.strptime(value, form)  # noqa: DTZ007 - only whether it is one
    except ValueError:
        return False
    return True


class Property(NamedTuple):
    """How a property must look: how often, with what parameters and value."""

    least: int
    most: float
    parameters: str
    good: Callable[[str], bool]


def _once(good: Callable[[str], bool], parameters: str = "") -> Property:
    return Property(1, 1, parameters, good)


MANY = float("inf")
NOT_EMPTY = re.compile(rf"(?=.){PLAIN_TEXT}", re.DOTALL)
PROPERTIES = {
    "VCALENDAR": {
        "VERSION": _once(_one_of("2.0")),
        "PRODID": _once(_is(NOT_EMPTY)),
        "CALSCALE": _once(_one_of("GREGORIAN")),
        "NAME": _once(_is(TEXT)),
        "X-WR-CALNAME": _once(_is(TEXT)),
        "DESCRIPTION": _once(_is(TEXT)),
        "X-WR-CALDESC": _once(_is(TEXT)),
        "COLOR": _once(_is(re.compile("[a-z]+"))),
        "REFRESH-INTERVAL": _once(_is(SPAN), ";VALUE=DURATION"),
        "X-PUBLISHED-TTL": _once(_is(SPAN)),
    },
    "VEVENT": {
        "UID": _once(_is(NOT_EMPTY)),
        "DTSTAMP": _once(_moment),
        "LAST-MODIFIED": _once(_moment),
        "CREATED": _once(_moment),
        "SEQUENCE": _once(_is(WHOLE)),
        "STATUS": _once(_one_of("TENTATIVE", "CONFIRMED")),
        "DTSTART": _once(_date, ";VALUE=DATE"),
        "DTEND": _once(_date, ";VALUE=DATE"),
        "TRANSP": _once(_one_of("TRANSPARENT")),
        "CLASS": _once(_one_of("PRIVATE")),
        "SUMMARY": _once(_is(TEXT)),
        "DESCRIPTION": _once(_is(TEXT)),
        "URL": _once(_is(ADDRESS)),
        "CATEGORIES": _once(_is(TEXTS)),
        "RELATED-TO": Property(0, MANY, ";RELTYPE=DEPENDS-ON", _is(NOT_EMPTY)),
    },
    "VALARM": {
        "ACTION": _once(_one_of("DISPLAY")),
        "DESCRIPTION": _once(_is(TEXT)),
        "TRIGGER": _once(_is(SPAN)),
    },
}
# section 3.6.2: a task has a day it is due by; its alarm counts from there (3.8.6.3)
PROPERTIES["VTODO"] = {
    name: rule
    for name, rule in PROPERTIES["VEVENT"].items()
    if name not in {"DTSTART", "DTEND", "TRANSP", "RELATED-TO"}
} | {
    "DUE": _once(_date, ";VALUE=DATE"),
    "STATUS": _once(_one_of("NEEDS-ACTION")),
}
ALARMS_OF = {
    "VEVENT": PROPERTIES["VALARM"],
    "VTODO": PROPERTIES["VALARM"] | {"TRIGGER": _once(_is(SPAN), ";RELATED=END")},
}
INSIDE = {
    "VCALENDAR": {""},
    "VEVENT": {"VCALENDAR"},
    "VTODO": {"VCALENDAR"},
    "VALARM": {"VEVENT", "VTODO"},
}


def faults_of(body: bytes) -> list[str]:
    """Return all that is wrong with a calendar file, empty where nothing is."""
    faults = list(_line_faults(body))
    if faults:
        return faults
    lines, faults = _content_lines(body)
    parts, nesting = _parts(lines)
    faults += nesting
    for part in parts:
        faults += _property_faults(part)
    return faults or [*_file_faults(parts)]


def events_of(body: bytes) -> list[Seen]:
    """Return the events and the tasks of a file without faults."""
    parts, _ = _parts(_content_lines(body)[0])
    return [
        Seen(
            uid=unescaped(part.value("UID")),
            on=date.fromisoformat(part.value("DTSTART") or part.value("DUE")),
            end=date.fromisoformat(part.value("DTEND") or part.value("DUE")),
            title=unescaped(part.value("SUMMARY")),
            text=unescaped(part.value("DESCRIPTION")),
            sequence=int(part.value("SEQUENCE")),
        )
        for part in parts
        if part.name in {"VEVENT", "VTODO"}
    ]


def unescaped(escaped: str) -> str:
    """Text as RFC 5545 section 3.3.11 reads it, each escape once, left to right."""
    return re.sub(
        r"\\(.)", lambda m: "\n" if m[1] in "nN" else m[1], escaped, flags=re.DOTALL
    )


def _line_faults(body: bytes) -> Iterator[str]:
    """Yield what is wrong with the lines as they are sent."""
    if not body.endswith(b"\r\n"):
        yield "the last line has no end"
    for number, line in enumerate(body.removesuffix(b"\r\n").split(b"\r\n"), 1):
        for fault in _faults_of_line(line):
            yield f"line {number} {fault}"
    if body[:1] in b" \t":
        yield "line 1 goes on from nothing"


def _faults_of_line(line: bytes) -> Iterator[str]:
    if not line.strip():
        yield "is blank"
    if b"\r" in line or b"\n" in line:
        yield "holds half a line end"
    if len(line) > OCTETS:
        yield f"has {len(line)} octets"
    if (len(line) - len(line.rstrip(b"\\"))) % 2:
        yield "is cut inside an escape"
    try:
        text = line.decode()
    except UnicodeDecodeError:
        yield "is cut inside a character"
    else:
        if CONTROLS.search(text.replace("\r", "").replace("\n", "")):
            yield "holds a control character"


def _content_lines(body: bytes) -> tuple[list[Line], list[str]]:
    lines, faults = [], []
    for text in (
        re.sub("\r\n[ \t]", "", body.decode()).removesuffix("\r\n").split("\r\n")
    ):
        found = CONTENT_LINE.fullmatch(text)
        if found:
            lines.append(Line(*found.groups()))
        else:
            faults.append(f"{text[:30]!r} is no property")
    return lines, faults


def _parts(lines: Sequence[Line]) -> tuple[list[Part], list[str]]:
    """Return the components in their order, and what is wrong with their nesting."""
    parts: list[Part] = []
    opened: list[Part] = []
    faults = []
    for line in lines:
        if line.name == "BEGIN":
            part = Part(line.value, opened[-1].name if opened else "", [])
            parts.append(part)
            opened.append(part)
        elif line.name == "END":
            if not opened or opened.pop().name != line.value:
                faults.append(f"END:{line.value} ends what did not begin")
        elif opened:
            opened[-1].lines.append(line)
        else:
            faults.append(f"{line.name} stands outside of everything")
    return parts, [*faults, *(f"{part.name} does not end" for part in opened)]


def _property_faults(part: Part) -> Iterator[str]:
    if part.inside not in INSIDE.get(part.name, ()):
        yield f"{part.name} stands inside {part.inside or 'nothing'}"
        return
    wanted = ALARMS_OF.get(part.inside, PROPERTIES[part.name])
    counts = Counter(line.name for line in part.lines)
    for name, rule in wanted.items():
        if not rule.least <= counts[name] <= rule.most:
            yield f"{part.name} has {counts[name]} {name}"
    for line in part.lines:
        named = wanted.get(line.name)
        if named is None:
            yield f"{part.name} has a {line.name}"
        elif line.parameters != named.parameters:
            yield f"{line.name} says {line.parameters!r}"
        elif not named.good(line.value):
            yield f"{line.name} is {line.value[:60]!r}"


def _file_faults(parts: Sequence[Part]) -> Iterator[str]:
    """Yield what no single property shows."""
    if [part.name for part in parts].count("VCALENDAR") != 1:
        yield "it is not one calendar"
    events = [part for part in parts if part.name in {"VEVENT", "VTODO"}]
    for uid, count in Counter(event.value("UID") for event in events).items():
        if count > 1:
            yield f"{count} events have the UID {uid}"
    for event in events:
        ends = event.value("DTEND")
        if event.name == "VEVENT" and ends <= event.value("DTSTART"):
            yield f"it ends on {ends}, not after its start"
        if event.value("DTSTAMP") != event.value("LAST-MODIFIED"):
            yield "DTSTAMP is not LAST-MODIFIED"  # section 3.8.7.2, without a METHOD
        if event.value("CREATED") > event.value("LAST-MODIFIED"):
            yield "it was changed before it was made"
