"""Who fits what: in every order, on any day, for horses and tack in any number."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from fitting.models import Horse, Loan, Tack, TackSet, Yard
from starting.writes.replan import ensure_planned
from tests.fitting.making_fits import asks, fit, fitted, rows_of, who
from tests.make import make_bit, make_horse, make_measurement, make_yard


def test_every_order_says_who_fits(keeper: Client, yard: Yard) -> None:
    fitted(yard, "Tansy")
    make_bit(yard, name="Eggbutt", length_mm=117.0)
    make_bit(yard, name="Wide", length_mm=150.0)
    ensure_planned(yard)
    by_kind = rows_of(who(keeper, yard))
    assert "good: Tansy" in by_kind["Eggbutt"]
    assert "no, too wide: Tansy" in by_kind["Wide"]
    assert list(rows_of(who(keeper, yard, by="item"))) == ["Eggbutt", "Wide"]
    by_horse = rows_of(who(keeper, yard, by="horse"))["Tansy"]
    assert "good: Eggbutt" in by_horse
    assert "no, too wide: Wide" in by_horse
    room = keeper.get(reverse("fitting:tack-room", args=[yard.slug])).content.decode()
    assert "<small>too wide</small>" in room  # in its column
    assert '<span class="soft">, too wide</span>' in room  # in the phone's list
    horse = yard.horses.get(name="Tansy")
    page = keeper.get(
        reverse("fitting:does-it-fit", args=[yard.slug]), {"horse": horse.key}
    )
    assert "<small>Too wide.</small>" in page.content.decode()
    ending = who(keeper, yard, by="until")
    assert "What stops being good" in ending
    assert "Wide" not in ending.partition("<tbody>")[2].partition("</tbody>")[0]


def test_an_answer_by_a_stale_size_says_so(keeper: Client, yard: Yard) -> None:
    said = "measured 200 days ago, measure again"
    old = make_horse(
        yard, name="Bran", foaled=timezone.localdate() - timedelta(days=1000)
    )
    on = timezone.localdate() - timedelta(days=200)
    make_measurement(old, "mouth_width", on=on, value=112.0, method="dowel")
    fresh = fitted(yard, "Tansy")
    bit = make_bit(yard, name="Eggbutt", length_mm=120.0)
    ensure_planned(yard)
    page = fit(keeper, yard, horse=old.key, item=bit.key)
    assert f"By a size {said} before you go by it." in page
    assert said not in fit(keeper, yard, horse=fresh.key, item=bit.key)
    for by in ("kind", "item", "horse"):
        told = rows_of(who(keeper, yard, by=by))
        of_it = told["Bran" if by == "horse" else "Eggbutt"]
        assert of_it.count(said) == 1
    room = keeper.get(reverse("fitting:tack-room", args=[yard.slug])).content.decode()
    assert room.lower().count(said) == 2  # in its column, and in the phone's list
    start = reverse("fitting:tack-room", args=[yard.slug])
    page = keeper.get(f"{start}{bit.key}/").content.decode()
    assert f"Bran: {said}." in page  # beside the drawing
    on_bran = reverse("fitting:item-on", args=[yard.slug, old.key, bit.key])
    assert said in keeper.get(on_bran).content.decode()


def test_a_kind_and_youngsters_alone_can_be_asked_for(
    keeper: Client, yard: Yard
) -> None:
    fitted(yard, "Tansy")
    old = fitted(yard, "Fennel", months=150)
    Horse.objects.filter(pk=old.pk).update(grown=True)
    make_bit(yard, name="Eggbutt", length_mm=117.0)
    Tack.objects.create(yard=yard, key="rug", name="Rug", kind="rug")
    ensure_planned(yard)
    assert "Fennel" in who(keeper, yard)
    assert "Fennel" not in who(keeper, yard, young="on")
    assert "Eggbutt" not in who(keeper, yard, kind="rug")
    assert "Nothing of that kind hangs here" in who(keeper, yard, kind="saddle")


def test_another_day_is_computed_for_that_day(keeper: Client, yard: Yard) -> None:
    """A bit that is good for a growing mouth today is too narrow two years on."""
    fitted(yard, "Tansy", months=14)
    make_bit(yard, name="Eggbutt", length_mm=116.5)
    ensure_planned(yard)
    assert "good: Tansy" in rows_of(who(keeper, yard))["Eggbutt"]
    later = (timezone.localdate() + timedelta(days=1000)).isoformat()
    said = rows_of(who(keeper, yard, day=later))["Eggbutt"]
    assert "good" not in said


def test_today_computed_says_what_is_stored(keeper: Client, yard: Yard) -> None:
    """The same rows, whether they come from stored outlooks or from the day itself."""
    for n, mouth in enumerate((105.0, 112.0, 120.0)):
        fitted(yard, f"H{n}", mouth_mm=mouth)
    for n, length in enumerate((108.0, 114.0, 117.0, 126.0)):
        make_bit(yard, name=f"B{n}", length_mm=length)
    ensure_planned(yard)
    stored = rows_of(who(keeper, yard))
    tomorrow = (timezone.localdate() + timedelta(days=1)).isoformat()
    computed = rows_of(who(keeper, yard, day=tomorrow))
    answers = [
        {
            name: [w for w in said.split() if w.endswith(":")]
            for name, said in of.items()
        }
        for of in (stored, computed)
    ]
    assert answers[0] == answers[1]
    assert any("good:" in of for of in answers[0].values())


def test_a_day_that_is_none_is_refused_in_words(keeper: Client, yard: Yard) -> None:
    fitted(yard, "Tansy")
    make_bit(yard)
    ensure_planned(yard)
    page = reverse("fitting:who-fits", args=[yard.slug])
    for asked, said in (
        ({"day": "2027-02-31"}, "That is no day. Write"),
        ({"day": "2399-01-01"}, "Ten years are looked ahead"),
        ({"day": "1900-01-01"}, "Ten years are looked back"),
    ):
        answer = keeper.get(page, asked)
        assert answer.status_code == 422
        assert said in answer.content.decode()
    assert keeper.get(page, {"by": "colour"}).status_code == 422


def test_an_empty_yard_says_what_will_stand_here(keeper: Client, yard: Yard) -> None:
    assert "No tack on the pegs" in who(keeper, yard)
    make_bit(yard)
    assert "Nobody to fit it on" in who(keeper, yard)
    assert "Nobody to fit it on" in fit(keeper, yard)
    add = reverse("fitting:add-horse", args=[yard.slug])
    assert f'href="{add}"' in fit(keeper, yard)


@pytest.mark.parametrize("day", ["", "2027-08-01"])
def test_queries_do_not_grow_with_horses_or_tack(
    keeper: Client, yard: Yard, day: str
) -> None:
    page = reverse("fitting:who-fits", args=[yard.slug])
    one = reverse("fitting:does-it-fit", args=[yard.slug])
    counts = []
    for more in (2, 7):
        horses = [fitted(yard, f"Horse {more} {n}") for n in range(more)]
        bits = [make_bit(yard, name=f"Bit {more} {n}") for n in range(more)]
        for horse, bit in zip(horses, bits, strict=True):
            Loan.objects.create(tack=bit, to=horse)
        ensure_planned(yard)
        asked = {"horse": horses[0].key, "item": bits[0].key, "day": day}
        counts.append((asks(keeper, page, day=day), asks(keeper, one, **asked)))
    assert counts[0] == counts[1]


def test_another_yards_horses_and_items_are_not_found(
    keeper: Client, yard: Yard
) -> None:
    elsewhere = make_yard(name="Elsewhere", slug="elsewhere")
    horse, bit = fitted(elsewhere, "Sorrel"), make_bit(elsewhere, name="Theirs")
    mine = fitted(yard, "Tansy")
    page = reverse("fitting:does-it-fit", args=[yard.slug])
    assert keeper.get(page, {"horse": "nobody"}).status_code == 404
    if horse.key != mine.key:
        assert keeper.get(page, {"horse": horse.key}).status_code == 404
    assert keeper.get(page, {"horse": mine.key, "item": bit.key}).status_code == 404
    assert "Theirs" not in who(keeper, yard)


def test_who_fits_what_can_be_asked_back_to_a_day_gone_by(
    keeper: Client, yard: Yard
) -> None:
    fitted(yard, "Tansy")
    make_bit(yard, name="Eggbutt", length_mm=117.0)
    ensure_planned(yard)
    day = timezone.localdate() - timedelta(days=1)
    assert f"On {day.day} {day:%b %Y}" in who(keeper, yard, day=day.isoformat())
    assert date.fromisoformat(day.isoformat()) == day


def test_a_set_leads_to_its_page_and_a_group_has_its_cautions_beside_it(
    keeper: Client, yard: Yard
) -> None:
    tansy = fitted(yard, "Tansy")
    bit = make_bit(yard, name="Eggbutt", length_mm=117.0)
    made = TackSet.objects.create(yard=yard, key="first", name="First bridle")
    made.parts.create(slot="bit", tack=bit)
    ensure_planned(yard)
    assert f'href="{made.get_absolute_url()}"' in who(keeper, yard)
    page = keeper.get(reverse("fitting:horse-tack", args=[yard.slug, tansy.key]))
    told = page.content.decode()
    caution = "Have the mouth looked at by a vet"
    groups = told.split('<th scope="rowgroup"')[1:]
    assert len(groups) == 2  # the sets, the bits
    for group in groups:
        assert group.index(caution) < group.index('<th scope="row">')
        assert group.count(caution) == 1
