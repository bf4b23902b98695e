"""What each field of a programme file may hold, and how it is read."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any, Final, Literal, get_args

StageKind = Literal["sessions", "check", "event", "rest"]
StopLevel = Literal["end_today", "go_back", "ring_vet"]

MONTHS_MOST: Final = 600.0  # ours: fifty years
FACTOR_MOST: Final = 3.0  # ours
COUNT_MOST: Final = 1000  # ours: no step has more sessions, minutes or days

FRESH_MEASURES: Final = frozenset(
    [
        "withers_height",
        "croup_height",
        "heart_girth",
        "body_length",
        "cannon_round",
        "head_length",
        "brow",
        "nose_round",
        "throat_round",
        "mouth_width",
        "jaw_gap",
        "tongue_thickness",
        "back_length",
        "back_width_front",
        "back_width_last_rib",
        "girth_path",
        "rug_length",
        "nose_gap",
        "weight",
    ]
)
FIT_KINDS: Final = frozenset(
    ["bit", "bridle", "headcollar", "cavesson", "roller", "girth", "saddle", "rug"]
)
DATED_GATES: Final = frozenset({"growth_pause", "season"})
TO_DO_GATES: Final = frozenset(
    [
        "teeth",
        "wolf_teeth",
        "vet",
        "farrier",
        "weight_trend",
        "rider_load",
        "rider_experience",
        "trainer",
        "condition_score",
        "recent_sessions",
    ]
)
ON_THE_DAY_GATES: Final = frozenset(
    [
        "ground",
        "daylight",
        "enclosed",
        "calm_day",
        "second_person",
        "second_person_first",
        "safety_gear",
        "company",
        "mouth_watch",
    ]
)
_KEY: Final = re.compile(r"[a-z0-9][a-z0-9_]*", re.ASCII)

Reader = Callable[[object], Any]


class NotAllowedError(ValueError):
    """A value that its field does not take; ``str`` says what is allowed."""


class ProgrammeError(ValueError):
    """A programme file that cannot be used; says where and why.

    Attributes:
        where: the step's key and the field, or "file".
        allowed: what would have been accepted there.
    """

    def __init__(self, where: str, found: str, allowed: str) -> None:
        super().__init__(f"{where}: {found}; allowed: {allowed}")
        self.where = where
        self.allowed = allowed


def _refuse_unless(fits: bool, allowed: str) -> None:  # noqa: FBT001  a plain condition
    if not fits:
        raise NotAllowedError(allowed)


def _text(value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise NotAllowedError("text that is not empty")
    return value


def _key(value: object) -> str:
    if not isinstance(value, str) or not _KEY.fullmatch(value):
        raise NotAllowedError("small letters, digits and underscores")
    return value


def _yes_no(value: object) -> bool:
    if not isinstance(value, bool):
        raise NotAllowedError("true or false")
    return value


def _count(value: object) -> int:
    allowed = f"a whole number from 0 to {COUNT_MOST}"
    if not isinstance(value, int) or isinstance(value, bool):
        raise NotAllowedError(allowed)
    _refuse_unless(0 <= value <= COUNT_MOST, allowed)
    return value


def _months(value: object) -> float:
    allowed = f"months from 0 to {MONTHS_MOST:.0f}"
    if not isinstance(value, (int, float)) or isinstance(value, bool):
        raise NotAllowedError(allowed)
    _refuse_unless(0 <= value <= MONTHS_MOST, allowed)
    return value


def _factor(value: object) -> float:
    allowed = f"a number from 1 to {FACTOR_MOST:.0f}"
    if not isinstance(value, (int, float)) or isinstance(value, bool):
        raise NotAllowedError(allowed)
    _refuse_unless(1 <= value <= FACTOR_MOST, allowed)
    return value


def _one_of(names: Iterable[str]) -> Reader:
    known = sorted(names)

    def read(value: object) -> str:
        if not isinstance(value, str) or value not in known:
            raise NotAllowedError(", ".join(known))
        return value

    return read


def _list_of(read: Reader) -> Reader:
    def read_list(value: object) -> tuple[Any, ...]:
        if not isinstance(value, list):
            raise NotAllowedError("a list")
        items = tuple(read(item) for item in value)
        _refuse_unless(len(set(items)) == len(items), "a list that names a thing once")
        return items

    return read_list


def _pair_of(read: Reader, *, rising: bool = True) -> Reader:
    def read_pair(value: object) -> tuple[Any, Any]:
        if not isinstance(value, list) or len(value) != 2:  # noqa: PLR2004  a pair
            raise NotAllowedError("a list of two numbers")
        low, high = (read(item) for item in value)
        _refuse_unless(not rising or low <= high, "two numbers, the smaller first")
        return low, high

    return read_pair


def read_table(
    table: object, readers: Mapping[str, Reader], required: Iterable[str], where: str
) -> dict[str, Any]:
    """Return the fields of one table, each read by its reader.

    Raises:
        ProgrammeError: a key is unknown or missing, or a value is not allowed.
    """
    if not isinstance(table, dict):
        raise ProgrammeError(where, f"found {table!r}", "a table")
    if unknown := sorted(set(table) - set(readers)):
        raise ProgrammeError(where, f"unknown {unknown[0]!r}", ", ".join(readers))
    if missing := [name for name in required if name not in table]:
        raise ProgrammeError(where, f"{missing[0]!r} is missing", "a value for it")
    fields = {}
    for name, value in table.items():
        try:
            fields[name] = readers[name](value)
        except NotAllowedError as error:
            found = f"found {value!r}"
            raise ProgrammeError(f"{where}, {name}", found, str(error)) from error
    return fields


def _tables(value: object) -> tuple[object, ...]:
    if not isinstance(value, list):
        raise NotAllowedError("a list of tables")
    return tuple(value)


def _table(value: object) -> dict[str, object]:
    if not isinstance(value, dict):
        raise NotAllowedError("a table")
    return value


CHECK_FIELDS: Final[Mapping[str, Reader]] = {"key": _key, "text": _text}
STOP_FIELDS: Final[Mapping[str, Reader]] = {
    "key": _key,
    "text": _text,
    "level": _one_of(get_args(StopLevel)),
}
STAGE_FIELDS: Final[Mapping[str, Reader]] = {
    "key": _key,
    "name": _text,
    "phase": _text,
    "kind": _one_of(get_args(StageKind)),
    "aim": _text,
    "optional": _yes_no,
    "earliest_months": _months,
    "earliest_days": _count,
    "floor_months": _months,
    "typical_months": _pair_of(_months),
    "prerequisites": _list_of(_key),
    "prerequisites_once": _list_of(_key),
    "gates_dated": _list_of(_one_of(DATED_GATES)),
    "gates_to_do": _list_of(
        _one_of(
            TO_DO_GATES
            | {f"fresh:{measure}" for measure in FRESH_MEASURES}
            | {f"fit:{kind}" for kind in FIT_KINDS}
        )
    ),
    "gates_on_the_day": _list_of(_one_of(ON_THE_DAY_GATES)),
    "tack_first_met": _list_of(_text),
    "min_good_sessions": _count,
    "typical_sessions": _pair_of(_count),
    "minutes": _pair_of(_count),
    "days_a_week": _pair_of(_count),
    "days_in_a_row": _count,
    "refresh_after_days": _count,
    "people": _count,
    "people_better": _count,
    "checks": _tables,
    "stop_signs": _tables,
    "cautions": _list_of(_text),
    "evidence": _text,
    "falls_back_to": _key,
    "ends_at_months": _months,
    "rest_days": _count,
    "recent_good": _pair_of(_count, rising=False),
    "two_a_day": _yes_no,
    "clean_days": _count,
    "first_minutes": _pair_of(_count, rising=False),
}
SETTING_FIELDS: Final[Mapping[str, Reader]] = {
    "may_end_at": _key,
    "settle_days": _count,
    "good_session_factor_from_48_months": _factor,
}
STAGE_REQUIRED: Final = (
    "key", "name", "phase", "kind", "aim", "earliest_months", "typical_months",
    "prerequisites", "checks", "stop_signs", "evidence",
)  # fmt: skip
SESSIONS_REQUIRED: Final = (
    "min_good_sessions", "typical_sessions", "minutes", "days_a_week", "days_in_a_row",
    "refresh_after_days", "people",
)  # fmt: skip
FILE_REQUIRED: Final = ("name", "for_whom", "stage")
FILE_FIELDS: Final[Mapping[str, Reader]] = {
    "name": _text,
    "for_whom": _text,
    "settings": _table,
    "stage": _tables,
}
