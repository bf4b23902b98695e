"""The form of an item of tack, with all its parts on one page."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError

from fitting.forms.base import DayField, KeptForm, OnceForm
from fitting.forms.days import gone_on, not_to_come
from fitting.forms.parts import PartForm
from fitting.models import Part, Tack, Yard
from fitting.pieces import PARTS_OF_KIND

LONGEST_TYPED: Final = 40


def free_name(name: str, yard: Yard, kept: Tack | None = None) -> str:
    """Return a tidy name that no other item and no made-up set bears."""
    tidy = " ".join(name.split())
    items = yard.tack.filter(name=tidy)
    if (items.exclude(pk=kept.pk) if kept else items).exists():
        raise ValidationError("An item of that name hangs here already.")
    if yard.sets.filter(name=tidy).exists():
        raise ValidationError("A made-up set bears that name: call this otherwise.")
    return tidy


class TackForm(KeptForm):
    """What is known of an item beside the sizes of its parts."""

    instance: Tack

    class Meta:
        model = Tack
        fields = ("name", "label_size", "belongs_to", "bought", "note", "gone")
        labels = {
            "name": "What it is called in the yard",
            "label_size": "Size on the label",
            "belongs_to": "Whose it is",
            "bought": "Bought on",
            "gone": "Taken down on",
        }
        help_texts = {
            "label_size": "Kept for the shop. Nothing is reckoned from it: labels are"
            " not trusted.",
            "belongs_to": "Empty: the yard's own. Borrowed: who lends it.",
            "gone": "Empty: it hangs on its peg.",
        }

    def __init__(self, *args: Any, yard: Yard, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.instance.yard = yard
        self.today = today
        if self.instance.gone is None:
            del self.fields["gone"]

    def clean_name(self) -> str:
        kept = self.instance if self.instance.pk else None
        return free_name(self.cleaned_data["name"], self.instance.yard, kept)

    def clean_bought(self) -> date | None:
        return not_to_come(self.cleaned_data["bought"], self.today)

    def clean_gone(self) -> date | None:
        said = self.cleaned_data
        return gone_on(said["gone"], said.get("bought"), self.today)


def _copied(part: Part) -> Part:
    """Return a part with the sizes of another; not saved."""
    kept = forms.model_to_dict(part, exclude=["id", "tack"])
    return Part(**kept | {"written": dict(part.written)})


class ItemForm:
    """An item and its parts: several forms that are checked and saved as one.

    ``like``: another item whose sizes a new one starts with.
    """

    def __init__(
        self, data: Any, *, instance: Tack, today: date, like: Tack | None = None
    ) -> None:
        yard = instance.yard
        self.item = TackForm(data, instance=instance, yard=yard, today=today)
        kept = {p.part: p for p in instance.parts.all()} if instance.pk else {}
        if like is not None and not instance.pk:
            kept = {part.part: _copied(part) for part in like.parts.all()}
        words = dict.fromkeys((*PARTS_OF_KIND[instance.kind], *kept))
        alone = len(words) == 1
        self.parts = [
            PartForm(
                data,
                instance=kept.get(word) or Part(part=word),
                unit=yard.length_unit,  # type: ignore[arg-type]
                always=alone and instance.kind != Tack.Kind.OTHER,
                there=word in kept,
            )
            for word in words
        ]

    def begin_with(self, sizes: Mapping[str, str]) -> bool:
        """Fill in the lengths that were looked for; return whether there are any."""
        begun = False
        for part in self.parts:
            name = part.add_prefix("length")
            if "length" in part.fields and name in sizes:
                part.initial["length"] = sizes[name][:LONGEST_TYPED]
                begun = True
        return begun

    @property
    def is_bound(self) -> bool:
        """Whether anything was sent."""
        return self.item.is_bound

    def is_valid(self) -> bool:
        """Check every form, so that every refusal shows at once."""
        checked = [form.is_valid() for form in (self.item, *self.parts)]
        if self.item.has_error("__all__", "changed_meanwhile"):
            for part in self.parts:
                part.say_now()
        return all(checked)

    @property
    def token(self) -> str:
        """The token of a form that is saved once."""
        return str(self.item.cleaned_data["token"])

    @property
    def refused(self) -> int:
        """How many boxes are refused."""
        return sum(len(form.errors) for form in (self.item, *self.parts))


class TakeDownForm(OnceForm):
    """The day an item is taken down."""

    gone = DayField(label="Taken down on")

    def __init__(
        self, *args: Any, today: date, bought: date | None = None, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.today, self.bought = today, bought
        self.fields["gone"].initial = today

    def clean_gone(self) -> date | None:
        return gone_on(self.cleaned_data["gone"], self.bought, self.today)
