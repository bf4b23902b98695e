"""Who fits what as a list: a sign, its word, and the names that share it.

Written here rather than in a template, as a yard has thousands of names to say.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import lru_cache
from html import escape
from typing import Final

from fitting.drawings.signs import WORDS, sign, sign_of
from fitting.who_fits import FITS, MOST_NAMED, Named, Row, Run

NOBODY: Final = '<p class="soft">Not measured: nothing can be said of it.</p>'


def rows(said: Sequence[Row], *, of_horse: bool = False, folded: bool = False) -> str:
    """Return rows, each with its heading and its list, as HTML.

    ``of_horse``: a row is a horse, and its names are items. ``folded``: the first
    of what fits is told, and the rest lies folded under its count.
    """
    told = _in_short if folded else runs
    return "".join(
        f'<div class="fits-row"{_place(row)}>'
        f"<h3>{_link(row.thing.name, row.thing.href)}</h3>"
        f"{told(row.runs, of_horse=of_horse)}</div>"
        for row in said
    )


def _place(row: Row) -> str:
    """Return the name by which a list of names leads to a row."""
    return f' id="{escape(row.thing.place)}"' if row.thing.place else ""


@lru_cache(maxsize=4096)  # each is named in many rows
def _link(name: str, href: str) -> str:
    if not href:
        return escape(name)
    return f'<a href="{escape(href)}">{escape(name)}</a>'


def runs(said: Sequence[Run], *, of_horse: bool = False) -> str:
    """Return the list of those answered alike, the best first, as HTML.

    ``of_horse``: the names are items, and not horses.
    """
    if not said:
        return NOBODY
    lines = "".join(f"<li>{_line(run, of_horse=of_horse)}</li>" for run in said)
    return f'<ul class="who">{lines}</ul>'


def _in_short(said: Sequence[Run], *, of_horse: bool) -> str:
    """Return the first of what fits, and the rest folded; paper shows it all."""
    shown, rest = [], []
    for run in said:
        at_once = _shown(run)
        if at_once:
            shown.append(_part(run, 0, at_once))
        if at_once < run.count:
            rest.append(_part(run, at_once, run.count))
    if not rest:
        return runs(said, of_horse=of_horse)
    return (
        f"{runs(shown, of_horse=of_horse) if shown else ''}"
        f"<details data-whole><summary>{_counts(rest)}</summary>"
        f"{runs(rest, of_horse=of_horse)}</details>"
    )


def _shown(run: Run) -> int:
    """Return how many are told at once: of what fits the first few, of a no none."""
    if run.answer not in FITS:
        return 0
    # To say that there is one more takes as much room as its name.
    return run.count if run.count <= MOST_NAMED + 1 else MOST_NAMED


def _part(run: Run, first: int, last: int) -> Run:
    if (first, last) == (0, run.count):
        return run
    return replace(run, names=run.names[first:last], count=last - first)


def _counts(rest: Sequence[Run]) -> str:
    """Return how many are answered so, and so: ``12 more good, 5 can't say, 4 no``."""
    many: dict[str, int] = {}
    for run in rest:
        word = escape(WORDS[sign_of(run.answer.value)])
        word = f"more {word}" if run.answer in FITS else word
        many[word] = many.get(word, 0) + run.count
    return ", ".join(f"{count} {word}" for word, count in many.items())


def _line(run: Run, *, of_horse: bool) -> str:
    head = _head(run.answer.value)
    more = f", {escape(run.more)}" if run.more else ""
    if run.names:
        return f"{head}{more}: {_names(run.names)}"
    count = _count(run.count, of_horse=of_horse)
    return f'{head}{more}: <span class="soft">{count}</span>'


def _names(names: Iterable[Named]) -> str:
    return ", ".join(map(_name, names))


def _name(one: Named) -> str:
    said = f" <small>{one.said}</small>" if one.said else ""
    if one.stale:
        said += f' <small class="old">({one.stale})</small>'
    return _link(one.name, one.href) + said


def _count(count: int, *, of_horse: bool) -> str:
    one, many = ("item", "items") if of_horse else ("horse", "horses")
    return f"{count} {one if count == 1 else many}"


@lru_cache(maxsize=8)
def _head(answer: str) -> str:
    """Return the sign of an answer with its word, marked as loudly as it needs."""
    name = sign_of(answer)
    css = name.partition("-")[2]
    return f'{sign(name)} <span class="w-{css}">{WORDS[name]}</span>'
