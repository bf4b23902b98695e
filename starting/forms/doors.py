"""The forms at the doors: signing in, and setting a password, in our own words."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.contrib.auth.forms import (
    AuthenticationForm,
    PasswordChangeForm,
    PasswordResetForm,
    SetPasswordForm,
)

WHAT_WILL_DO: Final = (
    "At least eight characters; no common word, not digits alone, not like your name."
)


class SignInForm(AuthenticationForm):
    """Name and password."""

    error_messages = {
        **AuthenticationForm.error_messages,
        "invalid_login": "That name and that password do not belong together."
        " Capitals count in both.",
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["username"].label = "Name"


# Generic for the type checker alone: at run time it takes no argument.
class NewPasswordForm(SetPasswordForm):  # type: ignore[type-arg]
    """A new password, twice."""

    error_messages = {"password_mismatch": "The two are not alike."}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["new_password1"].help_text = WHAT_WILL_DO
        self.fields["new_password2"].label = "Once more"
        self.fields["new_password2"].help_text = ""


class ChangePasswordForm(NewPasswordForm, PasswordChangeForm):
    """The password that counts now, then a new one, twice."""

    error_messages = {
        **NewPasswordForm.error_messages,
        "password_incorrect": "That is not the password that counts now.",
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["old_password"].label = "The one you have"


class LetterForm(PasswordResetForm):
    """The address that a letter goes to."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["email"].label = "E-mail address"


class GroundForm(forms.Form):
    """What the pages are drawn on, on this device."""

    ground = forms.ChoiceField(
        label="On this device",
        choices=[
            ("paper", "Paper, by day and by night"),
            ("slate", "Slate, by day and by night"),
            ("device", "As the device is set: slate where it is set dark"),
        ],
        widget=forms.RadioSelect,
        error_messages=dict.fromkeys(
            ("required", "invalid_choice"), "Choose one of the three."
        ),
    )
