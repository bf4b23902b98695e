"""Addresses: whether tack fits, and who fits what."""

from django.urls import path

from fitting.views import fits

urlpatterns = [
    path("does-it-fit/", fits.does_it_fit, name="does-it-fit"),
    path("who-fits-what/", fits.who_fits, name="who-fits"),
]
