"""The calendar file behind a link: one query, a stored body, no sign-in."""

from __future__ import annotations

import re
from calendar import timegm
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_safe

from starting.models import CalendarKey
from starting.writes.links import catch_up, key_hash, store_again

# Some desktop calendars refuse a packed file (reported, not seen here).
PLAIN_ONLY: Final = ("microsoft", "outlook")
NOTED_EVERY: Final = timedelta(hours=1)  # ours: a poll in between writes nothing
PLAIN: Final = "stored__body"
PACKED: Final = "stored__gzipped"
GZIP: Final = re.compile(r"\b(?:x-)?gzip\b(?!\s*;\s*q=0(?:\.0*)?\s*(?:,|$))")
HEADERS: Final = {
    "Content-Type": "text/calendar; charset=utf-8",
    "Content-Disposition": 'inline; filename="yard.ics"',
    "Cache-Control": "private, no-cache",
    "Vary": "Accept-Encoding",
    "X-Robots-Tag": "noindex, nofollow, noarchive",
    "Referrer-Policy": "no-referrer",
}
ON_NOT_CHANGED: Final = HEADERS.keys() - {"Content-Type", "Content-Disposition"}


@dataclass(frozen=True, slots=True)
class Polled:
    """What one poll needs to know: the fields stand in the order they are asked in."""

    pk: int
    revoked_at: datetime | None
    fetched_at: datetime | None
    etag: str
    changed_at: datetime | None
    valid_until: datetime | None
    body: bytes | None = None  # None: not asked for


FIELDS: Final = (
    "pk", "revoked_at", "fetched_at", "etag", "changed_at", "valid_until",
)  # fmt: skip


@csrf_exempt  # it only reads: a program that would write hears 405, gets no page
@login_not_required
@require_safe
def calendar(request: HttpRequest, key: str) -> HttpResponse:
    """Answer a calendar program: 200, 304, 404 for no such link, 410 once ended.

    One query, whether it answers 304 or sends the whole file to who asks plainly.
    """
    hashed, now = key_hash(key), timezone.now()
    fields = FIELDS if _asks_if_changed(request) else (*FIELDS, _body_field(request))
    polled = _polled(hashed, fields)
    if polled is None:
        return _refusal(404)
    if polled.revoked_at is not None:
        return _refusal(410)
    new_day = polled.valid_until is None or polled.valid_until <= now
    if new_day or not _noted(polled.fetched_at, now):
        CalendarKey.objects.filter(pk=polled.pk).update(fetched_at=now)
    if new_day:
        catch_up(polled.pk)
        polled = _polled(hashed, fields)
    return _answer(request, polled)


def _polled(hashed: str, fields: Sequence[str]) -> Polled | None:
    rows = CalendarKey.objects.filter(key_hash=hashed).order_by().values_list(*fields)
    return next((Polled(*row) for row in rows), None)


def _noted(fetched_at: datetime | None, now: datetime) -> bool:
    """Whether what is kept of the last fetch stands near enough to now."""
    return fetched_at is not None and abs(now - fetched_at) < NOTED_EVERY


def _asks_if_changed(request: HttpRequest) -> bool:
    told = request.META
    return "HTTP_IF_NONE_MATCH" in told or "HTTP_IF_MODIFIED_SINCE" in told


def _refusal(status: int) -> HttpResponse:
    return HttpResponse("", status=status, headers={**HEADERS, "Content-Length": "0"})


def _answer(request: HttpRequest, polled: Polled | None) -> HttpResponse:
    if polled is None or polled.changed_at is None:  # deleted this very moment
        return _refusal(404)
    changed = timegm(polled.changed_at.utctimetuple())
    unchanged = get_conditional_response(request, polled.etag, changed)
    answer = unchanged or _file(request, polled)
    for name in ON_NOT_CHANGED:
        answer[name] = HEADERS[name]
    answer["ETag"] = polled.etag
    answer["Last-Modified"] = polled.changed_at.strftime("%a, %d %b %Y %H:%M:%S GMT")
    return answer


def _file(request: HttpRequest, polled: Polled) -> HttpResponse:
    field, body = _body_field(request), polled.body
    if body is None:
        body = _kept(polled.pk, field)
    if body is None:  # somebody deleted it while repairing
        store_again(polled.pk)
        body = _kept(polled.pk, field) or b""
    answer = HttpResponse(bytes(body), headers=HEADERS)
    answer["Content-Length"] = str(len(answer.content))
    if field == PACKED:
        answer["Content-Encoding"] = "gzip"
    return answer


def _kept(link: int, field: str) -> bytes | None:
    rows = CalendarKey.objects.filter(pk=link).order_by()
    kept: bytes | None = rows.values_list(field, flat=True).get()
    return kept


def _body_field(request: HttpRequest) -> str:
    """Return which of the stored bodies is sent: packed to who asks for it."""
    takes = request.headers.get("Accept-Encoding", "").lower()
    agent = request.headers.get("User-Agent", "").lower()
    chokes = any(name in agent for name in PLAIN_ONLY)
    return PACKED if GZIP.search(takes) and not chokes else PLAIN
