"""Addresses: trying on: what was seen, part by part; what was first worn."""

from django.urls import path

from fitting.views import on_horse, tryons, worn

urlpatterns = [
    path("horses/<slug:horse>/tack/", tryons.horse_tack, name="horse-tack"),
    path(
        "horses/<slug:horse>/tack/items/<slug:tack>/",
        on_horse.item_on,
        name="item-on",
    ),
    path(
        "horses/<slug:horse>/tack/sets/<slug:made_up>/",
        on_horse.set_on,
        name="set-on",
    ),
    path("horses/<slug:horse>/try-on/", tryons.try_on, name="try-on"),
    path("horses/<slug:horse>/tried/<int:pk>/", tryons.edit_tryon, name="edit-tryon"),
    path(
        "horses/<slug:horse>/tried/<int:pk>/delete/",
        tryons.delete_tryon,
        name="delete-tryon",
    ),
    path(
        "horses/<slug:horse>/tried/<int:pk>/strike/",
        tryons.strike_tryon,
        name="strike-tryon",
    ),
    path("horses/<slug:horse>/worn/", worn.worn, name="worn"),
    path("horses/<slug:horse>/worn/new/", worn.add_first_worn, name="add-first-worn"),
    path(
        "horses/<slug:horse>/worn/<int:pk>/",
        worn.edit_first_worn,
        name="edit-first-worn",
    ),
    path(
        "horses/<slug:horse>/worn/<int:pk>/delete/",
        worn.delete_first_worn,
        name="delete-first-worn",
    ),
]
