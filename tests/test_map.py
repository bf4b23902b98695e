"""The developers' map: every room of both apps stands on it, and none that is gone."""

from __future__ import annotations

import re

import pytest

from tests.test_layers import GLUE, ROOT

DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
MAP = DEVELOPERS.partition("## The map")[2].partition("\n## ")[0]
NAMED = set(re.findall(r"\b[a-z_]+(?:\.py\b|\.toml\b|/)", MAP))
FOLDERS = ("fitting", "starting", "templates", "tests", "fixtures_demo")


@pytest.mark.parametrize("folder", ["fitting", "fitting/fit", "starting"])
def test_the_map_names_every_room(folder: str) -> None:
    rooms = {
        f"{path.name}/" if path.is_dir() else path.name
        for path in (ROOT / folder).iterdir()
        if path.stem not in GLUE and not path.name.startswith("_")
    }
    assert len(rooms) > 20
    assert rooms - NAMED == set()


def test_the_map_names_no_room_that_is_gone() -> None:
    there = {f"{folder}/" for folder in FOLDERS}
    for folder in FOLDERS:
        for path in (ROOT / folder).rglob("*"):
            there.add(f"{path.name}/" if path.is_dir() else path.name)
    assert NAMED - there == set()
