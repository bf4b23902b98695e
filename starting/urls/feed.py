"""Addresses: the calendar file behind a link."""

from django.urls import path

from starting.views import feed

urlpatterns = [
    path("calendar/<str:key>.ics", feed.calendar, name="calendar"),
]
