"""Addresses: the horses of the yard, and the body of one."""

from django.urls import path

from fitting.views import horses, weight

urlpatterns = [
    path("horses/", horses.horses, name="horses"),
    path("horses/new/", horses.add_horse, name="add-horse"),
    path("horses/<slug:horse>/", horses.horse, name="horse"),
    path("horses/<slug:horse>/edit/", horses.edit_horse, name="edit-horse"),
    path("horses/<slug:horse>/delete/", horses.delete_horse, name="delete-horse"),
    path("horses/<slug:horse>/weight/", weight.weight, name="weight"),
]
