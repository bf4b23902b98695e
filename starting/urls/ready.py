"""Addresses: what is known of a horse before it is backed, or goes to others."""

from django.urls import path

from starting.views import for_others

urlpatterns = [
    path("horses/<slug:horse>/for-others/", for_others.sheet, name="for-others"),
]
