"""Addresses: calendar links."""

from django.urls import path

from starting.views import links

urlpatterns = [
    path("yard/calendar/", links.calendar_links, name="calendar-links"),
    path("yard/calendar/new/", links.add_link, name="add-link"),
    path("yard/calendar/<int:pk>/", links.edit_link, name="edit-link"),
    path("yard/calendar/<int:pk>/end/", links.end_link, name="end-link"),
]
