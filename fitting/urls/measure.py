"""Addresses: measuring: one walk round the horse, and what was written before."""

from django.urls import path

from fitting.views import measure

urlpatterns = [
    path("horses/<slug:horse>/measure/", measure.measure, name="measure"),
    path(
        "horses/<slug:horse>/measure/sheet/",
        measure.measure_sheet,
        name="measure-sheet",
    ),
    path("sheets/measure/", measure.measure_sheets, name="measure-sheets"),
    path("horses/<slug:horse>/measured/", measure.measured, name="measured"),
    path(
        "horses/<slug:horse>/measured/<int:pk>/",
        measure.edit_measurement,
        name="edit-measurement",
    ),
    path(
        "horses/<slug:horse>/measured/<int:pk>/delete/",
        measure.delete_measurement,
        name="delete-measurement",
    ),
]
