"""The calendar file behind a link: one query, a stored body, no sign-in."""

from __future__ import annotations

from calendar import timegm
from dataclasses import dataclass
from datetime import date, datetime
from typing import Final

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_safe

from fitting.models import Yard
from starting.models import CalendarKey, StoredFeed
from starting.writes import ensure_planned
from starting.writes.links import key_hash

# Some desktop calendars refuse a packed file (reported, not seen here).
PLAIN_ONLY: Final = ("microsoft", "outlook")
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
    yard: int
    revoked_at: datetime | None
    fetched_on: date | None
    etag: str
    changed_at: datetime | None
    valid_until: datetime | None


FIELDS: Final = (
    "pk", "yard_id", "revoked_at", "fetched_on", "etag", "changed_at", "valid_until",
)  # fmt: skip


@csrf_exempt  # it only reads: a program that would write hears 405, gets no page
@login_not_required
@require_safe
def calendar(request: HttpRequest, key: str) -> HttpResponse:
    """Answer a calendar program: 200, 304, 404 for no such link, 410 once ended."""
    hashed, now = key_hash(key), timezone.now()
    polled = _polled(hashed)
    if polled is None:
        return _refusal(404)
    if polled.revoked_at is not None:
        return _refusal(410)
    if polled.fetched_on != now.date():  # the day of the last fetch is kept, no more
        CalendarKey.objects.filter(pk=polled.pk).update(fetched_on=now.date())
    if polled.valid_until is None or polled.valid_until <= now:
        ensure_planned(Yard.objects.get(pk=polled.yard))
        polled = _polled(hashed) or polled
    return _answer(request, polled)


def _polled(hashed: str) -> Polled | None:
    rows = CalendarKey.objects.filter(key_hash=hashed).order_by().values_list(*FIELDS)
    return next((Polled(*row) for row in rows), None)


def _refusal(status: int) -> HttpResponse:
    return HttpResponse("", status=status, headers=HEADERS)


def _answer(request: HttpRequest, polled: Polled) -> HttpResponse:
    if polled.changed_at is None:
        return _refusal(503)
    changed = timegm(polled.changed_at.utctimetuple())
    unchanged = get_conditional_response(request, polled.etag, changed)
    answer = unchanged or _body(request, polled.pk)
    for name in ON_NOT_CHANGED:
        answer[name] = HEADERS[name]
    answer["ETag"] = polled.etag
    answer["Last-Modified"] = polled.changed_at.strftime("%a, %d %b %Y %H:%M:%S GMT")
    return answer


def _body(request: HttpRequest, link: int) -> HttpResponse:
    packed = _takes_gzip(request)
    field = "gzipped" if packed else "body"
    body = StoredFeed.objects.values_list(field, flat=True).get(calendar_key=link)
    answer = HttpResponse(bytes(body), headers=HEADERS)
    if packed:
        answer["Content-Encoding"] = "gzip"
    return answer


def _takes_gzip(request: HttpRequest) -> bool:
    agent = request.headers.get("User-Agent", "").lower()
    takes = request.headers.get("Accept-Encoding", "").lower()
    return "gzip" in takes and not any(name in agent for name in PLAIN_ONLY)
