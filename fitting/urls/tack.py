"""Addresses: the tack room: items, parts, made-up sets."""

from django.urls import path

from fitting.views import tack

urlpatterns = [
    path("tack/", tack.tack_room, name="tack-room"),
    path("tack/new/", tack.add_tack, name="add-tack"),
    path("tack/sets/new/", tack.make_up, name="make-up"),
    path("tack/sets/<slug:made_up>/", tack.edit_set, name="edit-set"),
    path("tack/sets/<slug:made_up>/delete/", tack.delete_set, name="delete-set"),
    path("tack/<slug:tack>/", tack.tack, name="tack"),
    path("tack/<slug:tack>/edit/", tack.edit_tack, name="edit-tack"),
    path("tack/<slug:tack>/delete/", tack.delete_tack, name="delete-tack"),
]
