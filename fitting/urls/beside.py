"""Addresses: horses put beside one another."""

from django.urls import path

from fitting.views import beside

urlpatterns = [path("beside/", beside.beside, name="beside")]
