"""Addresses: the log: sessions."""

from django.urls import path

from starting.views import log

urlpatterns = [
    path("horses/<slug:horse>/session/", log.log_session, name="log-session"),
    path("horses/<slug:horse>/session/next/", log.next_session, name="next-session"),
    path("horses/<slug:horse>/sessions/", log.sessions, name="sessions"),
    path(
        "horses/<slug:horse>/sessions/<int:pk>/", log.edit_session, name="edit-session"
    ),
    path(
        "horses/<slug:horse>/sessions/<int:pk>/delete/",
        log.delete_session,
        name="delete-session",
    ),
]
