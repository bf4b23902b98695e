"""Addresses: lists of readings brought in."""

from django.urls import path

from fitting.views import bringing_in

urlpatterns = [
    path("brought-in/", bringing_in.all_brought, name="all-brought"),
    path("brought-in/new/", bringing_in.bring_in, name="bring-in"),
    path("brought-in/<int:pk>/", bringing_in.see_brought, name="see-brought"),
    path(
        "brought-in/<int:pk>/take-back/", bringing_in.undo_brought, name="undo-brought"
    ),
]
