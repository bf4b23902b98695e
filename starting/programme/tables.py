"""Changes made in a programme's table, found again in one, and written as TOML.

A programme is always a shipped one with changes made in it, so the same changes give
the same steps in the same order.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Mapping
from typing import Any, Final

from starting.programme.order import below, in_order
from starting.programme.settings import SettingError, with_settings

ENABLED: Final = "enabled"
STAGES: Final = "stages"
SETTINGS: Final = "settings"
STEP_LISTS: Final = ("prerequisites", "prerequisites_once")
TEXTS: Final = ("name", "for_whom")
Table = dict[str, Any]


class ChangeError(ValueError):
    """A change that cannot be made.

    Attributes:
        path: where in the changes it stands.
        found: what stands there.
        allowed: what would have been accepted there.
    """

    def __init__(self, path: tuple[str, ...], found: str, allowed: str) -> None:
        super().__init__(f"{'.'.join(path)}: {found}; allowed: {allowed}")
        self.path = path
        self.found = found
        self.allowed = allowed


def changed(table: Table, changes: Mapping[str, Any]) -> Table:
    """Return a programme's table with changes made, its steps put in order.

    A step taken out hands what it waited for on to the steps that waited for it.

    Raises:
        ChangeError: a change of something else than steps and settings, of no such
            step, or of a floor to a lower one.
    """
    if unknown := sorted(set(changes) - {STAGES, SETTINGS, *TEXTS}):
        place = (unknown[0],)
        raise ChangeError(place, "this cannot be changed", f"{STAGES}, {SETTINGS}")
    stages = _object((STAGES,), changes.get(STAGES, {}), "an object of steps")
    settings = _object((SETTINGS,), changes.get(SETTINGS, {}), "an object of settings")
    known = {stage["key"]: stage for stage in table["stage"]}
    for key, fields in stages.items():
        _check(known, key, fields)
    try:
        stages, kept = with_settings(table, stages, settings)
    except SettingError as error:
        raise ChangeError((SETTINGS, error.name), error.found, error.allowed) from error
    head = {k: changes.get(k, v) for k, v in table.items() if k in TEXTS}
    end = {SETTINGS: dict(sorted(kept.items()))} if kept else {}
    return {**head, **end, "stage": in_order(_steps(table, stages))}


def _object(place: tuple[str, ...], value: Any, allowed: str) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise ChangeError(place, f"found {value!r}", allowed)
    return value


def _check(known: Mapping[str, Table], key: str, fields: Any) -> None:
    place = (STAGES, key)
    if key not in known:
        raise ChangeError(place, "no such step", ", ".join(known))
    _object(place, fields, "an object of the step's fields")
    if empty := [name for name, value in fields.items() if value is None]:
        raise ChangeError((*place, empty[0]), "found None", "a value")
    if not isinstance(fields.get(ENABLED, True), bool):
        found = f"found {fields[ENABLED]!r}"
        raise ChangeError((*place, ENABLED), found, "true or false")
    floor, asked = known[key].get("floor_months", 0), fields.get("floor_months")
    if isinstance(asked, (int, float)) and asked < floor:
        allowed = f"{floor:g} or more: a floor may be raised, never lowered"
        raise ChangeError((*place, "floor_months"), f"found {asked!r}", allowed)


def _steps(table: Table, changes: Mapping[str, Table]) -> list[Table]:
    """Return the steps that stay, with their fields replaced."""
    gone = {key for key, f in changes.items() if not f.get(ENABLED, True)}
    steps = [
        _with_fields(stage, changes.get(stage["key"], {}))
        for stage in without(table["stage"], gone)
    ]
    waits = {step["key"]: _strings(step["prerequisites"]) for step in steps}
    for step in steps:
        said = "falls_back_to" in changes.get(step["key"], {})
        if not said and not _may_fall(step, waits):
            step.pop("falls_back_to", None)
    return steps


def _strings(value: Any) -> list[str]:
    """Return the names in a list that may be none: whoever reads it refuses it."""
    names = value if isinstance(value, list) else []
    return [one for one in names if isinstance(one, str)]


def _may_fall(step: Table, waits: Mapping[str, Any]) -> bool:
    """Whether a step still falls back to one that stands before it."""
    back = step.get("falls_back_to")
    return isinstance(back, str) and back in below(waits, step["key"])


def _with_fields(stage: Table, change: Mapping[str, Any]) -> Table:
    """Return a step with its fields replaced; new ones stand behind, by name.

    The first day in days goes with the first months it was exact for.
    """
    fields = {name: change[name] for name in sorted(change) if name != ENABLED}
    step = stage | fields
    moved = fields.get("earliest_months", stage["earliest_months"])
    if moved != stage["earliest_months"] and "earliest_days" not in fields:
        step.pop("earliest_days", None)
    return step


def without(steps: list[Table], gone: set[str]) -> list[Table]:
    """Return steps without some; who waited for one waits for what it waited for."""
    needs = {step["key"]: step["prerequisites"] for step in steps}
    return [
        step
        | {
            "prerequisites": _handed_on(step["prerequisites"], needs, gone),
            **{
                name: [key for key in step[name] if key not in gone]
                for name in STEP_LISTS[1:]
                if name in step
            },
        }
        for step in steps
        if step["key"] not in gone
    ]


def _handed_on(
    keys: list[str], needs: Mapping[str, list[str]], gone: set[str]
) -> list[str]:
    found: dict[str, None] = {}
    for key in keys:
        handed = _handed_on(needs[key], needs, gone) if key in gone else [key]
        found |= dict.fromkeys(handed)
    return list(found)


def changes_of(base: Table, own: Table) -> Table:
    """Return what a programme's table changes in the one it is made from."""
    steps = {stage["key"]: stage for stage in own["stage"]}
    gone = {s["key"] for s in base["stage"]} - steps.keys()
    stages: Table = {key: {ENABLED: False} for key in gone}
    for before in without(base["stage"], gone):
        after = steps[before["key"]]
        fields = {k: v for k, v in after.items() if before.get(k) != v}
        if fields:
            stages[before["key"]] = {k: fields[k] for k in sorted(fields)}
    was, now = base.get(SETTINGS, {}), own.get(SETTINGS, {})
    settings = {k: now[k] for k in sorted(now) if was.get(k) != now[k]}
    found: Table = {}
    if stages:
        found[STAGES] = {k: stages[k] for k in sorted(stages)}
    if settings:
        found[SETTINGS] = settings
    return found


def table_of(text: str) -> Table:
    """Return the table that a programme's text, known to be TOML, holds."""
    return tomllib.loads(text)


def toml_text(table: Table) -> str:
    """Return a programme's table as TOML."""
    head = [f"{k} = {_toml(v)}" for k, v in table.items() if k != "stage"]
    steps = (
        "\n".join(["", "[[stage]]", *(f"{_key(k)} = {_toml(v)}" for k, v in s.items())])
        for s in table["stage"]
    )
    return "\n".join([*head, *steps, ""])


def _key(name: str) -> str:
    return json.dumps(name, ensure_ascii=False)


def _toml(value: Any) -> str:
    """Return a value as TOML; its texts and numbers are written as in JSON."""
    if isinstance(value, dict):
        inner = ", ".join(f"{_key(k)} = {_toml(v)}" for k, v in value.items())
        return f"{{ {inner} }}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(_toml(item) for item in value)}]"
    return json.dumps(value, ensure_ascii=False)
