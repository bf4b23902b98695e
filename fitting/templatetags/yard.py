"""Tags and filters of the yard's pages: signs, words, days."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any, Final

from django import template
from django.forms import (
    BoundField,
    CheckboxInput,
    CheckboxSelectMultiple,
    RadioSelect,
    Textarea,
)
from django.template.loader import render_to_string
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from fitting import condition, lending, words_of_bits
from fitting.drawings import (
    beside,
    bits,
    charts,
    croup,
    how_to,
    marks,
    reach,
    runs,
    signs,
    standing,
    straps,
    timeline,
    yard_timeline,
)
from fitting.drawings.ink import Said
from fitting.ground import THEMES, ground_of
from fitting.pictured import Worn
from fitting.who_fits import Row

register = template.Library()

_CHOICES: Final = (RadioSelect, CheckboxSelectMultiple)


@register.simple_tag(name="sprite")
def sprite_tag() -> SafeString:
    """Put every sign on the page once, for ``sign`` to refer to."""
    return mark_safe(signs.sprite())  # noqa: S308 - our own drawing, no typed text


@register.simple_tag(name="sign")
def sign_tag(name: str) -> SafeString:
    """Show one sign; its word must stand beside it."""
    return mark_safe(signs.sign(name))  # noqa: S308 - refuses names that are no sign


@register.simple_tag(name="word")
def word_tag(answer: str, *, gate: bool = False) -> SafeString:
    """Say an answer, marked as loudly as it needs."""
    name = signs.sign_of(str(answer), gate=gate)
    css = name.partition("-")[2]
    return format_html('<span class="w-{}">{}</span>', css, signs.WORDS[name])


@register.simple_tag(name="how_to")
def how_to_tag(measure: str, *, shared: bool = False) -> SafeString:
    """Show how a measure is taken; nothing where no picture is drawn.

    ``shared``: the page holds ``shared_art``.
    """
    return mark_safe(how_to.how_to(measure, shared=shared))  # noqa: S308 - our own


@register.simple_tag(name="shared_art")
def shared_art_tag() -> SafeString:
    """Put the horse and its head on the page once, for many pictures."""
    return mark_safe(how_to.shared_art())  # noqa: S308 - our own drawing


@register.inclusion_tag("fitting/_condition_steps.html")
def condition_steps() -> dict[str, Any]:
    """Show the nine steps of condition, the six places and the caution."""
    return {
        "steps": condition.STEPS,
        "places": condition.PLACES,
        "crest": condition.CREST,
        "caution": condition.CAUTION,
    }


@register.inclusion_tag("fitting/_bit_kinds.html")
def bit_kinds() -> dict[str, Any]:
    """Show what each cheek, mouthpiece and material does for a young mouth."""
    return {"kinds": words_of_bits.all_kinds()}


@register.simple_tag(name="standing")
def standing_tag(measures: Sequence[str], names: Sequence[str]) -> SafeString:
    """Show a horse with a lettered line for each of the measures that have one."""
    return mark_safe(standing.standing(measures, names))  # noqa: S308 - escaped there


@register.simple_tag(name="bit_picture")
def bit_picture_tag(cheek: str, mouthpiece: str, kind: str, length: str) -> SafeString:
    """Show a bit by its outline, with its length between the cheeks."""
    desc = f"{kind}. Between the cheeks: {length or 'not measured'}."
    said = Said(uid="bit", title="The bit laid flat", desc=desc)
    drawn = bits.bit(cheek, mouthpiece, said, length)
    return mark_safe(drawn)  # noqa: S308 - escaped where it is drawn


@register.simple_tag(name="worn_picture")
def worn_picture_tag(worn: Worn) -> SafeString:
    """Show an item or a set on a horse, each part drawn by its answer."""
    return mark_safe(worn.drawn())  # noqa: S308 - escaped where it is drawn


@register.inclusion_tag("fitting/_answer_key.html")
def answer_key() -> dict[str, Any]:
    """Show how each answer is drawn, with its word."""
    marks_of = [(mark_safe(straps.answer_mark(a)), a) for a in straps.ANSWERS]  # noqa: S308
    return {"marks": marks_of}


@register.simple_tag(name="phases")
def phases_tag(states: Sequence[str], said: str) -> SafeString:
    """Show the string of phases; ``said`` says the same in words."""
    drawn = signs.phases(tuple(map(str, states)), said)
    return mark_safe(drawn)  # noqa: S308 - escaped where it is drawn


def _both(draw: Callable[..., str], of: object) -> SafeString:
    """Return what is drawn for a phone, and for a wide screen."""
    drawn = draw(of, narrow=True) + draw(of)
    return mark_safe(drawn)  # noqa: S308 - escaped where it is drawn


@register.simple_tag(name="growth_chart")
def growth_chart_tag(chart: charts.GrowthChart) -> SafeString:
    """Show a growth chart, drawn for a phone and for a wide screen."""
    return _both(charts.growth_chart, chart)


@register.simple_tag(name="beside_chart")
def beside_chart_tag(chart: beside.BesideChart) -> SafeString:
    """Show several horses by age, drawn for a phone and for a wide screen."""
    return _both(beside.beside_chart, chart)


@register.simple_tag(name="timeline")
def timeline_tag(chart: timeline.Timeline) -> SafeString:
    """Show steps along the months, drawn for a phone and for a wide screen."""
    return _both(timeline.timeline, chart)


@register.simple_tag(name="yard_timeline")
def yard_timeline_tag(chart: yard_timeline.YardTimeline) -> SafeString:
    """Show horses along the months, drawn for a phone and for a wide screen."""
    return _both(yard_timeline.yard_timeline, chart)


@register.simple_tag(name="strap_mark")
def strap_mark_tag() -> SafeString:
    """Show a strap of a timeline, for its key; its words stand beside it."""
    return mark_safe(  # noqa: S308 - our own drawing, no typed text
        '<svg viewBox="0 0 34 18" class="k-strap" aria-hidden="true"'
        f' focusable="false" fill="none">{timeline.key()}</svg>'
    )


@register.simple_tag(name="beside_mark")
def beside_mark_tag(at: int) -> SafeString:
    """Show the line and the mark of one of several horses, for the key of a chart."""
    drawn = beside.key_mark(at)
    return mark_safe(  # noqa: S308 - our own drawing, no typed text
        '<svg class="key-long" viewBox="0 0 44 16" aria-hidden="true"'
        f' focusable="false">{drawn}</svg>'
    )


@register.simple_tag(name="who_fits")
def who_fits_tag(
    said: Sequence[Row], *, by_horse: bool = False, in_short: bool = False
) -> SafeString:
    """Show rows: those that are answered alike by a sign, its word, their names."""
    drawn = runs.rows(said, of_horse=by_horse, folded=in_short)
    return mark_safe(drawn)  # noqa: S308 - escaped where it is written


@register.simple_tag(name="reach")
def reach_tag(drawn: reach.Reach) -> SafeString:
    """Show sizes on what an item covers, drawn for a phone and for a wide screen."""
    return _both(reach.reach, drawn)


@register.simple_tag(name="croup_chart")
def croup_chart_tag(chart: croup.CroupChart) -> SafeString:
    """Show croup over withers, drawn for a phone and for a wide screen."""
    return _both(croup.croup_chart, chart)


@register.simple_tag(name="high_mark")
def high_mark_tag() -> SafeString:
    """Show the ring of a high reading, for the key; its word stands beside it."""
    return mark_safe(  # noqa: S308 - our own drawing, no typed text
        '<svg viewBox="0 0 24 20" aria-hidden="true" focusable="false" fill="none">'
        f"{croup.ring(12, 10)}</svg>"
    )


@register.simple_tag(name="reading_mark")
def reading_mark_tag(mark: marks.Mark) -> SafeString:
    """Show the mark of a reading, for the key of a chart; its word stands beside it."""
    drawn = marks.reading_mark(12, 8, mark)
    return mark_safe(  # noqa: S308 - our own drawing, no typed text
        f'<svg viewBox="0 0 24 16" aria-hidden="true" focusable="false">{drawn}</svg>'
    )


@register.simple_tag(takes_context=True)
def theme(context: template.Context) -> str:
    """Return the theme of a page: paper, but where the device was told otherwise."""
    request = context.get("request")
    return THEMES[ground_of(request.COOKIES if request else {})]


@register.simple_block_tag(takes_context=True)
def rail(context: template.Context, content: str) -> SafeString:
    """Show the five pegs; the content is the word of the one this page hangs on."""
    request = context["request"]
    given = {
        "yard": request.yard,
        "role": request.role,
        "section": content.strip(),
    }
    return render_to_string("_parts/_rail.html", given)


@register.simple_block_tag
def row(content: str, sign: str = "", css: str = "") -> SafeString:
    """Set what is said right of the margin line, and its sign left of it."""
    return format_html(
        '<div class="row-e {}"><div class="m">{}</div><div>{}</div></div>',
        css,
        sign_tag(sign) if sign else "",
        mark_safe(content),  # noqa: S308 - rendered by a template already
    )


@register.filter
def day(on: date | None) -> str:
    """Show a day with its year: 26 Nov 2026."""
    return "" if on is None else f"{on.day} {on:%b %Y}"


@register.filter
def near_day(on: date | None, today: date | None = None) -> str:
    """Show a day of the next months: Thu 26 Nov; far from today, with its year."""
    return "" if on is None else lending.near_day(on, today)


@register.filter
def answer_sign(answer: str) -> str:
    """Name the sign of a fit answer or of a step's state."""
    return signs.sign_of(str(answer))


@register.filter
def first_sign(answer: str) -> str:
    """Name the sign of whether a bit suits as the first one."""
    names = {"suits": "gate-met", "caution": "gate-caution"}
    return names.get(answer, "gate-unknown")


@register.filter
def gate_sign(answer: str) -> str:
    """Name the sign of a gate's answer."""
    return signs.sign_of(str(answer), gate=True)


@register.filter
def answer_word(answer: str) -> str:
    """Say a fit answer, a gate's answer or a step's state."""
    return signs.word_of(str(answer))


@register.filter
def field_kind(field: BoundField) -> str:
    """Name how a form's field is set out: choices, tick, textarea or box."""
    widget = field.field.widget
    if isinstance(widget, _CHOICES):
        return "choices"
    if isinstance(widget, CheckboxInput):
        return "tick"
    return "textarea" if isinstance(widget, Textarea) else "box"
