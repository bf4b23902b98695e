"""Addresses: trying on: what was seen, part by part."""

from django.urls import path

from fitting.views import tryons

urlpatterns = [
    path("horses/<slug:horse>/tack/", tryons.horse_tack, name="horse-tack"),
    path("horses/<slug:horse>/try-on/", tryons.try_on, name="try-on"),
    path("horses/<slug:horse>/tried/<int:pk>/", tryons.edit_tryon, name="edit-tryon"),
    path(
        "horses/<slug:horse>/tried/<int:pk>/delete/",
        tryons.delete_tryon,
        name="delete-tryon",
    ),
]
