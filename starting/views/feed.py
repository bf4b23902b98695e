"""The calendar file behind a link: one query, a stored body, no sign-in."""

from __future__ import annotations

from calendar import timegm
from typing import Final

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.utils.cache import get_conditional_response
from django.views.decorators.http import require_safe

from starting.models import CalendarKey, StoredFeed
from starting.writes import ensure_planned, today_in
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


@login_not_required
@require_safe
def calendar(request: HttpRequest, key: str) -> HttpResponse:
    """Answer a calendar program: 200, 304, 404 for no such link, 410 once ended."""
    link = (
        CalendarKey.objects.select_related("yard", "stored")
        .filter(key_hash=key_hash(key))
        .first()
    )
    if link is None:
        return _refusal(404)
    if link.revoked_at is not None:
        return _refusal(410)
    _fetched(link)
    stored = _stored(link)
    if stored is None:
        return _refusal(503)
    return _answer(request, stored)


def _refusal(status: int) -> HttpResponse:
    return HttpResponse("", status=status, headers=HEADERS)


def _fetched(link: CalendarKey) -> None:
    """Keep the day of the last fetch, no more."""
    today = today_in(link.yard)
    if link.fetched_on != today:
        CalendarKey.objects.filter(pk=link.pk).update(fetched_on=today)


def _stored(link: CalendarKey) -> StoredFeed | None:
    """Return the body to serve, planning the yard first where a new day began."""
    stored: StoredFeed | None = getattr(link, "stored", None)
    yard = link.yard
    if (yard.planned_version, yard.planned_on) != (yard.version, today_in(yard)):
        ensure_planned(yard)
        stored = StoredFeed.objects.filter(calendar_key=link).first()
    return stored


def _answer(request: HttpRequest, stored: StoredFeed) -> HttpResponse:
    packed = _takes_gzip(request)
    body = stored.gzipped if packed else stored.body
    response = HttpResponse(bytes(body), headers=HEADERS)
    if packed:
        response["Content-Encoding"] = "gzip"
    response["ETag"] = stored.etag
    changed = timegm(stored.changed_at.utctimetuple())
    response["Last-Modified"] = stored.changed_at.strftime("%a, %d %b %Y %H:%M:%S GMT")
    answer = get_conditional_response(request, stored.etag, changed, response)
    if answer is None or answer is response:
        return response
    for name in HEADERS.keys() - {"Content-Type", "Content-Disposition"}:
        answer[name] = HEADERS[name]
    return answer


def _takes_gzip(request: HttpRequest) -> bool:
    agent = request.headers.get("User-Agent", "").lower()
    takes = request.headers.get("Accept-Encoding", "").lower()
    return "gzip" in takes and not any(name in agent for name in PLAIN_ONLY)
