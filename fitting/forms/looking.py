"""The form of looking a list through: how it is read, and what it comes to."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from itertools import islice
from typing import Any, Final

from django import forms
from django.http import QueryDict
from django.utils.html import format_html

from fitting.body import MEASURES, measure_by_key
from fitting.bringing_in import (
    DELIMITERS,
    ROLES,
    Entry,
    How,
    Known,
    Outcome,
    Table,
    UnreadableFileError,
    come_to,
    find_delimiter,
    find_order,
    match_headings,
    plain_text,
    read_table,
)
from fitting.forms.base import OnceForm
from fitting.forms.bringing_in import LONGEST_NAME, PASTED
from fitting.models import Yard
from fitting.readings import Units, echo

PARTED_BY: Final = (
    ("comma", "commas"),
    ("semicolon", "semicolons"),
    ("tab", "tabs"),
)
AS_FOUND: Final = {
    "none": "as the file shows",
    "ask": "not said yet",
    "day": "day first, as the file shows",
    "month": "month first, as the file shows",
}
ORDERS: Final = (("day", "day first"), ("month", "month first"))
HOLDS: Final = (
    ("", "nothing of use: leave it"),
    ("What and when", tuple(ROLES.items())),
    ("Sizes", tuple((m.key, m.name) for m in MEASURES)),
)
NO_TABLE: Final = Table(headings=(), lines=())
SHOWN_CELLS: Final = 3


class LookForm(OnceForm):
    """A list looked through: how it is read, and what it comes to.

    Nothing that comes back from the page is believed: the text is read again, each
    choice is one of those offered, and ``seen`` must still be what is found.
    """

    use_required_attribute = False  # an empty choice is one too, and says what it means

    text = forms.CharField(widget=forms.HiddenInput, strip=False)
    letters = forms.CharField(widget=forms.HiddenInput, required=False)
    shown_as = forms.CharField(widget=forms.HiddenInput)
    seen = forms.CharField(widget=forms.HiddenInput)
    name = forms.CharField(label="Call it", max_length=LONGEST_NAME)
    delimiter = forms.ChoiceField(label="Cells are parted by", choices=PARTED_BY)
    order = forms.ChoiceField(label="Days like 3/4/2026 are")
    horse = forms.ChoiceField(label="Lines that name no horse are of")
    height = forms.ChoiceField(label="A bare height is in")
    length = forms.ChoiceField(label="Another bare length is in")
    weight = forms.ChoiceField(label="A bare weight is in")

    def __init__(self, told: QueryDict, known: Known) -> None:
        super().__init__()
        self.told = told
        self.known = known
        self.refused = ""
        self.table = NO_TABLE
        self.outcome = Outcome()
        self._read()
        self._set_out()

    # What was sent, believed only as far as it was offered

    def _one_of(self, name: str, allowed: Sequence[str], usual: str) -> str:
        chosen = self.told.get(name, "")
        return chosen if chosen in allowed else usual

    def _read(self) -> None:
        """Read the text as the keeper says, or as it is found."""
        try:
            self.plain = plain_text(self.told.get("text", ""))
            found = find_delimiter(self.plain)
            delimiter = self._one_of("delimiter", tuple(DELIMITERS), found)
            self.how = self._how(delimiter, NO_TABLE)
            self.table = read_table(self.plain, delimiter)
        except UnreadableFileError as error:
            self.refused = str(error)
            return
        self.how = self._how(delimiter, self.table)
        self.outcome = come_to(self.table, self.how, self.known)

    plain = ""
    how: How

    def _how(self, delimiter: str, table: Table) -> How:
        roles = self._roles(delimiter, table)
        self.found_order = find_order(
            table.column(roles.index("day")) if "day" in roles else ()
        )
        order = self._one_of("order", ("day", "month"), self.found_order)
        keys = [horse.key for horse in self.known.horses]
        return How(
            delimiter=delimiter,
            roles=roles,
            order=order,  # type: ignore[arg-type]
            units=self._units(),
            horse=self._one_of("horse", keys, ""),
            methods=tuple(self._methods()),
        )

    found_order = "none"

    def _roles(self, delimiter: str, table: Table) -> tuple[str, ...]:
        """Return what each column holds; found anew where it is parted anew."""
        found = match_headings(table.headings)
        if self.told.get("shown_as") != delimiter:
            return found
        allowed = ("", *ROLES, *(measure.key for measure in MEASURES))
        return tuple(
            self._one_of(f"column-{at}", allowed, role) for at, role in enumerate(found)
        )

    def _units(self) -> Units:
        usual = self.known.units
        return Units(
            height=self._one_of("height", _keys(Yard.HeightUnit), usual.height),  # type: ignore[arg-type]
            length=self._one_of("length", _keys(Yard.LengthUnit), usual.length),  # type: ignore[arg-type]
            weight=self._one_of("weight", _keys(Yard.WeightUnit), usual.weight),  # type: ignore[arg-type]
        )

    def _methods(self) -> Iterator[tuple[str, str]]:
        for measure in MEASURES:
            keys = [method.key for method in measure.methods]
            chosen = self._one_of(f"method-{measure.key}", keys, "")
            if chosen:
                yield measure.key, chosen

    # What the page shows

    def _set_out(self) -> None:
        """Give each field its choices and what is chosen."""
        if not self.plain:
            return
        how, units = self.how, self.how.units
        order = how.order if self.told.get("order") else ""
        as_found = ("", AS_FOUND[self.found_order])
        horses = [(horse.key, horse.name) for horse in self.known.horses]
        self._give("text", self.plain)
        self._give("letters", self.told.get("letters", "")[:LONGEST_NAME])
        self._give("shown_as", how.delimiter)
        self._give("seen", self.seen_now)
        self._give("name", self.name_given)
        self._give("delimiter", how.delimiter)
        self._give("order", order, [as_found, *ORDERS])
        self._give("horse", how.horse, [("", "nobody: leave them"), *horses])
        self._give("height", units.height, Yard.HeightUnit.choices)
        self._give("length", units.length, Yard.LengthUnit.choices)
        self._give("weight", units.weight, Yard.WeightUnit.choices)
        for name, field, chosen in (*self._columns(), *self._asked_methods()):
            self.fields[name] = field
            self.initial[name] = chosen

    def _give(
        self, name: str, chosen: str, choices: Sequence[tuple[str, str]] = ()
    ) -> None:
        self.initial[name] = chosen
        field = self.fields[name]
        if choices and isinstance(field, forms.ChoiceField):
            field.choices = list(choices)

    def _columns(self) -> Iterator[tuple[str, forms.ChoiceField, str]]:
        for at, heading in enumerate(self.table.headings):
            cells = dict.fromkeys(self.table.column(at))
            shown = ", ".join(map(echo, islice(cells, SHOWN_CELLS)))
            field = forms.ChoiceField(
                label=echo(heading) or f"Column {at + 1}",
                choices=HOLDS,
                help_text=format_html("Such as {}", shown) if shown else "Empty.",
            )
            yield f"column-{at}", field, self.how.roles[at]

    def _asked_methods(self) -> Iterator[tuple[str, forms.ChoiceField, str]]:
        chosen = dict(self.how.methods)
        for key in self.outcome.methods_asked:
            measure = measure_by_key(key)
            methods = [(m.key, m.name.split(",")[0]) for m in measure.methods]
            field = forms.ChoiceField(
                label=measure.name.capitalize(),
                choices=[("", "not said: leave them"), *methods],
            )
            yield f"method-{key}", field, chosen.get(key, "")

    @property
    def column_fields(self) -> list[forms.BoundField]:
        """The choice for each column."""
        return [self[name] for name in self.fields if name.startswith("column-")]

    @property
    def method_fields(self) -> list[forms.BoundField]:
        """The choice of method for each measure that a line names none of."""
        return [self[name] for name in self.fields if name.startswith("method-")]

    # What is written in

    @property
    def name_given(self) -> str:
        """What the list is to be called."""
        return self.told.get("name", "").strip()[:LONGEST_NAME] or PASTED

    @property
    def seen_now(self) -> str:
        """A mark of what is found now: another if anything came out otherwise."""
        found = repr((self.plain, self.how, self.outcome))
        return hashlib.sha256(found.encode("utf-8", "replace")).hexdigest()

    @property
    def is_as_seen(self) -> bool:
        """Whether what is found now is what the keeper was shown."""
        return not self.refused and self.told.get("seen") == self.seen_now

    @property
    def keeps_all(self) -> bool:
        """Whether everything that is to be looked at was said to be right."""
        return "keep_all" in self.told

    @property
    def ticked(self) -> set[str]:
        """The measurements that were looked at and are right."""
        return set(self.told.getlist("keep"))

    @property
    def to_write(self) -> tuple[Entry, ...]:
        """What is written in: the good, and what was ticked."""
        return tuple(e for e in self.outcome.entries if self._goes_in(e))

    @property
    def not_ticked(self) -> tuple[Entry, ...]:
        """What was to be looked at and is left."""
        return tuple(e for e in self.outcome.doubted if not self._goes_in(e))

    def _goes_in(self, entry: Entry) -> bool:
        return not entry.doubts or self.keeps_all or entry.key in self.ticked


def _keys(choices: Any) -> tuple[str, ...]:
    return tuple(choices.values)
