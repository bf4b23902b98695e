"""The pages to buy or borrow: what stands there, ticks, cards, an item begun."""

from __future__ import annotations

from datetime import timedelta
from html import unescape

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from django.utils.html import strip_tags

from fitting.models import Horse, Loan, Part, Tack, Yard
from starting.models import Bought, DiaryEntry, StageRecord
from starting.outlook import look_at_yard
from starting.reads.facts import yard_facts
from starting.writes.replan import replan
from tests.make import make_bit, make_horse, make_measurement
from tests.starting.making_outlook import BEFORE_THE_BRIDLE

pytestmark = pytest.mark.django_db
TODAY = timezone.localdate()  # the pages go by today


@pytest.fixture
def filly(yard: Yard) -> Horse:
    """A pony measured this week, ready for its first bridle and bit."""
    born = TODAY - timedelta(days=950)
    horse = make_horse(yard, name="Tansy", foaled=born.isoformat())
    lately = TODAY - timedelta(days=3)
    sizes = {"mouth_width": 112, "head_length": 900, "nose_round": 540, "brow": 350}
    methods = {"mouth_width": "gauge"}
    for measure, mm in sizes.items():
        method = methods.get(measure, "tape")
        make_measurement(horse, measure, lately, mm, method=method)
    done = [
        StageRecord(horse=horse, stage=key, state="established", on=lately)
        for key in BEFORE_THE_BRIDLE
    ]
    StageRecord.objects.bulk_create(done)
    replan(yard, TODAY)
    return horse


def at(name: str, horse: Horse, **more: int) -> str:
    parts = {"yard": horse.yard.slug, "horse": horse.key, **more}
    return reverse(f"starting:{name}", kwargs=parts)


def text_of(client: Client, url: str) -> str:
    said = client.get(url)
    assert said.status_code == 200
    return " ".join(unescape(strip_tags(said.content.decode())).split())


def of_yard(yard: Yard) -> str:
    return reverse("starting:to-get", args=[yard.slug])


def test_the_list_says_what_by_when_in_which_sizes_and_why(
    keeper: Client, filly: Horse
) -> None:
    page = text_of(keeper, at("horse-to-get", filly))
    assert "A bit" in page
    assert "Mouthing is planned for" in page
    assert "Length between the cheeks" in page
    assert "Thickness beside the ring 12 to 15 mm" in page
    assert "good until about" in page or "good for two years" in page
    assert "Bit seat over the poll to bit seat" in page


def test_the_list_of_the_yard_names_the_horse_and_what_to_find_out_first(
    keeper: Client, filly: Horse
) -> None:
    other = make_horse(filly.yard, name="Bramling", foaled=filly.foaled)
    StageRecord.objects.bulk_create(
        StageRecord(horse=other, stage=key, state="established", on=TODAY)
        for key in BEFORE_THE_BRIDLE
    )
    replan(filly.yard, TODAY)
    page = text_of(keeper, of_yard(filly.yard))
    assert "Tansy: A bit" in page
    assert "Bramling: Measure mouth width first." in page
    assert "Bramling: A bit" not in page


def test_the_caution_stands_before_the_sizes(keeper: Client, filly: Horse) -> None:
    for url in (at("horse-to-get", filly), of_yard(filly.yard)):
        page = text_of(keeper, url)
        assert page.index("first bit is smooth") < page.index("Length between the")


def test_what_two_kinds_of_tack_wait_for_is_asked_once(
    keeper: Client, yard: Yard
) -> None:
    pip = make_horse(yard, name="Pip", foaled=(TODAY - timedelta(days=900)).isoformat())
    replan(yard, TODAY)
    page = text_of(keeper, at("horse-to-get", pip))
    assert page.count("Measure round the nose first.") == 1
    _, _, after = page.partition("Measure round the nose first.")
    whys, _, _ = after.partition("Measure ")
    assert whys.count("is planned for") == 2


def test_the_list_is_reached_from_today_the_tack_room_and_the_horses_tack(
    keeper: Client, filly: Horse
) -> None:
    make_bit(filly.yard, length_mm=100)
    yard = filly.yard.slug
    for url in (
        reverse("starting:today", args=[yard]),
        reverse("fitting:tack-room", args=[yard]),
    ):
        assert of_yard(filly.yard) in keeper.get(url).content.decode()
    tack = reverse("fitting:horse-tack", args=[yard, filly.key])
    assert at("horse-to-get", filly) in keeper.get(tack).content.decode()


def test_what_could_be_lent_is_named_with_its_owner(
    keeper: Client, filly: Horse
) -> None:
    bit = make_bit(filly.yard, name="Fennel's eggbutt", length_mm=119)
    Tack.objects.filter(pk=bit.pk).update(belongs_to="Old Fennel")
    replan(filly.yard, TODAY)
    page = text_of(keeper, at("horse-to-get", filly))
    assert "Could be lent: Fennel's eggbutt from Old Fennel" in page


def test_what_is_lent_to_another_horse_is_not_offered(
    keeper: Client, filly: Horse
) -> None:
    bit = make_bit(filly.yard, name="Fennel's eggbutt", length_mm=119)
    other = make_horse(filly.yard, name="Bramling")
    Loan.objects.create(tack=bit, to=other)
    replan(filly.yard, TODAY)
    page = text_of(keeper, at("horse-to-get", filly))
    assert "A bit" in page
    assert "Fennel's eggbutt" not in page


@pytest.mark.django_db(transaction=True)
def test_a_tick_takes_it_off_the_list_and_the_diary_and_can_be_taken_back(
    keeper: Client, filly: Horse
) -> None:
    gets = DiaryEntry.objects.filter(horse=filly, key__endswith="get/bit")
    assert gets.exists()
    keeper.post(at("got", filly), {"kind": "bit", "part": ""})
    page = text_of(keeper, at("horse-to-get", filly))
    listed, _, ticked = page.partition("Ticked off")
    assert "A bit" not in listed
    assert "Not put up yet" in ticked
    assert not gets.exists()
    row = Bought.objects.get()
    keeper.post(at("not-got", filly, pk=row.pk))
    assert "A bit" in text_of(keeper, at("horse-to-get", filly))
    assert gets.exists()


def test_a_tick_sent_twice_is_one(keeper: Client, filly: Horse) -> None:
    for _ in range(2):
        keeper.post(at("got", filly), {"kind": "bit", "part": ""})
    assert Bought.objects.count() == 1


@pytest.mark.parametrize(
    ("kind", "part"), [("hat", ""), ("bit", "hat"), ("", ""), ("bit\x00", "")]
)
def test_a_tick_of_nothing_known_is_refused_with_a_sentence(
    keeper: Client, filly: Horse, kind: str, part: str
) -> None:
    said = keeper.post(at("got", filly), {"kind": kind, "part": part})
    assert said.status_code == 422
    assert "Nothing was ticked off" in said.content.decode()
    assert not Bought.objects.exists()


def test_a_tick_of_another_yards_horse_is_not_found(
    keeper: Client, filly: Horse, stranger: Client
) -> None:
    keeper.post(at("got", filly), {"kind": "bit", "part": ""})
    row = Bought.objects.get()
    assert stranger.post(at("not-got", filly, pk=row.pk)).status_code == 404
    assert Bought.objects.exists()


def test_an_item_is_begun_with_the_size_to_look_for_and_saved_as_sent(
    keeper: Client, filly: Horse
) -> None:
    page = keeper.get(at("horse-to-get", filly)).content.decode()
    begun = unescape(page.partition("tack/new/?kind=bit&amp;")[2].partition('"')[0])
    assert begun.startswith("mouthpiece-length=")
    url = reverse("fitting:add-tack", args=[filly.yard.slug]) + f"?kind=bit&{begun}"
    form = keeper.get(url).content.decode()
    size = begun.partition("=")[2].replace("+", " ")
    assert f'value="{size}"' in form
    assert "measure what you got" in form
    sent = {"name": "New eggbutt", "mouthpiece-length": size}
    assert keeper.post(url, sent).status_code == 302
    kept = Part.objects.get(tack__name="New eggbutt")
    assert kept.length_mm == float(size.removesuffix(" mm"))


def test_a_good_item_put_up_ends_the_want(keeper: Client, filly: Horse) -> None:
    make_bit(filly.yard, length_mm=119)
    replan(filly.yard, TODAY)
    assert "A bit" not in text_of(keeper, at("horse-to-get", filly))


def test_the_cards_say_sizes_what_to_look_at_and_the_caution(
    viewer: Client, filly: Horse
) -> None:
    page = text_of(viewer, at("shop-cards", filly))
    assert "A bit for Tansy" in page
    assert "Length between the cheeks" in page
    assert "Measure it in the shop" in page
    assert "Cracked or dry" in page
    assert "common practice, no published source" in page
    assert "Have the mouth looked at by a vet" in page


def test_a_horse_that_wants_nothing_has_an_empty_list_and_no_cards(
    keeper: Client, yard: Yard
) -> None:
    grown = make_horse(yard, name="Fennel", grown=True)
    replan(yard, TODAY)
    assert "Nothing to get" in text_of(keeper, at("horse-to-get", grown))
    assert "Nothing to get" in text_of(keeper, at("shop-cards", grown))
    assert "Nothing to get" in text_of(keeper, of_yard(yard))


def test_what_is_not_known_yet_is_never_told_as_nothing_to_get(
    keeper: Client, yard: Yard
) -> None:
    born = TODAY - timedelta(days=950)
    horse = make_horse(yard, name="Bramling", foaled=born.isoformat())
    lately = TODAY - timedelta(days=3)
    StageRecord.objects.bulk_create(
        StageRecord(horse=horse, stage=key, state="established", on=lately)
        for key in BEFORE_THE_BRIDLE
    )
    replan(yard, TODAY)
    for address in (at("horse-to-get", horse), of_yard(yard)):
        said = text_of(keeper, address)
        assert "To find out first" in said
        assert "Nothing to get by what is known." in said
        assert "as soon as nothing here is good for it" not in said


def test_a_yard_without_a_youngster_says_what_comes_first(
    keeper: Client, yard: Yard
) -> None:
    said = text_of(keeper, of_yard(yard))
    assert "Nothing to say yet" in said
    assert "once a youngster is planned for" in said


def test_two_youngsters_who_want_one_item_are_both_named(
    keeper: Client, yard: Yard, filly: Horse
) -> None:
    other = make_horse(yard, name="Bran", foaled=str(TODAY - timedelta(days=950)))
    lately = TODAY - timedelta(days=3)
    make_measurement(other, "mouth_width", lately, 112, method="gauge")
    make_measurement(other, "head_length", lately, 900, method="tape")
    StageRecord.objects.bulk_create(
        StageRecord(horse=other, stage=key, state="established", on=lately)
        for key in BEFORE_THE_BRIDLE
    )
    make_bit(yard, name="Lent snaffle", length_mm=117)
    yard.tack.update(belongs_to="Old Marl")
    replan(yard, TODAY)
    said = "want Lent snaffle in the same weeks:"
    for address in (at("horse-to-get", filly), at("horse-to-get", other)):
        page = text_of(keeper, address)
        assert f"Bran and Tansy {said}" in page or f"Tansy and Bran {said}" in page
    assert text_of(keeper, of_yard(yard)).count(said) == 2  # once for each


def test_an_item_on_loan_that_goes_back_too_soon_is_said_to(
    keeper: Client, yard: Yard, filly: Horse
) -> None:
    bit = make_bit(yard, name="Lent snaffle", length_mm=117)
    yard.tack.update(belongs_to="Old Marl")
    back = TODAY + timedelta(days=2)
    Loan.objects.create(tack=bit, to=filly, back_by=back)
    replan(yard, TODAY)
    said = f"Lent snaffle is good then, but goes back by {back.day} {back:%b %Y}: ask"
    assert said in text_of(keeper, at("horse-to-get", filly))
    (outlook,) = look_at_yard(yard_facts(yard), TODAY)
    (entry,) = (one for one in outlook.entries if "get/bit" in one.key)
    assert said in entry.text
