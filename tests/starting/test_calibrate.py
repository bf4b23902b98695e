"""The command that says how well growth foretells."""

from __future__ import annotations

import subprocess
import sys
from io import StringIO

import pytest
from django.conf import settings
from django.core.management import call_command


def said(*words: str) -> str:
    out = StringIO()
    call_command("calibrate", *words, stdout=out)
    return out.getvalue()


def run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "manage.py", "calibrate", *words],
        cwd=settings.BASE_DIR, check=False, capture_output=True, text=True,
    )  # fmt: skip


def test_it_prints_both_kinds_of_horses_the_same_each_time() -> None:
    told = said("--horses", "10", "--type", "pony", "--seed", "4")
    assert "drawn from the model itself, fitted as pony; 10 horses, seed 4" in told
    assert "fitted as warmblood; 10 horses, seed 4" in told
    for line in ("withers height, 90%", "heart girth, 50%", "cannon, 90%", "RMSE"):
        assert told.count(line) == 2
    assert said("--horses", "10", "--type", "pony", "--seed", "4") == told
    assert said("--horses", "10", "--type", "pony", "--seed", "5") != told


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--horses", "0"], "'0' is no number from 1 to 100000"),
        (["--horses", "many"], "'many' is no number from 1 to 100000"),
        (["--type", "donkey"], "invalid choice: 'donkey'"),
        (["--seed", "-1"], "--seed"),
        (["--seed", "x"], "'x' is no whole number from 0 up"),
    ],
)
def test_what_it_cannot_read_is_one_line_and_ends_with_1(
    words: list[str], told: str
) -> None:
    done = run(*words)
    assert done.returncode == 1
    assert done.stdout == ""
    assert len(done.stderr.strip().splitlines()) == 1
    assert told in done.stderr


def test_its_help_says_what_it_does() -> None:
    done = run("--help")
    assert done.returncode == 0
    assert "how well growth foretells" in done.stdout
