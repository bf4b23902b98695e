"""Addresses: the yard day by day: today, what to write, the plan."""

from django.urls import path

from starting.views import months, moved, yard

urlpatterns = [
    path("", yard.today, name="today"),
    path("write/", yard.write, name="write"),
    path("plan/", yard.plan, name="plan"),
    path("plan/months/", months.months, name="months"),
    path("plan/moved/", moved.moved, name="moved"),
    path("horses/<slug:horse>/months/", months.horse_months, name="horse-months"),
    path("horses/<slug:horse>/moved/", moved.horse_moved, name="horse-moved"),
]
