"""Addresses: a horse's photos."""

from django.urls import path

from fitting.views import photos

urlpatterns = [
    path("horses/<slug:horse>/photos/", photos.photos, name="photos"),
    path("horses/<slug:horse>/photos/new/", photos.add_photo, name="add-photo"),
    path("horses/<slug:horse>/photos/<int:pk>/", photos.edit_photo, name="edit-photo"),
    path(
        "horses/<slug:horse>/photos/<int:pk>/delete/",
        photos.delete_photo,
        name="delete-photo",
    ),
    path(
        "horses/<slug:horse>/photos/<int:pk>/large.jpg",
        photos.large_photo,
        name="large-photo",
    ),
    path(
        "horses/<slug:horse>/photos/<int:pk>/small.jpg",
        photos.small_photo,
        name="small-photo",
    ),
]
