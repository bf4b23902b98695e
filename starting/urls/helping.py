"""Addresses: what is a helper's to do."""

from django.urls import path

from starting.views import helping

urlpatterns = [
    path("helping/", helping.helping, name="helping"),
    path("helping/<int:pk>/", helping.helping, name="helping-person"),
]
