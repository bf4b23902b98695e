"""Addresses: what to buy or borrow, and cards for the shop."""

from django.urls import path

from starting.views import wanted

urlpatterns = [
    path("to-get/", wanted.to_get, name="to-get"),
    path("horses/<slug:horse>/to-get/", wanted.horse_to_get, name="horse-to-get"),
    path("horses/<slug:horse>/to-get/cards/", wanted.shop_cards, name="shop-cards"),
    path("horses/<slug:horse>/to-get/got/", wanted.got, name="got"),
    path(
        "horses/<slug:horse>/to-get/<int:pk>/not-got/", wanted.not_got, name="not-got"
    ),
]
