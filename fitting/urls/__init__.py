"""Addresses of body and tack, inside a yard."""

from fitting.urls import (
    beside,
    bringing_in,
    horses,
    measure,
    photos,
    room,
    tack,
    tryons,
)

app_name = "fitting"
urlpatterns = [
    *beside.urlpatterns,
    *bringing_in.urlpatterns,
    *horses.urlpatterns,
    *measure.urlpatterns,
    *photos.urlpatterns,
    *room.urlpatterns,
    *tack.urlpatterns,
    *tryons.urlpatterns,
]
