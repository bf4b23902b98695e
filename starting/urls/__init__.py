"""Addresses of the site: the doors first, then the yard in the address."""

from django.contrib import admin
from django.contrib.auth import views as auth
from django.urls import include, path

from starting.forms.doors import (
    ChangePasswordForm,
    LetterForm,
    NewPasswordForm,
    SignInForm,
)
from starting.urls import feed, first_visit
from starting.views.doors import SetPasswordView, ground

urlpatterns = [
    path("admin/", admin.site.urls),
    path(
        "sign-in/",
        auth.LoginView.as_view(authentication_form=SignInForm),
        name="sign-in",
    ),
    path("sign-out/", auth.LogoutView.as_view(), name="sign-out"),
    path(
        "password/",
        auth.PasswordChangeView.as_view(form_class=ChangePasswordForm),
        name="password_change",
    ),
    path(
        "password/changed/",
        auth.PasswordChangeDoneView.as_view(),
        name="password_change_done",
    ),
    path(
        "password/reset/",
        auth.PasswordResetView.as_view(form_class=LetterForm),
        name="password_reset",
    ),
    path(
        "password/reset/sent/",
        auth.PasswordResetDoneView.as_view(),
        name="password_reset_done",
    ),
    path(
        "password/reset/<uidb64>/<token>/",
        SetPasswordView.as_view(form_class=NewPasswordForm),
        name="password_reset_confirm",
    ),
    path(
        "password/reset/done/",
        auth.PasswordResetCompleteView.as_view(),
        name="password_reset_complete",
    ),
    path("paper-or-slate/", ground, name="ground"),
    *feed.urlpatterns,
    *first_visit.urlpatterns,
    path("<slug:yard>/", include("fitting.urls")),
    path("<slug:yard>/", include("starting.urls.inside")),
]
