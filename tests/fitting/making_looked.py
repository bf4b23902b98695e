"""A browser's part in looking a list through: what the form on a page would send."""

from __future__ import annotations

from html.parser import HTMLParser
from typing import Any, Final

from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

LIST: Final = (
    "Horse,Day,Withers (cm),Method,Note\n"
    "Pennyroyal,2026-01-10,118,stick,\n"
    "Pennyroyal,2026-02-10,119.5,stick,windy\n"
    "Old Marl,2026-02-10,142,stick,\n"
)
NEW: Final = "bring-in"


def at(name: str, *args: Any) -> str:
    return reverse(f"fitting:{name}", args=["sallow-end", *args])


def file(content: bytes | str, name: str = "book.csv") -> SimpleUploadedFile:
    raw = content.encode() if isinstance(content, str) else content
    return SimpleUploadedFile(name, raw, "text/csv")


class _Sent(HTMLParser):
    """Gathers what the form with the list in it would send."""

    def __init__(self) -> None:
        super().__init__()
        self.sent: dict[str, list[str]] = {}
        self.select = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag == "input" and given.get("name"):
            ticked = (
                given.get("type") not in {"checkbox", "radio"} or "checked" in given
            )
            if ticked and given["name"] != "csrfmiddlewaretoken":
                self.sent.setdefault(given["name"], []).append(given.get("value", ""))
        elif tag == "select":
            self.select = given["name"]
        elif tag == "option" and "selected" in given:
            self.sent[self.select] = [given["value"]]


def sends(page: str) -> dict[str, Any]:
    """Return what the form on a page sends."""
    parser = _Sent()
    parser.feed(page)
    return dict(parser.sent)


def look(client: Client, text: str = LIST) -> dict[str, Any]:
    """Bring a list to the page of looking through; return what that would send."""
    answer = client.post(at(NEW), {"file": file(text)})
    assert answer.status_code == 200
    return sends(answer.content.decode())


def write(client: Client, sent: dict[str, Any], **more: Any) -> Any:
    """Press the button that writes a list in."""
    return client.post(at(NEW), {**sent, "do": "write", **more})


def page_of(answer: Any, status: int = 200) -> str:
    assert answer.status_code == status
    return str(answer.content.decode())
