"""The house stays easy to see: plain rooms without Django, no back door."""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from pathlib import Path

from django.conf import settings
from django.db import connection

ROOT = Path(__file__).resolve().parent.parent
GLUE = {
    "admin", "apps", "forms", "management", "middleware", "migrations", "models",
    "reads", "settings", "signals", "static", "templatetags", "urls", "views",
    "writes", "wsgi", "yardfile",
}  # fmt: skip


def plain_modules() -> list[str]:
    """Name every module of both apps that is not glue."""
    found = []
    for app in ("fitting", "starting"):
        for path in sorted((ROOT / app).rglob("*.py")):
            inside = path.relative_to(ROOT / app).with_suffix("").parts
            if inside[0] not in GLUE:
                dotted = ".".join((app, *inside))
                found.append(dotted.removesuffix(".__init__"))
    return found


def test_plain_modules_load_without_django() -> None:
    names = plain_modules()
    script = (
        f"import importlib, sys; [importlib.import_module(n) for n in {names}]; "
        "sys.exit('django' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", script], cwd=ROOT, check=False)
    assert len(names) > 20
    assert done.returncode == 0


def test_fitting_never_imports_starting() -> None:
    for path in (ROOT / "fitting").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            names = [a.name for a in node.names] if isinstance(node, ast.Import) else []
            if isinstance(node, ast.ImportFrom):
                names.append(node.module or "")
            assert not any(name.split(".")[0] == "starting" for name in names), path


def test_plain_modules_never_ask_the_clock() -> None:
    for name in plain_modules():
        path = ROOT / name.replace(".", "/")
        file = path / "__init__.py" if path.is_dir() else path.with_suffix(".py")
        text = file.read_text("utf-8")
        for call in ("date.today(", "datetime.now(", "datetime.today(", "time.time("):
            assert call not in text, name


def test_the_second_run_really_uses_postgresql() -> None:
    wanted = "postgresql" if os.environ.get("EXPECT_POSTGRES") else connection.vendor
    assert connection.vendor == wanted
    assert connection.vendor in settings.DATABASES["default"]["ENGINE"]


def test_nothing_else_stands_at_the_top_level() -> None:
    done = subprocess.run(
        ["git", "ls-files"],  # noqa: S607
        cwd=ROOT, check=False, capture_output=True, text=True,
    )  # fmt: skip
    if done.returncode:
        return  # an exported tree has no list of files
    top = {line.split("/")[0] for line in done.stdout.splitlines()}
    allowed = {
        "README.md", "DEVELOPERS.md", "manage.py", "pyproject.toml", "starting",
        "fitting", "templates", "tests", "fixtures_demo",
    }  # fmt: skip
    assert {name for name in top if not name.startswith(".")} <= allowed
