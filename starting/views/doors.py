"""The doors: setting a forgotten password; paper or slate, before any yard."""

from __future__ import annotations

from datetime import timedelta
from typing import Final

from axes.utils import reset
from django.conf import settings
from django.contrib.auth.decorators import login_required
from django.contrib.auth.forms import SetPasswordForm
from django.contrib.auth.models import User
from django.contrib.auth.views import PasswordResetConfirmView
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_http_methods

from fitting.ground import GROUND, ground_of
from starting.forms.doors import GroundForm

KEPT_FOR: Final = timedelta(days=400)


class SetPasswordView(PasswordResetConfirmView):
    """Set the password by the link of a letter; it opens the lock of wrong tries."""

    def form_valid(self, form: SetPasswordForm[User]) -> HttpResponse:
        """Save the password, forget the tries with the one before."""
        response = super().form_valid(form)
        reset(username=form.user.get_username())
        return response


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def ground(request: HttpRequest) -> HttpResponse:
    """Paper or slate: kept by the device, for a phone in the sun is not a desk."""
    sent = request.POST if request.method == "POST" else None
    form = GroundForm(sent, initial={"ground": ground_of(request.COOKIES)})
    back = _back(request)
    if form.is_valid():
        answer = redirect(back)
        answer.set_cookie(
            GROUND,
            form.cleaned_data["ground"],
            max_age=KEPT_FOR,
            secure=settings.SESSION_COOKIE_SECURE,
            httponly=True,
            samesite="Lax",
        )
        return answer
    status = 422 if form.is_bound else 200
    context = {"form": form, "back": back}
    return render(request, "starting/ground.html", context, status=status)


def _back(request: HttpRequest) -> str:
    """Return the page of this site that led here, or the yards."""
    asked = request.POST.get("next") or request.GET.get("next") or ""
    ours = url_has_allowed_host_and_scheme(
        asked, {request.get_host()}, require_https=request.is_secure()
    )
    return asked if ours else "/"
