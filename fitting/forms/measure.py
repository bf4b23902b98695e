"""The form of one walk round the horse, and that of one measurement."""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from django import forms

from fitting.body import Stop, Taken, measure_by_key
from fitting.doubts import is_growth, not_growth_mm
from fitting.forms.base import DayField, KeptForm, OnceForm
from fitting.forms.days import day_with
from fitting.forms.readings import ReadingsForm
from fitting.growth.observed import observations
from fitting.models import Horse, Measurement
from fitting.readings import Reading, as_box
from fitting.reads.to_measure import Asked, AskedStop, ToMeasure
from fitting.reads.units import day_words, units_of
from fitting.writes.measure import Occasion, Readings

STICK: Final = "stick"


class AskForm(ReadingsForm):
    """One measure on the page of measuring."""

    def __init__(self, *args: Any, asked: Asked, **kwargs: Any) -> None:
        super().__init__(
            *args,
            measure=asked.measure,
            method=asked.method,
            prefix=asked.measure.key,
            **kwargs,
        )
        self.asked = asked
        self.shod = False

    @property
    def taken_now(self) -> Taken:
        """What was typed, as a plain fact."""
        return Taken(
            measure=self.measure.key,
            on=self.day or self.horse.foaled_days.last,
            readings=self.sizes,
            method=self.cleaned_data["method"],
            same_person=self.same_person,
            shod=self.shod,
        )

    @property
    def since(self) -> str:
        """How a height stands to the last one; nothing where it is not comparable."""
        before = self.asked.before
        if before is None or self.measure.dimension != "height" or not self.readings:
            return ""
        now = self.taken_now
        if now.on <= before.on or {before.method, now.method} != {STICK}:
            return ""
        was, is_now = self._bare_mm(before), self._bare_mm(now)
        same = before.same_person and now.same_person
        said = self._growth_words(was, is_now, before.on, same_person=same)
        shoes = before.shod is not now.shod
        return f"{said} The shoes are taken off the figure." if shoes else said

    def _bare_mm(self, taken: Taken) -> float:
        """Return a height in mm without shoes."""
        ((_, (seen,)),) = observations((taken,), self.horse_type)
        return seen.value

    def _growth_words(
        self, was: float, is_now: float, since: date, *, same_person: bool
    ) -> str:
        """Return whether a height is called growth, in a sentence."""
        if is_growth(was, is_now, same_person=same_person):
            word = "Up" if is_now > was else "Down"
            off = self.difference(abs(is_now - was))
            return f"{word} {off} since {day_words(since)}."
        least = self.difference(not_growth_mm(same_person=same_person))
        who = "" if same_person else ", and not surely read by the same person"
        return (
            f"Within {least} of {day_words(since)}{who}: a stick cannot tell so little,"
            " so it is not called growth."
        )


class StopForm:
    """One place of the walk, with the measures asked there."""

    def __init__(self, stop: Stop, asks: list[AskForm]) -> None:
        self.stop = stop
        self.asks = asks


class MeasureForm(OnceForm):
    """One walk round the horse: the day, who measured, and every measure."""

    on = DayField(label="Day")
    who = forms.CharField(label="Measured by", required=False, max_length=60)
    same_person = forms.BooleanField(
        label="The same person as usual", required=False, initial=False
    )
    shod = forms.BooleanField(label="Shod in front", required=False, initial=False)

    def __init__(
        self, *args: Any, horse: Horse, today: date, plan: ToMeasure, **kwargs: Any
    ) -> None:
        initial = {"on": today, "who": plan.who, "same_person": plan.same_person}
        super().__init__(*args, initial=initial, **kwargs)
        self.horse = horse
        self.today = today
        self.plan = plan
        self.now = [self._stop(one) for one in plan.now]
        self.later = [self._stop(one) for one in plan.later]

    def _stop(self, one: AskedStop) -> StopForm:
        data = self.data if self.is_bound else None
        asks = [AskForm(data, horse=self.horse, asked=asked) for asked in one.asked]
        return StopForm(one.stop, asks)

    @property
    def draft(self) -> str:
        """The name under which the phone keeps what is typed."""
        return f"measure-{self.horse.yard.slug}-{self.horse.key}"

    @property
    def asks(self) -> list[AskForm]:
        """Every measure of the page."""
        return [ask for stop in (*self.now, *self.later) for ask in stop.asks]

    @property
    def filled(self) -> list[AskForm]:
        """The measures that something was typed for."""
        return [ask for ask in self.asks if ask.is_filled] if self.is_bound else []

    @property
    def to_look_at(self) -> list[AskForm]:
        """The measures that hold the page up."""
        return [ask for ask in self.filled if ask.errors]

    @property
    def opens_later(self) -> bool:
        """Whether something was typed under the folded measures."""
        asks = [ask for stop in self.later for ask in stop.asks]
        return self.is_bound and any(ask.is_filled for ask in asks)

    def clean_on(self) -> date:
        """Refuse a day to come, or before the horse was foaled."""
        return day_with(self.horse, self.cleaned_data["on"], self.today)

    def clean(self) -> dict[str, Any] | None:
        """Read every measure that was filled; one at least."""
        cleaned = super().clean() or {}
        if not self.filled:
            self.add_error(None, "Write one reading at least.")
        for ask in self.filled:
            ask.day = cleaned.get("on") or self.today
            ask.same_person = cleaned.get("same_person", False)
            ask.shod = cleaned.get("shod", False)
            if not ask.is_valid():
                self.asked_again = True
        return cleaned

    asked_again = False

    def is_valid(self) -> bool:
        """Whether the whole page may be saved."""
        return super().is_valid() and not self.asked_again

    @property
    def taken(self) -> list[Readings]:
        """What was measured."""
        return [ask.taken for ask in self.filled]

    @property
    def understood(self) -> list[Taken]:
        """What could be read of what was typed, as plain facts."""
        if not self.is_bound or "on" in self.errors:
            return []
        return [ask.taken_now for ask in self.filled if not ask.errors]

    def occasion(self, by: Any) -> Occasion:
        """Return when and by whom it was measured."""
        given = self.cleaned_data
        return Occasion(
            on=given["on"],
            who=given["who"],
            same_person=given["same_person"],
            shod=given["shod"],
            by=by,
        )


class MeasurementForm(KeptForm):
    """Correct one measurement, strike it out, or let it count again."""

    instance: Measurement

    class Meta:
        model = Measurement
        fields = ("on", "who", "same_person", "shod", "note", "struck")
        labels = {
            "same_person": "The same person as usual",
            "shod": "Shod in front",
            "struck": "Strike it out because",
        }
        help_texts = {
            "struck": "What is struck out stays on the page and counts for nothing."
            " Empty: it counts.",
        }

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        row = self.instance
        measure = measure_by_key(row.measure)
        units = units_of(row.horse.yard)
        before = [as_box(_reading(r), measure.dimension, units) for r in row.readings]
        self.ask = ReadingsForm(
            self.data if self.is_bound else None,
            horse=row.horse,
            measure=measure,
            method=row.method,
            before=before,
            prefix=row.measure,
        )
        self.ask.believed_already = ", ".join(before)

    def clean_on(self) -> date:
        """Refuse a day to come, or before the horse was foaled."""
        return day_with(self.instance.horse, self.cleaned_data["on"], self.today)

    def clean(self) -> dict[str, Any] | None:
        """Read the readings; one at least. What is struck out is never doubted."""
        cleaned = super().clean() or {}
        ask = self.ask
        ask.day = cleaned.get("on") or self.instance.on
        ask.same_person = cleaned.get("same_person", False)
        ask.doubted = not cleaned.get("struck")
        if ask.is_valid() and not ask.readings:
            self.add_error(None, "Write one reading at least, or delete it.")
        elif ask.is_valid():
            self._hand_over()
        return cleaned

    @property
    def said(self) -> str:
        """What was understood, or that it is struck out."""
        if self.cleaned_data["struck"]:
            return "struck out; it counts for nothing."
        return self.ask.said

    def _hand_over(self) -> None:
        """Hand readings and method to the record; what was not changed stays as is."""
        self.instance.method = self.ask.cleaned_data["method"]
        if self.ask.keep_value != self.ask.believed_already:
            self.instance.readings = [
                {"written": r.written, "value": r.value} for r in self.ask.readings
            ]

    def is_valid(self) -> bool:
        """Whether the measurement may be saved."""
        return super().is_valid() and self.ask.is_valid()


def _reading(kept: dict[str, Any]) -> Reading:
    return Reading(written=kept["written"], value=kept["value"])
