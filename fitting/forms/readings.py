"""The readings of one measure: read, refused with what may be meant, doubted once."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import zip_longest
from typing import Any, Final, cast

from django import forms
from django.core.exceptions import ValidationError

from fitting.body import HorseType, Measure, Method, middle
from fitting.doubts import Apart, apart, believed
from fitting.forms.boxes import Box, Refused, box_widget, method_field
from fitting.models import Horse
from fitting.readings import (
    Meant,
    Reading,
    Units,
    UnreadableReadingError,
    read_reading,
    show,
    show_between,
    show_difference,
    understood,
)
from fitting.reads.units import units_of
from fitting.taking import a_method
from fitting.writes.measure import Readings

LABELS: Final = ("first", "second", "third", "once more")
ASKED_READINGS: Final = 3
NUMBERS: Final = ("nought", "one", "two", "three", "four", "five", "six", "seven")


class ReadingsForm(forms.Form):
    """Up to four readings of one measure, by one method.

    What cannot be read is refused with what may be meant; what is hard to believe is
    asked about once, and kept if it is said to be so.
    """

    def __init__(
        self,
        *args: Any,
        horse: Horse,
        measure: Measure,
        method: str,
        before: Sequence[str] = (),
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.names = [str(n + 1) for n in range(max(len(LABELS), len(before) + 1))]
        self.horse = horse
        self.measure = measure
        self.units: Units = units_of(horse.yard)
        self.readings: list[Reading] = []
        self.refusals: dict[str, Refused] = {}
        self.doubts: list[str] = []
        self.apart: Apart | None = None
        self.day: date | None = None
        self.same_person = False
        self.doubted = True
        self.believed_already = ""
        for name, text in zip_longest(self.names, before, fillvalue=""):
            self.fields[name] = forms.CharField(
                required=False, initial=text, widget=box_widget(measure, self.units)
            )
        self.fields["method"] = method_field(measure, method)

    @property
    def horse_type(self) -> HorseType:
        """The type of the horse."""
        return cast("HorseType", self.horse.horse_type)

    # What was written

    @property
    def is_filled(self) -> bool:
        """Whether anything was typed."""
        return any(
            self.data.get(self.add_prefix(name), "").strip() for name in self.names
        )

    def clean_method(self) -> str:
        """Take the usual method where none was chosen."""
        return self.cleaned_data["method"] or str(self.fields["method"].initial)

    def clean(self) -> dict[str, Any] | None:
        """Read every box; doubt what is hard to believe."""
        cleaned = super().clean() or {}
        self.readings = [
            reading
            for name in self.names
            if (reading := self._read(name, cleaned.get(name, ""))) is not None
        ]
        if self.readings and self.doubted and not self.errors:
            self._doubt()
        return cleaned

    def _read(self, name: str, text: str) -> Reading | None:
        """Return one reading, or refuse it; a chosen meaning stands for the text."""
        if not text:
            return None
        try:
            return read_reading(text, self.measure.dimension, self.units)
        except UnreadableReadingError as error:
            return self._refuse(name, text, error)

    def _refuse(
        self, name: str, text: str, error: UnreadableReadingError
    ) -> Reading | None:
        field = self.add_prefix(f"{name}-meant")
        answer = self.data.get(field, "")
        offered = [(f"{text}|{m.reading.written}", m) for m in error.meant]
        chosen: Meant | None = next((m for key, m in offered if key == answer), None)
        self.refusals[name] = Refused(
            typed=error.typed,
            why=error.why,
            name=field,
            meant=tuple((key, m.label, key == answer) for key, m in offered),
            read_as=chosen.label if chosen else "",
        )
        if chosen is not None:
            return chosen.reading
        self.add_error(name, ValidationError(str(error), code="unreadable"))
        return None

    @property
    def refused(self) -> bool:
        """Whether a box cannot be read as it is."""
        return any(not one.read_as for one in self.refusals.values())

    @property
    def taken(self) -> Readings:
        """What was measured."""
        return Readings(
            measure=self.measure.key,
            method=self.cleaned_data["method"],
            readings=tuple(self.readings),
        )

    # What is doubted

    @property
    def sizes(self) -> tuple[float, ...]:
        """The readings in mm, kg or score."""
        return tuple(reading.value for reading in self.readings)

    @property
    def by_method(self) -> Method:
        """The method chosen."""
        return self.measure.method(self.cleaned_data["method"])

    @property
    def keep_value(self) -> str:
        """What a tick of "keep it" stands for: these very readings."""
        return ", ".join(reading.written for reading in self.readings)

    def _doubt(self) -> None:
        """Note what is hard to believe; refuse it once, unless it is to be kept."""
        self.apart = apart(self.sizes, self.by_method, same_person=self.same_person)
        self.doubts = [
            said for said in (self._apart_words(), self._age_words()) if said
        ]
        if self.doubts and not self.is_kept:
            self.add_error(None, ValidationError(self.doubts, code="doubted"))

    def _apart_words(self) -> str:
        if self.apart is None:
            return ""
        off = self.difference(abs(self.apart.off))
        repeats = f"{a_method(self.by_method)} repeats to within"
        repeats += f" {self.difference(self.apart.repeats)}."
        if self.apart.odd is None:
            said = f"The two lie {off} apart. {repeats}"
        else:
            odd = show(self.sizes[self.apart.odd], self.measure.dimension, self.units)
            word = "more" if self.apart.off > 0 else "less"
            said = f"{odd} is {off} {word} than the others. {repeats}"
        return f"{said} Measure once more, or keep it."

    def _age_words(self) -> str:
        horse = self.horse
        low, high = believed(
            self.measure.key,
            self.horse_type,
            horse.foaled_days,
            self.day or horse.foaled_days.last,
        )
        if low <= middle(self.sizes) <= high:
            return ""
        between = show_between(low, high, self.measure.dimension, self.units)
        return (
            f"{self.understood} is far from what is usual of this type at that age,"
            f" {between}. Look again, or keep it."
        )

    # What is said

    @property
    def understood(self) -> str:
        """The middle of the readings in both units; nothing where none is read."""
        if not self.readings:
            return ""
        return understood(middle(self.sizes), self.measure.dimension, self.units)

    @property
    def said(self) -> str:
        """What was understood, ``13.0¼ hands (132.7 cm), the three inside ¼ in``."""
        if len(self.readings) == 1:
            return f"{self.understood}, one reading."
        count = NUMBERS[min(len(self.readings), len(NUMBERS) - 1)]
        inside = max(self.sizes) - min(self.sizes)
        if inside == 0:
            return f"{self.understood}, the {count} alike."
        return f"{self.understood}, the {count} inside {self.difference(inside)}."

    def difference(self, size: float) -> str:
        """Return a difference in the yard's unit."""
        return show_difference(size, self.measure.dimension, self.units)

    @property
    def boxes(self) -> list[Box]:
        """The reading boxes, and one more where one more reading is asked for."""
        boxes = [
            Box(self[name], label, self.refusals.get(name))
            for name, label in zip_longest(self.names, LABELS, fillvalue="one more")
            if int(name) <= self._shown
        ]
        self._mark_odd(boxes)
        return boxes

    @property
    def _shown(self) -> int:
        """How many boxes are shown."""
        filled = [int(name) for name in self.names if self[name].value()]
        return max(ASKED_READINGS + bool(self.apart), *filled, 0)

    def _mark_odd(self, boxes: list[Box]) -> None:
        """Frame the reading that stands apart from the others."""
        if self.apart is None or self.apart.odd is None:
            return
        filled = [box for box in boxes if box.field.value()]
        attrs = filled[self.apart.odd].field.field.widget.attrs
        attrs["class"] = "reading odd"
        attrs["aria-describedby"] = self.doubt_id

    @property
    def is_kept(self) -> bool:
        """Whether these very readings are to be kept, doubted or not."""
        data: Any = self.data
        return self.keep_value in (
            *data.getlist(self.add_prefix("keep")),
            self.believed_already,
        )

    @property
    def has_choice(self) -> bool:
        """Whether the measure is taken by more than one method."""
        return len(self.measure.methods) > 1

    @property
    def only_method(self) -> str:
        """The one method of a measure."""
        return self.measure.methods[0].name

    @property
    def asked_with(self) -> str:
        """What the choice of method is called."""
        return f"{self.measure.name.capitalize()} measured with"

    @property
    def doubt_id(self) -> str:
        """The id of the sentences of doubt."""
        return f"{self.prefix}-doubt"
