"""Every source that an answer names is spelt out, and says how far to trust it."""

from __future__ import annotations

import ast
from pathlib import Path

from fitting.sources import SOURCES

ROOT = Path(__file__).resolve().parent.parent


def keys_named(path: Path) -> set[str]:
    """Return the strings that stand in a tuple called sources or SOURCES."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        value = None
        if isinstance(node, ast.keyword) and node.arg == "sources":
            value = node.value
        if isinstance(node, ast.AnnAssign) and getattr(node.target, "id", "") in {
            "SOURCES"
        }:
            value = node.value
        if isinstance(value, ast.Tuple):
            found |= texts_of(value)
        if isinstance(node, ast.Return) and isinstance(node.value, ast.Tuple):
            texts = texts_of(node.value)
            if "ours" in texts:
                found |= texts
    return found


def texts_of(row: ast.Tuple) -> set[str]:
    constants = (e.value for e in row.elts if isinstance(e, ast.Constant))
    return {value for value in constants if isinstance(value, str)}


def test_every_source_that_is_named_is_spelt_out() -> None:
    named: set[str] = set()
    for app in ("fitting", "starting"):
        for path in (ROOT / app).rglob("*.py"):
            named |= keys_named(path)
    assert {"ours", "haussler_1997", "teeth_six_months"} <= named
    assert named <= set(SOURCES), named - set(SOURCES)


def test_what_is_ours_or_custom_says_so() -> None:
    assert "no published source" in SOURCES["common_practice"].text
    assert SOURCES["ours"].text.startswith("Ours")
