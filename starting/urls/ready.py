"""Addresses: what is known of a horse before it is backed, or goes to others."""

from django.urls import path

from starting.views import for_others, ready

urlpatterns = [
    path("horses/<slug:horse>/for-others/", for_others.sheet, name="for-others"),
    path("horses/<slug:horse>/ready/", ready.ready, name="ready"),
    path("riders/", ready.riders, name="riders"),
]
