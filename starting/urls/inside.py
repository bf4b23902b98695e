"""Addresses of the way up, inside a yard."""

from starting.urls import (
    care,
    diary,
    helping,
    links,
    log,
    programmes,
    ready,
    settings,
    steps,
    wanted,
    yard,
)

app_name = "starting"
urlpatterns = [
    *yard.urlpatterns,
    *diary.urlpatterns,
    *helping.urlpatterns,
    *settings.urlpatterns,
    *links.urlpatterns,
    *steps.urlpatterns,
    *log.urlpatterns,
    *care.urlpatterns,
    *wanted.urlpatterns,
    *ready.urlpatterns,
    *programmes.urlpatterns,
]
