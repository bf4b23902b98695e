"""A day that is none is refused in the same words wherever one is asked for."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from importlib import import_module
from pkgutil import iter_modules

import pytest
from django import forms
from django.core.exceptions import ValidationError
from django.test import Client
from django.urls import reverse

import fitting.forms
import starting.forms
from fitting.forms.base import NO_DAY, DayField, KeptForm
from fitting.models import Yard
from tests.make import make_bit, make_horse

SAID = "That is no day. Write 2026-11-25 or 25/11/2026."


def test_both_ways_to_write_a_day_that_are_named_are_read() -> None:
    assert NO_DAY == SAID
    for text in ("2026-11-25", "25/11/2026"):
        assert DayField().clean(text) == date(2026, 11, 25)


@pytest.mark.parametrize("text", ["soon", "2026-02-31", "31/02/2026", "2026-13-01"])
def test_what_is_no_day_is_refused_in_words_of_ours(text: str) -> None:
    with pytest.raises(ValidationError) as refused:
        DayField().clean(text)
    assert refused.value.messages == [SAID]


def every_form() -> Iterator[type[forms.BaseForm]]:
    """Yield the forms of both apps."""
    for package in (fitting.forms, starting.forms):
        for module in iter_modules(package.__path__, f"{package.__name__}."):
            for value in vars(import_module(module.name)).values():
                if isinstance(value, type) and issubclass(value, forms.BaseForm):
                    yield value


def test_every_form_asks_for_a_day_by_the_one_field() -> None:
    """A form over a record gives its days the same words as it is made."""
    days = [
        (form, field)
        for form in every_form()
        if not issubclass(form, KeptForm)
        for field in getattr(form, "base_fields", {}).values()
        if isinstance(field, forms.DateField)
    ]
    assert len(days) > 4
    assert [form for form, field in days if not isinstance(field, DayField)] == []


def test_a_wrong_day_in_an_address_is_answered_in_those_words(
    keeper: Client, yard: Yard
) -> None:
    horse, bit = make_horse(yard, name="Tansy"), make_bit(yard, name="Eggbutt")
    asked = [
        ("who-fits", [], {"day": "soon"}),
        ("does-it-fit", [], {"horse": horse.key, "item": bit.key, "day": "soon"}),
        ("mix-bridle", [], {"horse": horse.key, "on": "soon"}),
        ("horse", [horse.key], {"day": "soon"}),
    ]
    for name, of, said in asked:
        answer = keeper.get(reverse(f"fitting:{name}", args=[yard.slug, *of]), said)
        assert answer.status_code == 422, name
        assert SAID in answer.content.decode(), name


def test_a_wrong_day_in_a_record_is_answered_in_those_words(
    keeper: Client, yard: Yard
) -> None:
    horse, bit = make_horse(yard, name="Tansy"), make_bit(yard, name="Eggbutt")
    for name, asked in (
        ("measure", ""),
        ("add-first-worn", ""),
        ("try-on", f"?item={bit.key}"),
    ):
        address = reverse(f"fitting:{name}", args=[yard.slug, horse.key])
        answer = keeper.post(f"{address}{asked}", {"on": "soon"})
        assert answer.status_code == 422, name
        assert SAID in answer.content.decode(), name
