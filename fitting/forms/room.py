"""Figures of a yard's or a horse's own, a table of them at a time."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.utils.html import escape

from fitting.fit.edge_text import LONGEST, UnreadableFigureError, read_figure
from fitting.fit.edge_words import evidence, meaning
from fitting.fit.edges import EDGES, Change, Edge, Group
from fitting.fit.sound import laid_over, latest, troubles
from fitting.forms.base import OnceForm
from fitting.reads.facts import horse_changes, yard_changes
from fitting.reads.units import units_of
from fitting.reads.whose import Whose, shown_by
from fitting.sources import SOURCES

WHY_LONGEST: Final = 200
BACK: Final = "back"
BACK_WHY: Final = "Back to the figure that stood before."
CHANGED: Final = (
    "Somebody changed figures meanwhile. Here they say now: {now}. Yours are kept"
    " below: write them in again to replace theirs, or leave it."
)


class RoomForm(OnceForm):
    """One table of figures: a box each, empty for what stood before, and why."""

    why = forms.CharField(
        max_length=WHY_LONGEST,
        required=False,
        label="Why, if a figure changes",
        widget=forms.Textarea(attrs={"rows": 2}),
    )
    seen = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=0)

    def __init__(self, *args: Any, group: Group, whose: Whose, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.group, self.whose = group, whose
        self.own = {one.edge: one for one in latest(whose.changes)}
        self.show = shown_by(whose.yard)
        self.fields["seen"].initial = whose.count
        boxes = {edge.name: self._box(edge) for edge in group.edges if not edge.quoted}
        self.fields = {**boxes, **self.fields}
        self.made: tuple[Change, ...] = ()

    def _box(self, edge: Edge) -> forms.CharField:
        own = self.own.get(edge.path)
        said = meaning(edge)
        return forms.CharField(
            max_length=LONGEST,
            required=False,
            label=f"{said[:1].upper()}{said[1:]}",
            initial=own.written if own else "",
            help_text=escape(self._help(edge)),
            widget=forms.TextInput(attrs={"class": "reading", "autocomplete": "off"}),
        )

    def _help(self, edge: Edge) -> str:
        """Return what stands there if the box is empty, and what it rests on."""
        said = f"Ours: {self.show(edge, edge.value)}: {evidence(edge)}."
        if self.whose.horse:
            of_yard = laid_over(yard_changes(self.whose.yard)).change(edge.path)
            if of_yard and of_yard.to is not None:
                said = f"The yard's: {self.show(edge, of_yard.to)}. {said}"
        if edge.floor is not None:
            floor = self.show(edge, edge.floor.value)
            said = f"{said} Never under {floor}: {edge.floor.because}"
            if edge.floor.source != edge.source:
                said = f"{said} ({SOURCES[edge.floor.source].text})"
            said = f"{said}."
        return said

    @property
    def own_here(self) -> bool:
        """Whether any figure of the table was changed here, to go back from."""
        return any(edge.path in self.own for edge in self.group.edges)

    @property
    def goes_under_nothing(self) -> bool:
        """Whether a strap of the table may be shorter than what it lies on."""
        return any(edge.value < 0 for edge in self.group.edges)

    def making(self, by: str, on: date) -> tuple[Change, ...]:
        """Return the changes that were asked for, as of who and when."""
        return tuple(
            Change(
                edge=one.edge,
                to=one.to,
                by=by,
                on=on,
                why=one.why,
                written=one.written,
            )
            for one in self.made
        )

    def clean(self) -> dict[str, Any]:
        """Read the figures, and hold them to what may stand together."""
        cleaned = super().clean() or {}
        seen = cleaned.get("seen")
        if seen is not None and seen != self.whose.count:
            self.changed_meanwhile()
            return cleaned
        back = BACK in self.data
        for edge in self.group.edges:
            if not edge.quoted:
                self._read(edge, "" if back else cleaned.get(edge.name, ""))
        if self.errors:
            return cleaned
        why = cleaned.get("why", "").strip()
        if self.made and not why and not back:
            self.add_error("why", "Say why: it stands beside the figure from now on.")
        self._together()
        reason = why or BACK_WHY
        self.made = tuple(
            Change(
                edge=one.edge,
                to=one.to,
                by="",
                on=one.on,
                why=reason,
                written=one.written,
            )
            for one in self.made
        )
        return cleaned

    def changed_meanwhile(self) -> None:
        """Say that somebody else was quicker; what was typed stays."""
        data = self.data.copy()  # type: ignore[attr-defined]
        data[self.add_prefix("seen")] = str(self.whose.count)
        self.data = data
        now = {one.edge: one for one in latest(self.whose.changes)}
        said = "; ".join(
            f"{meaning(edge)} {now[edge.path].written}"
            for edge in self.group.edges
            if edge.path in now
        )
        why = CHANGED.format(now=said or "what stood before")
        self.add_error(None, ValidationError(why, code="changed_meanwhile"))

    def _read(self, edge: Edge, text: str) -> None:
        """Read one box; the same text as before changes nothing."""
        own = self.own.get(edge.path)
        if text.strip() == (own.written if own else ""):
            return
        to, written = None, ""
        if text.strip():
            try:
                to, written = read_figure(edge, text, units_of(self.whose.yard).length)
            except UnreadableFigureError as error:
                self.add_error(edge.name, ValidationError(str(error)))
                return
        made = Change(
            edge=edge.path, to=to, by="", on=date.min, why="", written=written
        )
        self.made = (*self.made, made)

    def _together(self) -> None:
        """Hold all figures to their order and floors, those of each horse too."""
        changes = (*self.whose.changes, *self.made)
        said = troubles(self.whose.with_changes(changes), self.show)
        for trouble in said:
            edge = EDGES[trouble.edge]
            here = edge.table == self.group.key and edge.name in self.fields
            self.add_error(edge.name if here else None, ValidationError(trouble.why))
        if self.whose.horse is None and not said:
            self._with_each_horse(changes)

    def _with_each_horse(self, changes: Sequence[Change]) -> None:
        for horse in self.whose.yard.horses.all():
            own = horse_changes(horse)
            for trouble in troubles(laid_over(changes, own), self.show) if own else ():
                edge = EDGES[trouble.edge]
                why = (
                    f"The figures of {horse.name} alone do not go with this,"
                    f" {meaning(edge)}: {trouble.why}"
                )
                self.add_error(None, ValidationError(why))
