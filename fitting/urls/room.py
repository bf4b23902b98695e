"""Addresses of the figures tack is judged by."""

from django.urls import path

from fitting.views import room

urlpatterns = [
    path("yard/room/", room.room, name="room"),
    path("yard/room/<str:group>/", room.change_room, name="change-room"),
    path("horses/<slug:horse>/room/", room.horse_room, name="horse-room"),
    path(
        "horses/<slug:horse>/room/<str:group>/",
        room.change_horse_room,
        name="change-horse-room",
    ),
]
