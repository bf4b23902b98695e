"""Addresses: the first visit: a yard, a horse, its first measurement."""

from django.urls import path

from starting.views import first_visit

urlpatterns = [
    path("", first_visit.yards, name="yards"),
    path("new-yard/", first_visit.new_yard, name="new-yard"),
    path("<slug:yard>/first-horse/", first_visit.first_horse, name="first-horse"),
    path(
        "<slug:yard>/first-measurement/<slug:horse>/",
        first_visit.first_measurement,
        name="first-measurement",
    ),
]
