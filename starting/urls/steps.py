"""Addresses: the way up: steps, what each needs first, steps set by hand."""

from django.urls import path

from starting.views import steps

urlpatterns = [
    path("horses/<slug:horse>/steps/", steps.steps, name="steps"),
    path("horses/<slug:horse>/steps/plan/", steps.edit_plan, name="edit-plan"),
    path("horses/<slug:horse>/steps/<slug:stage>/", steps.step, name="step"),
    path(
        "horses/<slug:horse>/steps/<slug:stage>/card/",
        steps.step_card,
        name="step-card",
    ),
    path(
        "horses/<slug:horse>/steps/<slug:stage>/record/",
        steps.record_step,
        name="record-step",
    ),
    path(
        "horses/<slug:horse>/steps/<slug:stage>/went-ahead/<str:gate>/",
        steps.went_ahead,
        name="went-ahead",
    ),
]
