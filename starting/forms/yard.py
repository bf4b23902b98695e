"""The forms of the yard itself: its name, days and units; its members."""

from __future__ import annotations

from functools import cache
from typing import Any, Final
from zoneinfo import available_timezones

from django import forms
from django.contrib.auth.models import User
from django.contrib.auth.validators import UnicodeUsernameValidator
from django.core.exceptions import ValidationError

from fitting.forms.base import KeptForm, OnceForm
from fitting.models import Membership, Yard
from fitting.models.yard import SETTLED
from starting.reads.members import is_last_keeper

DAYS: Final = (
    ("mon", "Monday"),
    ("tue", "Tuesday"),
    ("wed", "Wednesday"),
    ("thu", "Thursday"),
    ("fri", "Friday"),
    ("sat", "Saturday"),
    ("sun", "Sunday"),
)
ROLES: Final = (
    ("keeper", "Keeper: everything, and who else comes in"),
    ("helper", "Helper: reads all; writes sessions, measurements and try-ons"),
    ("viewer", "Viewer: reads, writes nothing"),
)
# Shown first in the list of time zones; any other may be chosen below them.
NEAR_ZONES: Final = (
    "Europe/London",
    "Europe/Dublin",
    "Europe/Paris",
    "Europe/Berlin",
    "Europe/Amsterdam",
    "Europe/Stockholm",
    "Atlantic/Reykjavik",
    "America/New_York",
    "America/Chicago",
    "America/Denver",
    "America/Los_Angeles",
    "America/Toronto",
    "Australia/Sydney",
    "Australia/Perth",
    "Pacific/Auckland",
    "Africa/Johannesburg",
)
LAST_KEEPER: Final = (
    "A yard needs a keeper, and this is its only one. Make somebody else a keeper"
    " first."
)
# Names of the computer, not of a place.
_NO_PLACE: Final = frozenset({"Factory", "localtime"})


@cache
def zones() -> list[tuple[str, list[tuple[str, str]]]]:
    """Return every time zone by name, the common ones first."""
    others = sorted(available_timezones() - set(NEAR_ZONES) - _NO_PLACE)
    return [
        ("Common", [(name, _place(name)) for name in NEAR_ZONES]),
        ("All others", [(name, _place(name)) for name in others]),
    ]


def _place(name: str) -> str:
    """Return a zone as it is read: ``New York (America)``."""
    area, _, place = name.rpartition("/")
    return (f"{place} ({area})" if area else place).replace("_", " ")


def days_of_week(label: str, **more: Any) -> forms.MultipleChoiceField:
    """Return a field of seven ticks."""
    return forms.MultipleChoiceField(
        label=label, choices=DAYS, widget=forms.CheckboxSelectMultiple, **more
    )


class NewYardForm(KeptForm):
    """A yard: name, time zone, hemisphere, units, free days."""

    # A yard counts its edits in its own way; it is no kept row.
    instance: Yard  # type: ignore[assignment]

    timezone = forms.ChoiceField(label="Time zone", choices=zones)
    free_days = days_of_week(
        "Days with time for the horses",
        error_messages={"required": "Tick at least one day: no day, no plan."},
    )

    class Meta:
        model = Yard
        fields = (
            "name", "timezone", "hemisphere", "height_unit", "length_unit",
            "weight_unit", "free_days",
        )  # fmt: skip
        labels = {
            "name": "Name of the yard",
            "height_unit": "Heights in",
            "length_unit": "Other lengths in",
            "weight_unit": "Weights in",
        }
        help_texts = {
            "hemisphere": "Where the season of foals begins: January in the northern,"
            " August in the southern.",
            "height_unit": "What a bare number means. Another unit may always be"
            " written beside the number.",
        }
        widgets = dict.fromkeys(
            ("hemisphere", "height_unit", "length_unit", "weight_unit"),
            forms.RadioSelect,
        )
        error_messages = {
            "name": {"unique": "A yard of that name is kept here already."}
        }

    def clean_name(self) -> str:
        """Leave out spaces at the ends and between."""
        return " ".join(self.cleaned_data["name"].split())


class YardForm(NewYardForm):
    """All that a keeper settles for the yard."""

    helper_days = days_of_week(
        "Days on which a helper comes",
        required=False,
        help_text="Steps that need a second person are planned for these days.",
    )

    class Meta(NewYardForm.Meta):
        fields = SETTLED  # type: ignore[assignment]
        labels = {
            **NewYardForm.Meta.labels,
            "sessions_a_day": "Sessions a day, all horses together",
            "covered_area": "There is a covered place to work",
        }
        help_texts = {
            **NewYardForm.Meta.help_texts,
            "covered_area": "With one, the winter months hold no step back.",
        }


class MemberForm(OnceForm):
    """Let somebody in: who has an account already, or gets one now."""

    has_account = forms.TypedChoiceField(
        label="Do they sign in here already?",
        choices=(
            ("no", "No: make an account with a first password"),
            ("yes", "Yes: they have a name here"),
        ),
        widget=forms.RadioSelect,
        initial="no",
        coerce=lambda text: text == "yes",
    )
    username = forms.CharField(
        label="Name to sign in with",
        max_length=150,
        validators=[UnicodeUsernameValidator()],
        widget=forms.TextInput(attrs={"autocapitalize": "none", "autocomplete": "off"}),
        help_text="Letters, digits and @ . + - _ without spaces; capitals count.",
    )
    email = forms.EmailField(
        label="E-mail address",
        required=False,
        help_text="For a new account: a forgotten password is set anew by letter.",
    )
    role = forms.ChoiceField(
        label="May", choices=ROLES, widget=forms.RadioSelect, initial="helper"
    )

    def __init__(self, *args: Any, yard: Yard, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.yard = yard

    def clean(self) -> dict[str, Any] | None:
        """See that the name stands for one account, and that it is not in yet."""
        cleaned = super().clean() or {}
        name = cleaned.get("username")
        if name and "has_account" in cleaned:
            self._check_name(name, has_account=cleaned["has_account"])
        return cleaned

    def _check_name(self, name: str, *, has_account: bool) -> None:
        there = User.objects.filter(username__iexact=name)
        if not has_account and there.exists():
            self.add_error(
                "username",
                "Somebody signs in by that name already. Choose another, or say that"
                " they have an account.",
            )
        elif has_account and not there.filter(username=name).exists():
            self.add_error(
                "username",
                "Nobody signs in by that name; capitals count. Make them an account,"
                " or ask how their name is spelt.",
            )
        elif self.yard.memberships.filter(user__username=name).exists():
            self.add_error("username", "They belong to the yard already.")


class RoleForm(OnceForm):
    """Change what a member may do."""

    role = forms.ChoiceField(label="May", choices=ROLES, widget=forms.RadioSelect)

    def __init__(self, *args: Any, member: Membership, **kwargs: Any) -> None:
        super().__init__(*args, initial={"role": member.role}, **kwargs)
        self.member = member

    def clean_role(self) -> str:
        """See that a keeper is left."""
        role: str = self.cleaned_data["role"]
        if role != Membership.Role.KEEPER and is_last_keeper(self.member):
            raise ValidationError(LAST_KEEPER)
        return role


class LetGoForm(OnceForm):
    """Let a member go."""

    def __init__(self, *args: Any, member: Membership, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.member = member

    def clean(self) -> dict[str, Any] | None:
        """See that a keeper is left."""
        if is_last_keeper(self.member):
            self.add_error(None, LAST_KEEPER)
        return super().clean()


class DeleteYardForm(forms.Form):
    """Deleting a yard: its name is written out first."""

    name = forms.CharField(
        label="The yard's name",
        max_length=80,
        help_text="Written out, so that nobody deletes a yard by a slip of the thumb.",
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )

    def __init__(self, *args: Any, yard: Yard, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.yard = yard

    def clean_name(self) -> str:
        """Refuse any other name."""
        name: str = self.cleaned_data["name"]
        if name != self.yard.name:
            raise forms.ValidationError(f"This yard is called {self.yard.name}.")
        return name
