"""A calendar link is a secret: no log shows it."""

from __future__ import annotations

import contextlib
import http.client
import io
import logging
import logging.config
import os
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse

from fitting.models import Yard
from starting.apps import WithoutCalendarKeys
from starting.management.commands.demo import serving
from starting.writes.links import end_link, make_link

ROOT = Path(settings.BASE_DIR)
PATIENCE_S = 600  # only ever waited out by what hangs
SECRET = "hJ7-x_9Qm2" * 4 + "abc"


def line(message: str, *args: object, trace: bool = False) -> str:
    told = None
    if trace:
        try:
            int(f"/calendar/{SECRET}.ics")
        except ValueError:
            told = sys.exc_info()
    record = logging.LogRecord("django", logging.ERROR, "", 1, message, args, told)
    return WithoutCalendarKeys().format(record)


@pytest.mark.parametrize(
    "address",
    [
        f"/calendar/{SECRET}.ics",
        f"/calendar/{SECRET}",
        f"/calendar/{SECRET}.ics?x=1",
        f"/calendar/{SECRET}.ics/",
        f"https://yard.example/calendar/{SECRET}.ICS",
        f"webcal://yard.example//calendar/{SECRET}.ics",
        f"/calendar/{SECRET.replace('_', '%5F')}.ics",
    ],
)
def test_a_link_is_blotted_out_however_it_was_asked_for(address: str) -> None:
    said = line('"%s %s HTTP/1.1" 404', "GET", address)
    assert SECRET[:8] not in said
    assert SECRET[-8:] not in said
    assert said.startswith('"GET ')
    assert said.endswith(' HTTP/1.1" 404')


def test_a_trace_shows_no_link_either() -> None:
    said = line("Internal Server Error: %s", f"/calendar/{SECRET}.ics", trace=True)
    assert "ValueError: invalid literal" in said
    assert SECRET not in said


@pytest.mark.parametrize(
    "address", ["/withy-bank/yard/calendar/3/end/", "/withy-bank/yard/calendar/new/"]
)
def test_the_pages_of_the_links_are_told_as_they_are(address: str) -> None:
    assert line("Not Found: %s", address) == f"Not Found: {address}"


@contextlib.contextmanager
def as_the_site_logs() -> Iterator[io.StringIO]:
    """Log as a running site does, debugging or not, into one text."""
    written = io.StringIO()
    handlers: dict[str, dict[str, object]] = settings.LOGGING["handlers"]  # type: ignore[assignment]
    console = {**handlers["console"], "stream": written}
    logging.config.dictConfig({**settings.LOGGING, "handlers": {"console": console}})
    try:
        yield written
    finally:
        logging.config.dictConfig(settings.LOGGING)


@pytest.mark.parametrize("debug", [False, True])
def test_nothing_that_is_logged_of_a_poll_shows_the_link(
    client: Client, yard: Yard, settings: pytest.FixtureRequest, *, debug: bool
) -> None:
    settings.DEBUG = debug  # type: ignore[attr-defined]
    key, secret = make_link(yard, label="Phone", options={})
    link = reverse("calendar", args=[secret])
    with as_the_site_logs() as written:
        client.post(link)
        client.get(link.removesuffix(".ics"))
        end_link(key)
        client.get(link)
        server = logging.getLogger("django.server")
        server.info('"%s" %s', f"GET {link} HTTP/1.1", 410)
    said = written.getvalue()
    assert "Method Not Allowed" in said
    assert "Not Found" in said
    assert "Gone" in said
    assert '" 410' in said
    assert said.count("(hidden)") == 4
    assert secret not in said


def every_logger() -> list[logging.Logger]:
    names = [name for name in logging.root.manager.loggerDict if "django" in name]
    return [logging.root, *map(logging.getLogger, sorted(names))]


def test_no_logger_of_the_framework_has_a_handler_of_its_own() -> None:
    with as_the_site_logs():
        handlers = {h for one in every_logger() for h in one.handlers}
        ours = {h for h in handlers if isinstance(h.formatter, WithoutCalendarKeys)}
    others = {type(handler).__module__ for handler in handlers - ours}
    assert ours
    assert others <= {"_pytest.logging", "logging"}  # the tests' own, and none at all
    assert not any(type(h) is logging.StreamHandler for h in handlers - ours)


def free_port() -> int:
    """Return a port below those that machines give away: nobody is given it next."""
    for port in range(20_000 + os.getpid() % 10_000, 32_000):
        with socket.socket() as one, contextlib.suppress(OSError):
            one.bind(("127.0.0.1", port))
            return port
    raise AssertionError("no port is free")


def status(port: int, path: str) -> int:
    wire = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)
    try:
        wire.request("GET", path)
        return wire.getresponse().status
    finally:
        wire.close()


def test_the_server_of_the_demo_never_says_a_link(tmp_path: Path) -> None:
    port, said = free_port(), tmp_path / "said"
    env = {
        **os.environ,
        "DATABASE_URL": f"sqlite:///{tmp_path / 'yard.sqlite3'}",
        "DJANGO_SETTINGS_MODULE": "starting.settings",
        "STATIC_FROM_PACKAGES": "on",  # as the demo does
    }
    migrate = [sys.executable, "manage.py", "migrate", "--verbosity", "0"]
    subprocess.run(migrate, cwd=ROOT, env=env, check=True, timeout=PATIENCE_S)
    with said.open("w") as out:
        server = subprocess.Popen(
            serving(port), cwd=ROOT, env=env, stdout=out, stderr=subprocess.STDOUT
        )
    try:
        paths = [f"/calendar/{SECRET}.ics", f"/calendar/{SECRET}"]
        answers = [_when_up(server, port, path) for path in paths]
    finally:
        server.terminate()
        server.wait(timeout=PATIENCE_S)
    assert answers == [404, 404]
    assert said.read_text().count("Not Found: /calendar/(hidden)") == 2
    assert SECRET not in said.read_text()


def _when_up(server: subprocess.Popen[bytes], port: int, path: str) -> int:
    for _ in range(5 * PATIENCE_S):
        assert server.poll() is None, "the server has ended"
        with contextlib.suppress(ConnectionError):
            return status(port, path)
        time.sleep(0.2)
    raise AssertionError("the server does not answer")
