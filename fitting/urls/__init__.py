"""Addresses of body and tack, inside a yard."""

from fitting.urls import (
    beside,
    bringing_in,
    fits,
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
    *fits.urlpatterns,
    *horses.urlpatterns,
    *measure.urlpatterns,
    *photos.urlpatterns,
    *room.urlpatterns,
    *tack.urlpatterns,
    *tryons.urlpatterns,
]
