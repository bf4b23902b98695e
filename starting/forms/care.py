"""The forms of care: visits, rests, off work, incidents."""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from django import forms

from fitting.forms import KeptForm
from starting.care import ASKED_WHETHER_CLEAR, say_date
from starting.gates.gelding import GELDING_DAYS
from starting.gates.mouth import HEALING_DAYS
from starting.models import CareVisit, Incident, OffWork, Rest
from starting.models.care import CareRow

MARES: Final = frozenset({"filly", "mare"})
OF_TEETH: Final = {
    "wolf_teeth": "What was done about wolf teeth is written at a teeth visit:"
    " choose teeth above, or leave this empty.",
    "healing_until": "This is the healing of the mouth or after gelding, written at"
    " that visit. Does the horse need time for something else, write it off work.",
}
HEALS: Final = frozenset({"teeth", "gelding"})


class CareRowForm(KeptForm):
    """What the forms of care share: the horse, and what day it is."""

    instance: CareRow

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today

    def refuse_days(self, *names: str, to_come: str = "") -> None:
        """Refuse days before the foaling, and, with a sentence, days to come."""
        horse = self.instance.horse
        for name in names:
            on = self.cleaned_data.get(name)
            if on is None:
                continue
            if on < horse.foaled_days.first:
                she = horse.she
                self.add_error(name, f"On that day {she} was not foaled yet.")
            elif to_come and on > self.today:
                self.add_error(name, f"That day is still to come. {to_come}")


class VisitForm(CareRowForm):
    """One visit: who came, what was found, when the next is."""

    instance: CareVisit

    clear = forms.TypedChoiceField(
        label="Nothing left open",
        choices=(("True", "Yes, all clear"), ("False", "No, something is")),
        coerce=lambda text: text == "True",
        empty_value=None,
        required=False,
        widget=forms.RadioSelect,
        help_text="Teeth, vet and back need it: a look counts only if nothing is left"
        " to be seen to. After gelding: whether the vet has cleared.",
    )

    class Meta:
        model = CareVisit
        fields = (
            "kind", "on", "who", "clear", "wolf_teeth", "healing_until", "next_due",
            "note",
        )  # fmt: skip
        labels = {
            "kind": "What for",
            "who": "Who came",
            "wolf_teeth": "Wolf teeth",
            "healing_until": "Healing until",
            "next_due": "Next",
        }
        help_texts = {
            "who": "For teeth: your vet, or a qualified dental technician.",
            "wolf_teeth": "Teeth only: what they found or did. Never pull a tooth"
            " yourself.",
            "healing_until": "Teeth: the last day without a bit. Gelding: the last day"
            " without anything new. As they said it; empty after wolf teeth are out:"
            f" {HEALING_DAYS} days, after gelding {GELDING_DAYS} (ours).",
            "next_due": "The day they named. It goes into the diary, and the plan"
            " moves round it.",
        }
        widgets = {
            "note": forms.Textarea(attrs={"rows": 3}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        nothing = [("", "nothing said"), *CareVisit.WolfTeeth.choices]
        self.fields["wolf_teeth"].choices = nothing  # type: ignore[attr-defined]
        if not self.instance.pk:
            self.fields["clear"].initial = ""
            self.initial["clear"] = ""

    def clean(self) -> dict[str, Any] | None:
        """See that the day was, and that what is said belongs to the kind of visit."""
        cleaned = super().clean() or {}
        self.refuse_days(
            "on", to_come="A visit still to come goes under Next, at the one before it."
        )
        kind = cleaned.get("kind")
        if kind and kind != CareVisit.Kind.TEETH:
            for name in OF_TEETH:
                fits = name == "healing_until" and kind in HEALS
                if cleaned.get(name) and not fits:
                    self.add_error(name, OF_TEETH[name])
        if kind == CareVisit.Kind.GELDING and self.instance.horse.sex in MARES:
            horse = self.instance.horse
            self.add_error("kind", f"{horse} is written down as a {horse.sex}.")
        self._see_to_clear(kind)
        return cleaned

    def _see_to_clear(self, kind: str | None) -> None:
        """Ask whether anything is left open where that counts."""
        if self.cleaned_data.get("clear") is not None:
            return
        if kind in ASKED_WHETHER_CLEAR:
            self.add_error("clear", "Say which: unsaid, it would not count.")
        else:
            self.cleaned_data["clear"] = True


class RestForm(CareRowForm):
    """Turned away from a day to a day, both inside."""

    instance: Rest

    class Meta:
        model = Rest
        fields = ("start", "end", "why")
        help_texts = {"end": "Empty if you do not know yet."}

    def clean(self) -> dict[str, Any] | None:
        """See that the horse was there to rest."""
        cleaned = super().clean()
        self.refuse_days("start")
        return cleaned


class OffWorkForm(CareRowForm):
    """Lame or ill: until a day, or until somebody clears."""

    instance: OffWork

    class Meta:
        model = OffWork
        fields = ("start", "why", "cleared_by", "until", "cleared_on")
        labels = {"until": "First day back", "cleared_on": "Cleared on"}
        help_texts = {
            "cleared_by": "Your vet, say. Then only their word ends it, and no day does"
            " by itself.",
            "until": "If it is known, and nobody has to clear.",
            "cleared_on": "The day on which it was over, once it is.",
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not self.instance.pk:
            del self.fields["cleared_on"]
        elif self.instance.cleared_by:
            who = self.instance.cleared_by
            told = f"The day on which {who} said so: not before they have."
            self.fields["cleared_on"].help_text = told

    def clean(self) -> dict[str, Any] | None:
        """See that nobody is cleared ahead, and that only one thing ends it."""
        cleaned = super().clean() or {}
        self.refuse_days("start")
        self.refuse_days("cleared_on", to_come="Write it in once it is so.")
        by, until = cleaned.get("cleared_by"), cleaned.get("until")
        if by and until and not cleaned.get("cleared_on"):
            self.add_error(
                "until",
                f"{by} is to clear, so {say_date(until)} would not end it. Leave out"
                " one of the two.",
            )
        return cleaned


class IncidentForm(CareRowForm):
    """A fall, a bolt, and the like."""

    instance: Incident

    class Meta:
        model = Incident
        fields = ("what", "on", "note")
        labels = {"what": "What", "note": "How it came about"}
        widgets = {
            "note": forms.Textarea(attrs={"rows": 3}),
        }

    def clean(self) -> dict[str, Any] | None:
        """See that the day was."""
        cleaned = super().clean()
        self.refuse_days("on", to_come="Only what has happened is written in.")
        return cleaned
