"""The form of a try-on: part by part, what was seen and on which hole."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from django import forms

from fitting.forms.base import KeptForm
from fitting.forms.days import day_with
from fitting.forms.holes import GapField, HoleField
from fitting.forms.photos import PhotoField
from fitting.models import Horse, TryOn, TryOnPart
from fitting.nose_gap import FINGER_MM, NoseGap
from fitting.photos import MOST_MEGABYTES
from fitting.pieces import MOST_HOLES, part_word
from fitting.reads.to_try import PartToTry

FEW_HOLES: Final = 12  # up to here the holes are shown to be tapped
NOT_LOOKED_AT: Final = ("", "not looked at")
COUNTED: Final = "Counted from the tip: hole 1 is the longest. Empty: not noted."


def is_tapped(part: PartToTry) -> bool:
    """Whether the holes of a part are known, and few enough to be tapped."""
    return part.holes is not None and part.holes <= FEW_HOLES


def _too_many(holes: int | None) -> str:
    return f"It has {holes} holes." if holes else f"At most hole {MOST_HOLES}."


@dataclass(frozen=True, slots=True, kw_only=True)
class PartBoxes:
    """The boxes of one part, for the page."""

    name: str
    seen: forms.BoundField
    hole: forms.BoundField | None
    gap: forms.BoundField | None
    tapped: bool
    reckoned: int | None


class TryOnForm(KeptForm):
    """What was seen when an item, or a set, was tried on."""

    instance: TryOn

    photo = PhotoField(
        label="A photo",
        help_text=f"JPEG, PNG or WebP, at most {MOST_MEGABYTES} MB. It stands among the"
        " photos of the day.",
        required=False,
    )

    class Meta:
        model = TryOn
        fields = ("how", "on", "who", "answer", "stop", "stop_sign", "note")
        labels = {
            "how": "How",
            "on": "Day",
            "who": "Who was there",
            "answer": "And on the whole",
            "stop": "What it means",
        }
        widgets = {
            "how": forms.RadioSelect,
            "answer": forms.RadioSelect,
            "stop": forms.RadioSelect,
        }
        help_texts = {
            "how": "Only what is put on counts as worn.",
            "answer": "Of something that has no parts here, or as a last word.",
        }

    def __init__(
        self,
        *args: Any,
        horse: Horse,
        today: date,
        parts: Iterable[PartToTry],
        first: str = "",
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.horse, self.today = horse, today
        self.instance.horse = horse
        self.first = first
        self._dress(today)
        self.looked_at = tuple(parts)
        rows = self.instance.parts.all() if self.instance.pk else ()
        kept = {row.part: row for row in rows}
        for part in self.looked_at:
            self._ask(part, kept.get(part.part))
        if first:
            self.fields["how_it_went"] = forms.CharField(
                label=f"How the first {first} went",
                help_text=f"{horse.name} wears a {first} for the first time, if it is"
                " put on.",
                max_length=300,
                required=False,
            )

    def _dress(self, today: date) -> None:
        """Offer choices without an empty line, and today."""
        self.fields["how"].choices = TryOn.How.choices  # type: ignore[attr-defined]
        for name, none, choices in (
            ("answer", "nothing to add", TryOn.Answer.choices),
            ("stop", "none", TryOn.Stop.choices),
        ):
            self.fields[name].choices = [("", none), *choices]  # type: ignore[attr-defined]
        if not self.instance.pk:
            self.initial["on"] = today

    def _ask(self, part: PartToTry, kept: TryOnPart | None) -> None:
        """Add what is asked of one part."""
        self.fields[f"seen-{part.part}"] = forms.ChoiceField(
            label="Seen",
            choices=[NOT_LOOKED_AT, *TryOnPart.Seen.choices],
            widget=forms.RadioSelect,
            required=False,
            initial=kept.seen if kept else "",
        )
        if part.has_hole or (kept and kept.hole):
            self.fields[f"hole-{part.part}"] = self._hole(part, kept)
        if part.has_gap or (kept and kept.gap_mm is not None):
            self.fields[f"gap-{part.part}"] = GapField(
                label="Gap at the front, as it is done up",
                help_text="On the bone, nothing forced: 18 mm, or 2 fingers. Two count"
                f" as {2 * FINGER_MM:g} mm, the mark for two on the gauge of the"
                " International Society for Equitation Science; other counts are ours."
                " Fingers differ: a gauge says more.",
                max_length=40,
                required=False,
                initial=kept.gap_written if kept else "",
            )

    def _hole(self, part: PartToTry, kept: TryOnPart | None) -> forms.Field:
        """Return the row of holes, on the reckoned one before anybody has looked.

        Where it is not known how many there are, or there are many: a number.
        """
        most = max(part.holes or MOST_HOLES, kept.hole or 0 if kept else 0)
        before = kept.hole if self.instance.pk and kept else self._reckoned(part)
        if not is_tapped(part):
            return HoleField(
                most=most,
                too_many=_too_many(part.holes),
                label="On hole",
                help_text=COUNTED,
                initial=before,
            )
        return forms.TypedChoiceField(
            label="On hole",
            choices=[("", "not noted"), *((n, str(n)) for n in range(1, most + 1))],
            coerce=int,
            empty_value=None,
            widget=forms.RadioSelect,
            required=False,
            initial=before or "",
        )

    def _reckoned(self, part: PartToTry) -> int | None:
        return None if self.instance.pk else part.reckoned

    @property
    def boxes(self) -> list[PartBoxes]:
        """The boxes, part by part."""
        return [
            PartBoxes(
                name=part.name.capitalize(),
                seen=self[f"seen-{part.part}"],
                hole=self._box(f"hole-{part.part}"),
                gap=self._box(f"gap-{part.part}"),
                tapped=is_tapped(part),
                reckoned=self._reckoned(part),
            )
            for part in self.looked_at
        ]

    def _box(self, name: str) -> forms.BoundField | None:
        return self[name] if name in self.fields else None

    @property
    def wrong(self) -> list[tuple[str, str]]:
        """What is refused and why, to stand at the head of a long page."""
        boxes = (self[name] for name in self.fields if name in self.errors)
        return [(str(box.label), str(why)) for box in boxes for why in box.errors]

    @property
    def choose_again(self) -> bool:
        """Whether a sound photo was sent with something else that was refused."""
        return bool(self.errors) and bool(self.cleaned_data.get("photo"))

    @property
    def rows(self) -> list[TryOnPart]:
        """What was seen, a row a part; not saved."""
        seen = (part.part for part in self.looked_at if self._said("seen", part))
        return [self._row(part) for part in seen]

    def _row(self, part: str) -> TryOnPart:
        said = self.cleaned_data
        gap: NoseGap | None = said.get(f"gap-{part}")
        return TryOnPart(
            part=part,
            seen=said[f"seen-{part}"],
            hole=said.get(f"hole-{part}"),
            gap_mm=gap.mm if gap else None,
            gap_written=gap.written if gap else "",
        )

    def _said(self, what: str, part: PartToTry) -> Any:
        return self.cleaned_data.get(f"{what}-{part.part}")

    def clean_on(self) -> date:
        """Refuse a day before the horse was foaled, or still to come."""
        return day_with(self.horse, self.cleaned_data["on"], self.today)

    def clean(self) -> dict[str, Any] | None:
        """Refuse a try-on that says nothing, and a hole or a gap without a word."""
        said = super().clean() or {}
        for part in self.looked_at:
            self._want_a_word(part)
        if said.get("stop_sign") and not said.get("stop") and "stop" not in self.errors:
            self.add_error("stop", "Say what the stop sign means.")
        self._weigh(said.get("answer", ""))
        told = self.rows or said.get("answer") or said.get("stop")
        if not self.errors and not told:
            self.add_error(
                None, "Nothing is said yet: of one part at least, or on the whole."
            )
        return said

    def _weigh(self, answer: str) -> None:
        """Refuse to call good on the whole what was not right in a part."""
        if answer != TryOn.Answer.GOOD:
            return
        wrong = [row for row in self.rows if row.seen != TryOnPart.Seen.SITS_RIGHT]
        for row in wrong[:1]:
            seen = row.get_seen_display()
            self.add_error(
                "answer",
                f"{part_word(row.part).capitalize()}: {seen}, so not good on the"
                " whole. Say only just or no, or nothing to add.",
            )

    def _want_a_word(self, part: PartToTry) -> None:
        """Ask what was seen where only a hole or a gap is said.

        The reckoned hole stands there before anybody has looked: it asks for nothing.
        """
        seen = f"seen-{part.part}"
        if seen in self.errors or self._said("seen", part):
            return
        hole, gap = self._said("hole", part), self._said("gap", part)
        if hole and hole != self._reckoned(part):
            self.add_error(seen, f"What was seen on hole {hole}?")
        elif gap:
            self.add_error(seen, f"What was seen with {gap.written} clear?")


class StrikeTryOnForm(KeptForm):
    """Strike a try-on out, or let it count again."""

    instance: TryOn

    class Meta:
        model = TryOn
        fields = ("struck",)
        labels = {"struck": "Strike it out because"}
        help_texts = {"struck": "On another hole than was written, another horse, ..."}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.counts_now = not self.instance.struck
        if self.counts_now:
            field = self.fields["struck"]
            field.required = True
            field.error_messages["required"] = "Say in a few words why it was wrong."
        else:
            self.fields["struck"].help_text = "Empty: it counts again."
