"""Addresses of body and tack, inside a yard."""

from fitting.urls import beside, horses, measure, photos, tack, tryons

app_name = "fitting"
urlpatterns = [
    *beside.urlpatterns,
    *horses.urlpatterns,
    *measure.urlpatterns,
    *photos.urlpatterns,
    *tack.urlpatterns,
    *tryons.urlpatterns,
]
