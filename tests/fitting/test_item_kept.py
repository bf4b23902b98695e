"""An item's memory: another like it, what was changed, who wore it first."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.test import Client
from django.urls import reverse

from fitting.models import FirstWorn, Part, Tack, Yard
from fitting.reads.item_edits import edits_of
from tests.fitting.making_tack import BIT, make_bridle
from tests.make import make_bit, make_horse, make_yard


def edit(yard: Yard, item: Tack) -> str:
    return reverse("fitting:edit-tack", args=[yard.slug, item.key])


def like(yard: Yard, item: Tack) -> str:
    return f"{reverse('fitting:add-tack', args=[yard.slug])}?like={item.key}"


def put_up(keeper: Client, yard: Yard, **more: str) -> Tack:
    address = reverse("fitting:add-tack", args=[yard.slug])
    keeper.post(f"{address}?kind=bit", BIT | more)
    return yard.tack.get(name=(BIT | more)["name"])


# Another like it


def test_another_like_it_starts_with_its_sizes_and_changes_nothing_of_it(
    keeper: Client, yard: Yard
) -> None:
    bit = put_up(keeper, yard)
    assert like(yard, bit) in keeper.get(bit.get_absolute_url()).content.decode()
    page = keeper.get(like(yard, bit)).content.decode()
    assert "Like Small eggbutt: its sizes stand below." in page
    assert 'value="4 3/4"' in page
    assert Tack.objects.count() == 1
    sent = BIT | {"name": "Twin", "mouthpiece-length": "5", "token": "again"}
    keeper.post(like(yard, bit), sent)
    twin = yard.tack.get(name="Twin")
    assert twin.key != bit.key
    assert twin.parts.get().length_mm == 127
    assert bit.parts.get().length_mm == 120.65


def test_a_part_that_was_never_measured_is_there_on_another_like_it_too(
    keeper: Client, yard: Yard
) -> None:
    bridle = make_bridle(yard)
    Part.objects.create(tack=bridle, part="noseband")
    page = keeper.get(like(yard, bridle)).content.decode()
    box = page[page.index('name="noseband-there"') :]
    assert "checked" in box[: box.index(">")]
    box = page[page.index('name="throatlash-there"') :]
    assert "checked" not in box[: box.index(">")]


def test_the_name_has_to_be_another(keeper: Client, yard: Yard) -> None:
    bit = put_up(keeper, yard)
    page = keeper.post(like(yard, bit), BIT | {"token": "again"})
    assert page.status_code == 422
    assert "An item of that name hangs here already." in page.content.decode()


def test_nothing_is_like_a_strangers_item(keeper: Client, yard: Yard) -> None:
    theirs = make_bit(make_yard())
    assert keeper.get(like(yard, theirs)).status_code == 404


# What was changed


def test_each_edit_is_told_on_its_own_minute(keeper: Client, yard: Yard) -> None:
    bit = put_up(keeper, yard)
    age(bit, hours=2)
    sent = BIT | {"label_size": "5", "mouthpiece-length": "5", "token": "two"}
    keeper.post(edit(yard, bit), sent)
    newest, first = edits_of(bit)
    page = keeper.get(bit.get_absolute_url()).content.decode()
    assert newest.said in page
    assert first.said == "put up"
    assert "size on the label: 4 1/2 became 5" in newest.said
    assert "mouthpiece: length 4 3/4 became 5" in newest.said
    assert newest.who == str(bit.history.first().history_user)


def test_a_part_that_came_or_went_is_told(keeper: Client, yard: Yard) -> None:
    bridle = make_bridle(yard)
    age(bridle, hours=3)
    Part.objects.create(
        tack=bridle, part="browband", length_mm=380, written={"length": "38 cm"}
    )
    assert edits_of(bridle)[0].said == "browband added: length 38 cm"
    age(bridle, hours=3)
    bridle.parts.get(part="browband").delete()
    assert edits_of(bridle)[0].said == "browband struck off"
    age(bridle, hours=3)
    bridle.gone = date(2026, 1, 2)
    bridle.save()
    assert edits_of(bridle)[0].said == "taken down 2 Jan 2026"


def test_saving_without_a_change_is_no_edit(yard: Yard) -> None:
    bridle = make_bridle(yard)
    age(bridle, hours=3)
    bridle.save()
    assert [one.said for one in edits_of(bridle)] == ["put up"]


def age(item: Tack, *, hours: int) -> None:
    """Make all that was written so far older."""
    for rows in (item.history.all(), Part.history.filter(tack_id=item.pk)):
        for row in rows:
            row.history_date -= timedelta(hours=hours)
            row.save()


def test_an_item_shows_who_wore_it_first(viewer: Client, yard: Yard) -> None:
    bit = make_bit(yard)
    tansy = make_horse(yard, name="Tansy")
    FirstWorn.objects.create(horse=tansy, kind="bit", tack=bit, on=date(2026, 1, 3))
    page = viewer.get(bit.get_absolute_url()).content.decode()
    assert "First worn" in page
    assert "3 Jan 2026" in page


def test_a_long_memory_costs_no_more_queries(
    viewer: Client, yard: Yard, django_assert_num_queries: Any
) -> None:
    bit = make_bit(yard)
    viewer.get(bit.get_absolute_url())
    with django_assert_num_queries(18):
        viewer.get(bit.get_absolute_url())
    for number in range(5):
        bit.note = f"{number}"
        bit.save()
        horse = make_horse(yard)
        FirstWorn.objects.create(horse=horse, kind="bit", tack=bit, on=date(2026, 1, 3))
    with django_assert_num_queries(18):
        viewer.get(bit.get_absolute_url())
