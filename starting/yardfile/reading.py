"""The text of a yard file becomes its shape; what does not fit says where and why."""

from __future__ import annotations

import json
import re
from typing import Any, Final

import msgspec
from msgspec import inspect

from fitting.yardfile import ROOT, Place, YardFileError
from fitting.yardfile.place import shown
from starting.yardfile.shapes import FORMAT, VERSION, YardFile

LARGEST_BYTES: Final = 50_000_000  # ours: more is no yard
_PLACED: Final = re.compile(r"(?P<said>.*?)(?: - at `\$(?P<path>.*)`)?", re.DOTALL)
_STEP: Final = re.compile(r"\.(?P<key>[^.\[]+)|\[(?P<index>\d+|\.\.\.)\]")
_KEY: Final = re.compile(r"(?P<what>unknown|missing required) field `(?P<key>.*)`")
_UNWELCOME: Final = re.compile("[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff]")
_WORDS: Final[tuple[tuple[type[inspect.Type], str], ...]] = (
    (inspect.BoolType, "true or false"),
    (inspect.FloatType, "a number"),
    (inspect.ListType, "a list"),
    (inspect.DictType, "an object"),
    (inspect.NoneType, "null"),
)


class _NotJsonError(ValueError):
    """Something that JSON readers let pass and a yard file does not."""


def read_file(body: bytes) -> YardFile:
    """Return the shape of a yard file.

    Raises:
        YardFileError: it is no JSON, or a key or the kind of a value is wrong.
    """
    found = _parse(body)
    _check_head(found)
    _check_texts(ROOT, found)
    try:
        return msgspec.convert(found, YardFile)
    except msgspec.ValidationError as error:
        raise _explained(str(error), found) from error


def _parse(body: bytes) -> Any:
    allowed = f"JSON in UTF-8, {LARGEST_BYTES // 1_000_000} MB at most"
    if len(body) > LARGEST_BYTES:
        raise ROOT.error(f"found {len(body)} bytes", allowed)
    try:
        return json.loads(
            body.decode("utf-8-sig"),
            object_pairs_hook=_object,
            parse_constant=_no_constant,
        )
    except (ValueError, RecursionError) as error:
        raise ROOT.error(str(error), allowed) from error


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        keys = [key for key, _ in pairs]
        twice = next(key for key in keys if keys.count(key) > 1)
        raise _NotJsonError(f"the key {twice!r} stands twice in one object")
    return found


def _no_constant(name: str) -> None:
    raise _NotJsonError(f"{name} is no number")


def _check_head(found: Any) -> None:
    """Say first what the file is not, before anything inside it is read."""
    if not isinstance(found, dict):
        raise ROOT.error(shown(found), "an object")
    for key, wanted in (("format", FORMAT), ("version", VERSION)):
        if key in found and found[key] != wanted:
            raise (ROOT / key).error(shown(found[key]), repr(wanted))


def _check_texts(where: Place, found: Any) -> None:
    """Check that no text holds signs that no page and no database can show."""
    if isinstance(found, dict):
        for key, value in found.items():
            _check_texts(where, key)
            _check_texts(where / key, value)
    elif isinstance(found, list):
        for at, value in enumerate(found):
            _check_texts(where / at, value)
    elif isinstance(found, str) and _UNWELCOME.search(found):
        raise where.error(shown(found), "text without control characters")


def _explained(said: str, found: Any) -> YardFileError:
    """Return the error with its place, what stands there and what may."""
    placed = _PLACED.fullmatch(said)
    what, path = (placed["said"], placed["path"] or "") if placed else (said, "")
    where, kind = ROOT, inspect.type_info(YardFile)
    for step in _STEP.finditer(path):
        if step["index"] == "...":
            break
        key: str | int = step["key"] if step["index"] is None else int(step["index"])
        where, found, kind = where / key, found[key], _inside(kind, key)
    if field := _KEY.search(what):
        unknown = field["what"] == "unknown"
        message = f"{'unknown key' if unknown else 'there is no key'} {field['key']!r}"
        return where.error(message, _words(kind) if unknown else "a value for it")
    return where.error(shown(found), _words(kind))


def _inside(kind: inspect.Type, key: str | int) -> inspect.Type:
    """Return the type that is wanted one step further in."""
    if isinstance(kind, inspect.UnionType):
        inner = (t for t in kind.types if isinstance(t, inspect.StructType))
        return _inside(next(inner, inspect.AnyType()), key)
    if isinstance(kind, inspect.StructType):
        fields = {field.encode_name: field.type for field in kind.fields}
        return fields.get(str(key), inspect.AnyType())
    return kind.item_type if isinstance(kind, inspect.ListType) else inspect.AnyType()


def _words(kind: inspect.Type) -> str:
    """Return what may stand somewhere, in words."""
    if isinstance(kind, inspect.StructType):
        keys = ", ".join(field.encode_name for field in kind.fields)
        return f"an object with the keys {keys}"
    if isinstance(kind, inspect.UnionType):
        return " or ".join(_words(inner) for inner in kind.types)
    if isinstance(kind, inspect.StrType):
        return "text in quotes" + (" that is not empty" if kind.pattern else "")
    if isinstance(kind, inspect.IntType):
        least = f" from {kind.ge}" if kind.ge is not None else ""
        most = f" to {kind.le}" if kind.le is not None else ""
        return f"a whole number{least}{most}"
    if isinstance(kind, inspect.ListType) and kind.min_length:
        return "a list that is not empty"
    return next((said for what, said in _WORDS if isinstance(kind, what)), "a value")
