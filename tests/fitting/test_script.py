"""The script on top of the pages, in a browser, against a page of our own."""

import functools
import json
import threading
from collections.abc import Iterator
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser import (
    launch,
    lose_signal,
    need_chromium,
    open_page,
    wait_until_kept,
)

SCRIPT = Path(__file__).resolve().parents[2] / "fitting/static/fitting/site.js"
FORM = """<!doctype html><html lang="en-GB"><meta charset="utf-8">
<title>Form</title><body>
<form method="post" data-draft="yard-form" id="form">
<input type="hidden" name="csrfmiddlewaretoken" value="{token}">
<input type="hidden" name="token" value="{token}">
<div class="field"><input name="height" data-fractions></div>
<input type="radio" name="how" value="stick">
<input type="radio" name="how" value="tape">
</form><button type="submit" form="form">Write it in</button>
<script src="site.js"></script></body></html>"""
REFUSED = (
    FORM.replace("data-fractions", 'value="13.4"')
    .format(token="first")
    .replace(
        '<input type="radio"',
        '<input type="hidden" name="seen_revision" value="2">\n<input type="radio"',
        1,
    )
)
SAVED = (
    '<!doctype html><p data-saved="yard-form">Saved</p><script src="site.js"></script>'
)

PRESS = "document.querySelector('[type=submit]').click()"
HELD_BACK = """() => { window.held = []; addEventListener("submit",
  (event) => held.push(event.defaultPrevented)); }"""


class Served(SimpleHTTPRequestHandler):
    """Serves the pages of a folder and counts what is sent."""

    sent = 0

    def do_POST(self) -> None:
        type(self).sent += 1
        self.send_response(204)
        self.end_headers()

    def log_message(self, *args: object) -> None:
        """Keep quiet."""


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    need_chromium()
    folder = tmp_path_factory.mktemp("pages")
    (folder / "site.js").write_text(SCRIPT.read_text())
    (folder / "first.html").write_text(FORM.format(token="first"))
    (folder / "second.html").write_text(FORM.format(token="second"))
    (folder / "refused.html").write_text(REFUSED)
    (folder / "saved.html").write_text(SAVED)
    handler = functools.partial(Served, directory=str(folder))
    with ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_address[1]}"
        server.shutdown()


@pytest.fixture(scope="module")
def browser_here(address: str) -> Iterator[Browser]:
    assert address
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield browser
        browser.close()


@pytest.fixture
def yard_page(browser_here: Browser, address: str) -> Iterator[Page]:
    page = open_page(browser_here)
    page.goto(f"{address}/first.html")
    yield page
    page.close()


def kept(page: Page) -> str | None:
    text: str | None = page.evaluate("localStorage['longrein-draft:yard-form'] ?? null")
    return text


def test_what_was_typed_comes_back_with_the_token_it_was_typed_under(
    yard_page: Page, address: str
) -> None:
    yard_page.fill("[name=height]", "13.0")
    yard_page.check("[value=tape]")
    wait_until_kept(yard_page, "how", ["tape", True])
    yard_page.goto(f"{address}/second.html")
    assert yard_page.input_value("[name=height]") == "13.0"
    assert yard_page.is_checked("[value=tape]")
    assert not yard_page.is_checked("[value=stick]")
    assert yard_page.input_value("[name=token]") == "first"
    assert yard_page.input_value("[name=csrfmiddlewaretoken]") == "second"
    assert "not yet written in" in yard_page.inner_text(".kept")


def test_a_saved_page_forgets_the_draft(yard_page: Page, address: str) -> None:
    yard_page.fill("[name=height]", "13.0")
    yard_page.wait_for_function("localStorage.length === 1")
    yard_page.goto(f"{address}/saved.html")
    assert kept(yard_page) is None


def test_a_refused_page_shows_what_was_typed_and_says_nothing_of_drafts(
    yard_page: Page, address: str
) -> None:
    values = [["seen_revision", "1"], ["height", "13.4"], ["how", ["tape", False]]]
    draft = json.dumps({"at": 0, "values": values})
    yard_page.evaluate(
        "d => localStorage.setItem('longrein-draft:yard-form', d)", draft
    )
    yard_page.goto(f"{address}/refused.html")
    assert yard_page.input_value("[name=height]") == "13.4"
    assert yard_page.input_value("[name=seen_revision]") == "2"
    assert yard_page.locator(".kept").count() == 0


def test_without_signal_nothing_is_sent_and_all_is_kept(yard_page: Page) -> None:
    before = Served.sent
    yard_page.fill("[name=height]", "13.0")
    lose_signal(yard_page)
    yard_page.click("[type=submit]")
    assert yard_page.inner_text(".kept").startswith("No signal.")
    assert "13.0" in (kept(yard_page) or "")
    assert Served.sent == before


def test_a_form_pressed_three_times_goes_once(yard_page: Page) -> None:
    before = Served.sent
    yard_page.clock.install(time=0)
    yard_page.clock.pause_at(1_000)  # it may go again after a while: not yet
    yard_page.evaluate(HELD_BACK)
    with yard_page.expect_response(lambda one: one.request.method == "POST"):
        yard_page.evaluate(PRESS)
    for _ in range(2):
        yard_page.evaluate(PRESS)
    assert yard_page.evaluate("held") == [False, True, True]
    assert Served.sent == before + 1
    assert yard_page.get_attribute("[type=submit]", "aria-disabled") == "true"


def test_a_fraction_key_sets_changes_and_takes_away_the_fraction(
    yard_page: Page,
) -> None:
    yard_page.fill("[name=height]", "13.0")
    seen = []
    for key in ("½", "¾", "¾"):
        yard_page.click(f".key >> text={key}")
        seen.append(yard_page.input_value("[name=height]"))
    assert seen == ["13.0½", "13.0¾", "13.0"]
