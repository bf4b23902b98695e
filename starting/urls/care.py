"""Addresses: care visits, rests, off work, incidents."""

from django.urls import path

from starting.views import care

urlpatterns = [
    path("horses/<slug:horse>/care/", care.care, name="care"),
    path("horses/<slug:horse>/care/new/", care.add_care, name="add-care"),
    path("horses/<slug:horse>/care/<int:pk>/", care.edit_care, name="edit-care"),
    path(
        "horses/<slug:horse>/care/<int:pk>/delete/",
        care.delete_care,
        name="delete-care",
    ),
    path("horses/<slug:horse>/rest/new/", care.add_rest, name="add-rest"),
    path("horses/<slug:horse>/rest/<int:pk>/", care.edit_rest, name="edit-rest"),
    path(
        "horses/<slug:horse>/rest/<int:pk>/delete/",
        care.delete_rest,
        name="delete-rest",
    ),
    path("horses/<slug:horse>/off-work/new/", care.add_off_work, name="add-off-work"),
    path(
        "horses/<slug:horse>/off-work/<int:pk>/",
        care.edit_off_work,
        name="edit-off-work",
    ),
    path(
        "horses/<slug:horse>/off-work/<int:pk>/delete/",
        care.delete_off_work,
        name="delete-off-work",
    ),
    path("horses/<slug:horse>/incident/new/", care.add_incident, name="add-incident"),
    path(
        "horses/<slug:horse>/incident/<int:pk>/",
        care.edit_incident,
        name="edit-incident",
    ),
    path(
        "horses/<slug:horse>/incident/<int:pk>/delete/",
        care.delete_incident,
        name="delete-incident",
    ),
]
