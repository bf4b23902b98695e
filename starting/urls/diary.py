"""Addresses: the diary, its entries, its files."""

from django.urls import path

from starting.views import diary

urlpatterns = [
    path("diary/", diary.diary, name="diary"),
    path("diary/all.ics", diary.diary_file, name="diary-file"),
    path("diary/<uuid:entry>/", diary.entry, name="diary-entry"),
    path("diary/<uuid:entry>/entry.ics", diary.entry_file, name="diary-entry-file"),
    path("diary/<uuid:entry>/tick/", diary.tick, name="tick-entry"),
    path(
        "diary/<uuid:entry>/tick/<int:pk>/back/", diary.take_back, name="untick-entry"
    ),
    path("horses/<slug:horse>/diary/", diary.horse_diary, name="horse-diary"),
]
