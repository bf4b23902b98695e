"""Diary entries become iCalendar bytes: same entries, same bytes."""

from starting.feed.rendering import (
    ALARMS,
    KIND_WORDS,
    FeedHead,
    FeedOptions,
    Rendered,
    gzipped,
    render,
    render_all,
    render_event,
    render_head,
    splice,
    wanted,
    weak_etag,
)
from starting.feed.revision import Gone, Revised, digest, retire, revise, whole_seconds
from starting.feed.splicing import render_anew
from starting.feed.wire import clean

__all__ = [
    "ALARMS",
    "KIND_WORDS",
    "FeedHead",
    "FeedOptions",
    "Gone",
    "Rendered",
    "Revised",
    "clean",
    "digest",
    "gzipped",
    "render",
    "render_all",
    "render_anew",
    "render_event",
    "render_head",
    "retire",
    "revise",
    "splice",
    "wanted",
    "weak_etag",
    "whole_seconds",
]
