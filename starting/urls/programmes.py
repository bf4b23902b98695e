"""Addresses: programmes, a yard's own and the shipped; by which one a horse goes."""

from django.urls import path

from starting.views import moving, programmes

ONE = "programmes/<slug:programme>/"
urlpatterns = [
    path("programmes/", programmes.programmes, name="programmes"),
    path(ONE, programmes.programme, name="programme"),
    path(f"{ONE}copy/", programmes.copy_programme, name="copy-programme"),
    path(f"{ONE}versions/", programmes.versions, name="programme-versions"),
    path(f"{ONE}delete/", programmes.delete_programme, name="delete-programme"),
    path(
        f"{ONE}steps/<slug:stage>/",
        programmes.change_step,
        name="change-programme-step",
    ),
    path(
        f"{ONE}steps/<slug:stage>/out/",
        programmes.take_or_put,
        name="take-programme-step",
    ),
    path(
        "horses/<slug:horse>/programme/",
        moving.choose_programme,
        name="choose-programme",
    ),
    path(
        "horses/<slug:horse>/programme/<slug:programme>/",
        moving.move_to,
        name="move-programme",
    ),
]
