"""The doors: setting a forgotten password."""

from __future__ import annotations

from axes.utils import reset
from django.contrib.auth.forms import SetPasswordForm
from django.contrib.auth.models import User
from django.contrib.auth.views import PasswordResetConfirmView
from django.http import HttpResponse


class SetPasswordView(PasswordResetConfirmView):
    """Set the password by the link of a letter; it opens the lock of wrong tries."""

    def form_valid(self, form: SetPasswordForm[User]) -> HttpResponse:
        """Save the password, forget the tries with the one before."""
        response = super().form_valid(form)
        reset(username=form.user.get_username())
        return response
