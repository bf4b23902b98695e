"""A real browser for the pages: Debian's Chromium, or a clear reason why not."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Playwright

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip


def need_chromium() -> None:
    """Skip where there is no Chromium; never so on CI."""
    if not CHROMIUM.exists():
        assert os.environ.get("CI") != "true", "no Chromium to test the pages with"
        pytest.skip("no Chromium here: install Debian's package chromium")


def launch(playwright: Playwright) -> Browser:
    """Start the browser."""
    return playwright.chromium.launch(executable_path=CHROMIUM, args=list(ARGUMENTS))
