"""A command, called or run as from a terminal; what it keeps and prints."""

from __future__ import annotations

import os
import subprocess
import sys
from datetime import date
from io import StringIO
from pathlib import Path
from typing import Any

from django.apps import apps
from django.conf import settings
from django.core.management import call_command
from icalendar import Calendar

ON = date(2026, 11, 25)
ROOT = Path(settings.BASE_DIR)


def said(*words: str, **options: Any) -> str:
    out = StringIO()
    call_command(*words, stdout=out, **options)
    return out.getvalue()


def run(database: Path, *words: str) -> subprocess.CompletedProcess[str]:
    env = {
        **os.environ,
        "DJANGO_SETTINGS_MODULE": "tests.settings",
        "DATABASE_URL": f"sqlite:///{database}",
    }
    return subprocess.run(
        [sys.executable, "manage.py", *words],
        cwd=ROOT, env=env, check=False, capture_output=True, text=True,
    )  # fmt: skip


def days_in(body: str) -> dict[str, date]:
    events: list[Any] = Calendar.from_ical(body).walk("VEVENT")
    return {str(event["UID"]): event["DTSTART"].dt for event in events}


def kept() -> list[Any]:
    return [m for m in apps.get_models() if m._meta.app_label == "starting"]
