"""The form of a session: ticks, a stop sign, what was worn, what was asked."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from datetime import date
from typing import Any, Final, cast

from django import forms
from django.http import QueryDict

from fitting.forms.base import KeptForm
from fitting.forms.days import day_with
from fitting.models import Part, TryOnPart
from starting.forms.stops import StopSelect, with_level
from starting.models import Session
from starting.models.log import STOP_LEVELS
from starting.reads.session import Offered
from starting.stop_words import WORDS, level_of
from starting.writes.log import Worn

ANSWERS: Final = (
    ("yes", "yes"),
    ("nearly", "nearly"),
    ("no", "no"),
    ("not_tried", "not tried"),
)
OWN: Final = "own_words"
MOODS: Final = ("calm", "keen", "tense", "sharp", "dull", "tired", "worried")
WORN_ROWS: Final = 3
MOST_HOLES: Final = 30
_BETWEEN: Final = re.compile(r",| and ")
LONGEST_WHO: Final = 60  # letters, as the record keeps them


class SessionForm(KeptForm):
    """One session."""

    instance: Session
    moods = MOODS

    class Meta:
        model = Session
        fields = ("on", "minutes", "mood", "note")
        labels = {"on": "Day", "minutes": "Minutes", "mood": "Mood, a word"}
        widgets = {
            "note": forms.Textarea(attrs={"rows": 2}),
            "mood": forms.TextInput(attrs={"list": "moods", "autocomplete": "off"}),
        }

    def __init__(
        self, *args: Any, offered: Offered, today: date, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.offered = offered
        self.today = today
        self.fields["minutes"].widget.attrs["inputmode"] = "numeric"
        if offered.minutes.why and not self.instance.pk:
            self.fields["minutes"].help_text = f"Suggested; {offered.minutes.why}."
        self.initial.setdefault("on", today)
        if not self.instance.pk:
            self.initial["on"] = today
            self.initial["minutes"] = offered.minutes.minutes or None
        self._add_ticks()
        self._add_stop()
        self._add_asked()
        self._add_people()
        self._add_worn()

    def _add_ticks(self) -> None:
        for check in self.offered.stage.checks:
            last = self.offered.last.get(check.key, "")
            self.fields[f"check_{check.key}"] = forms.ChoiceField(
                label=check.text,
                choices=ANSWERS,
                widget=forms.RadioSelect,
                required=False,
                initial=self.instance.checks.get(check.key, ""),
                help_text=f"Last time: {last}." if last else "",
            )

    def _add_stop(self) -> None:
        signs = self.offered.stage.stop_signs
        words = dict(STOP_LEVELS)
        kept = self.instance.stop_sign
        by_text = {sign.text: sign.key for sign in signs}
        own = bool(kept) and kept not in by_text
        self.fields["stop"] = forms.ChoiceField(
            label="Stop sign",
            choices=[
                ("", "none"),
                *((sign.key, with_level(sign, words)) for sign in signs),
                (OWN, "something else, in my words"),
            ],
            widget=StopSelect({sign.key: sign.level for sign in signs}),
            required=False,
            initial=OWN if own else by_text.get(kept, ""),
        )
        self.fields["stop_own"] = forms.CharField(
            label="In my words",
            max_length=200,
            required=False,
            initial=kept if own else "",
            widget=forms.TextInput(
                attrs={"data-level-words": json.dumps(WORDS), "data-when": OWN}
            ),
        )
        self.fields["level"] = forms.ChoiceField(
            label="What it asks for",
            choices=[("", "as it says beside the sign"), *STOP_LEVELS],
            widget=forms.Select(attrs={"data-level": ""}),
            required=False,
            initial=self.instance.stop_level,
            help_text="“Ring the vet” puts the horse off work until the vet clears it.",
        )

    def _add_asked(self) -> None:
        for key, question in self.offered.asked:
            self.fields[f"asked_{key}"] = forms.BooleanField(
                label=question,
                required=False,
                initial=self.instance.on_the_day.get(key, False),
            )

    def _add_people(self) -> None:
        names = [name for name in self.offered.people if "," not in name]
        kept = [n for n in map(str.strip, _BETWEEN.split(self.instance.who)) if n]
        self.fields["people"] = forms.MultipleChoiceField(
            label="Who was there",
            choices=[(name, name) for name in names],
            widget=forms.CheckboxSelectMultiple,
            required=False,
            initial=[name for name in kept if name in names],
        )
        self.fields["others"] = forms.CharField(
            label="Somebody else" if names else "Who was there",
            max_length=60,
            required=False,
            initial=", ".join(name for name in kept if name not in names),
        )

    def _add_worn(self) -> None:
        for at in range(max(WORN_ROWS, len(self.offered.worn))):
            kept = dict(enumerate(self.offered.worn)).get(at, {})
            for name, field in self._worn_fields(at).items():
                field.initial = kept.get(name)
                self.fields[f"worn_{at}_{name}"] = field

    def _worn_fields(self, at: int) -> dict[str, forms.Field]:
        nothing = [("", "nothing" if at == 0 else "nothing more")]
        parts = [("", "all"), *Part.Name.choices]
        seen = [("", "not said"), *TryOnPart.Seen.choices]
        return {
            "thing": forms.ChoiceField(
                label="Worn", choices=[*nothing, *self.offered.things], required=False
            ),
            "part": forms.ChoiceField(label="Part", choices=parts, required=False),
            "seen": forms.ChoiceField(label="How it sat", choices=seen, required=False),
            "hole": forms.IntegerField(
                label="Hole", min_value=1, max_value=MOST_HOLES, required=False
            ),
        }

    @property
    def when(self) -> list[forms.BoundField]:
        """The day, and how long."""
        return [self[name] for name in ("on", "minutes")]

    @property
    def how(self) -> list[forms.BoundField]:
        """Who was there, and how it went."""
        return [self[name] for name in ("people", "others", "mood", "note")]

    @property
    def ticks(self) -> list[forms.BoundField]:
        """The ticks of the step."""
        return [self[name] for name in self.fields if name.startswith("check_")]

    @property
    def asked(self) -> list[forms.BoundField]:
        """What is asked on the day."""
        return [self[name] for name in self.fields if name.startswith("asked_")]

    @property
    def worn_rows(self) -> list[list[forms.BoundField]]:
        """The rows of what was worn."""
        names = [name for name in self.fields if name.startswith("worn_")]
        found: dict[str, list[forms.BoundField]] = {}
        for name in names:
            found.setdefault(name.split("_")[1], []).append(self[name])
        return list(found.values())

    @property
    def more_worn(self) -> bool:
        """Whether more than one thing was worn, or is spoken of."""
        more = (field for row in self.worn_rows[1:] for field in row)
        return any(field.value() or field.errors for field in more)

    def clean_on(self) -> date:
        """Refuse a day still to come, or before the horse was foaled."""
        return day_with(self.instance.horse, self.cleaned_data["on"], self.today)

    def clean(self) -> dict[str, Any] | None:
        """Hand ticks, stop sign, answers and people to the record."""
        cleaned = super().clean()
        session, said = self.instance, self.cleaned_data
        session.checks = {
            check.key: said.get(f"check_{check.key}") or "not_tried"
            for check in self.offered.stage.checks
        }
        session.on_the_day = {
            key: bool(said.get(f"asked_{key}")) for key, _ in self.offered.asked
        }
        session.stop_sign, session.stop_level = self._stop()
        session.who = self._who()
        for at in range(len(self.worn_rows)):
            self._check_worn(at)
        return cleaned

    def _stop(self) -> tuple[str, str]:
        """Return the stop sign in words and what it asks for."""
        said = self.cleaned_data
        level = said.get("level") or ""
        signs = {sign.key: sign for sign in self.offered.stage.stop_signs}
        sign = signs.get(said.get("stop") or "")
        if sign is not None:
            return sign.text, level or sign.level
        own = self._own_words()
        if own and not level:
            self._ask_level(own)
        elif not own and level and level != self.instance.stop_level:
            self.add_error("stop", "Say which sign was seen.")
        return (own, level or "end_today") if own else ("", "")

    def _ask_level(self, own: str) -> None:
        """Ask what a sign in own words asks for, filled in as its words say."""
        level = level_of(own)
        if level is None:
            self.add_error("level", "Say what it asks for.")
            return
        data = cast("QueryDict", self.data).copy()
        data["level"] = level
        self.data = data
        read = dict(STOP_LEVELS)[level]
        self.add_error("level", f"Read as: {read}. Choose another if it is not so.")

    def _own_words(self) -> str:
        """Return a sign in own words; those of before count only if still chosen."""
        own = (self.cleaned_data.get("stop_own") or "").strip()
        chosen = self.cleaned_data.get("stop") == OWN
        if chosen and not own:
            self.add_error("stop_own", "Write the sign down.")
        return own if chosen or "stop_own" in self.changed_data else ""

    def _who(self) -> str:
        said = self.cleaned_data
        names = [*said.get("people", []), (said.get("others") or "").strip()]
        who = ", ".join(name for name in names if name)
        if len(who) > LONGEST_WHO:
            most = f"All names together: {LONGEST_WHO} letters at most."
            self.add_error("others", most)
        return who[:LONGEST_WHO]

    def _check_worn(self, at: int) -> None:
        """Refuse a hole of no strap, and words about nothing."""
        said = {n: self.cleaned_data.get(f"worn_{at}_{n}") for n in _WORN_NAMES}
        if not said["thing"]:
            if any(said.values()):
                self.add_error(f"worn_{at}_thing", "Say what was worn.")
            return
        part = said["part"] or self.offered.hole_parts.get(said["thing"], "")
        if said["hole"] and not part:
            self.add_error(f"worn_{at}_part", "Say which strap the hole is on.")

    @property
    def worn(self) -> list[Worn]:
        """What was worn; a hole without its strap is on what stands for the whole."""
        rows = range(len(self.worn_rows))
        return [worn for at in rows for worn in self._worn_of(at)]

    def _worn_of(self, at: int) -> Iterator[Worn]:
        said = {n: self.cleaned_data.get(f"worn_{at}_{n}") for n in _WORN_NAMES}
        if not said["thing"]:
            return
        kind, _, pk = said["thing"].partition(":")
        single = self.offered.single_parts.get(said["thing"], "")
        part, seen, hole = said["part"] or single, said["seen"] or "", said["hole"]
        on = part or self.offered.hole_parts.get(said["thing"], "")
        if hole and not part:
            if seen:
                yield Worn(kind=kind, pk=int(pk), seen=seen)
            yield Worn(kind=kind, pk=int(pk), part=on, hole=hole)
            return
        part = part if seen or hole else ""
        yield Worn(kind=kind, pk=int(pk), part=part, seen=seen, hole=hole)


_WORN_NAMES: Final = ("thing", "part", "seen", "hole")
