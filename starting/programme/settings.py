"""Settings of a programme that change several steps at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, Final

from starting.programme_fields import SETTING_FIELDS, NotAllowedError

Table = dict[str, Any]
Steps = dict[str, Table]  # changes, by step

RIDES: Final = "riding_away"
FIRST_RIDES: Final = 8
MINUTES: Final = (5, 60)  # ours
CLEAN_DAYS: Final = (1, 10)  # ours
# They hold for every horse already, whatever its programme: a file may repeat them.
OF_ALL: Final[Mapping[str, Any]] = {
    "growth_pause_croup_cm": 6,  # heavy horses; 5 for others, by the horse's type
    "no_rider_days_after_fall": 14,
    "two_good_below_failure": True,
}


class SettingError(ValueError):
    """A setting that cannot be made: its name, what was found, what is allowed."""

    def __init__(self, name: str, found: str, allowed: str) -> None:
        super().__init__(f"{name}: {found}; allowed: {allowed}")
        self.name = name
        self.found = found
        self.allowed = allowed


def with_settings(
    base: Table, steps: Mapping[str, Table], settings: Mapping[str, Any]
) -> tuple[Steps, Table]:
    """Return the changes of steps that settings stand for, and the settings kept.

    What a step says itself goes before what a setting says of it.

    Raises:
        SettingError: a setting is unknown, or its value is not allowed.
    """
    made: Steps = {}
    kept: Table = dict(base.get("settings", {}))
    for name, value in settings.items():
        if name in SETTING_FIELDS:
            kept[name] = _kept(name, value)
        elif name in OF_ALL:
            _of_all(name, value)
        elif name in SPREAD:
            for key, fields in SPREAD[name](base, name, value, settings):
                made[key] = made.get(key, {}) | fields
        else:
            allowed = ", ".join([*SETTING_FIELDS, *SPREAD, *OF_ALL])
            raise SettingError(name, "no such setting", allowed)
    for key, fields in steps.items():
        made[key] = made.get(key, {}) | fields
    return made, kept


def _kept(name: str, value: Any) -> Any:
    try:
        return SETTING_FIELDS[name](value)
    except NotAllowedError as error:
        raise SettingError(name, f"found {value!r}", str(error)) from error


def _of_all(name: str, value: Any) -> None:
    if value is not OF_ALL[name] and value != OF_ALL[name]:
        allowed = f"{OF_ALL[name]}, as it holds for every horse"
        raise SettingError(name, f"found {value!r}", allowed)


def _keys(base: Table, name: str, value: Any) -> list[str]:
    known = [stage["key"] for stage in base["stage"]]
    if not isinstance(value, list) or not all(key in known for key in value):
        raise SettingError(name, f"found {value!r}", "a list of steps")
    return value


def _number(name: str, value: Any, between: tuple[int, int]) -> int:
    low, high = between
    whole = isinstance(value, int) and not isinstance(value, bool)
    if not whole or not low <= value <= high:
        allowed = f"a whole number from {low} to {high}"
        raise SettingError(name, f"found {value!r}", allowed)
    return int(value)


def _of(base: Table, key: str) -> Table:
    return next(stage for stage in base["stage"] if stage["key"] == key)


Spread = Iterator[tuple[str, Table]]


def _trainer(base: Table, name: str, value: Any, _: Mapping[str, Any]) -> Spread:
    for key in _keys(base, name, value):
        asked = _of(base, key).get("gates_to_do", [])
        yield key, {"gates_to_do": [*(g for g in asked if g != "trainer"), "trainer"]}


def _intake(base: Table, name: str, value: Any, beside: Mapping[str, Any]) -> Spread:
    days = _number("intake_clean_days", beside.get("intake_clean_days", 2), CLEAN_DAYS)
    for key in _keys(base, name, value):
        yield key, {"clean_days": days}


def _intake_days(_: Table, name: str, value: Any, beside: Mapping[str, Any]) -> Spread:
    _number(name, value, CLEAN_DAYS)
    if "intake_stages" not in beside:
        raise SettingError(name, "intake_stages is missing", "both, or neither")
    return iter(())


def _one_good(base: Table, name: str, value: Any, _: Mapping[str, Any]) -> Spread:
    for key in _keys(base, name, value):
        yield key, {"clean_days": 1}


def _start_at(base: Table, name: str, value: Any, beside: Mapping[str, Any]) -> Spread:
    """Take out the steps before the first, but for those gone over once after it."""
    (first,) = _keys(base, name, [value])
    keys = [stage["key"] for stage in base["stage"]]
    again = beside.get("one_good_each", [])
    for key in keys[: keys.index(first)]:
        once = key in again
        yield key, {"prerequisites": [first]} if once else {"enabled": False}
    yield first, {"prerequisites": []}


def _first_rides(base: Table, name: str, value: Any, _: Mapping[str, Any]) -> Spread:
    most = _number(name, value, MINUTES)
    _keys(base, name, [RIDES])
    yield RIDES, {"first_minutes": [FIRST_RIDES, most]}


SPREAD: Final[Mapping[str, Callable[[Table, str, Any, Mapping[str, Any]], Spread]]] = {
    "start_at": _start_at,
    "one_good_each": _one_good,
    "intake_stages": _intake,
    "intake_clean_days": _intake_days,
    "trainer_gate": _trainer,
    "first_eight_rides_max_minutes": _first_rides,
}
