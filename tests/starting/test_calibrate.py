"""The command that says how well growth foretells."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterable
from io import StringIO

import pytest
from django.conf import settings
from django.core.management import call_command

from fitting.calibration import Coverage, calibrate, worlds


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


# README


def span(rows: Iterable[Coverage]) -> str:
    held = [100 * row.held[1] for row in rows]
    return f"{min(held):.0f} to {max(held):.0f} %"


def test_the_figures_in_the_readme_are_those_it_prints() -> None:
    readme = " ".join((settings.BASE_DIR / "README.md").read_text("utf-8").split())
    assert "`manage.py calibrate --horses 1000 --type light --seed 1`" in readme
    inside, outside = (calibrate(w, horses=1000, seed=1) for w in worlds("light"))
    assert f"{span(inside.coverage)} of heights, girths and cannons" in readme
    for measure, name in {
        "withers_height": "heights", "heart_girth": "girths", "cannon_round": "cannons"
    }.items():  # fmt: skip
        rows = [row for row in outside.coverage if row.measure == measure]
        assert f"{span(rows)} of {name}" in readme
    now = [row for row in outside.coverage if row.ahead_months == 0]
    assert f"it held {span(now)} even there" in readme
    late = [row for row in outside.grown if row.from_months >= 18]
    bias = sum(row.bias * row.horses for row in late) / sum(row.horses for row in late)
    assert f"about {bias / 10:.0f} cm too tall" in readme
