"""What may hurt stands with its caution on every page that tells how tack sits."""

from __future__ import annotations

from datetime import timedelta
from html import unescape

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from django.utils.html import strip_tags

from fitting.fit.bits import FIRST_BIT, MOUTH
from fitting.fit.kind_cautions import BRIEF_BIT, BRIEF_NOSEBAND, BRIEF_SADDLE
from fitting.fit.nosebands import NOSEBAND
from fitting.fit.saddles import SADDLE
from fitting.models import Horse, Tack, TackSet, TryOn, Yard
from fitting.who_fits import By
from starting.models import StageRecord
from starting.writes.replan import replan
from tests.make import make_bit, make_horse, make_measurement
from tests.starting.making_outlook import BEFORE_THE_BRIDLE

pytestmark = pytest.mark.django_db
TODAY = timezone.localdate()  # the pages go by today
ON = TODAY - timedelta(days=3)
SIZES = {
    "mouth_width": (112, "gauge"),
    "head_length": (900, "tape"),
    "nose_round": (540, "tape"),
    "back_length": (800, "tape"),
}
CAUTIONS = {
    "bit": (FIRST_BIT, MOUTH),
    "bridle": (NOSEBAND,),
    "saddle": (SADDLE,),
    "set": (FIRST_BIT, MOUTH, NOSEBAND),
}
BRIEFLY = {  # in a list of many answers
    "bit": (BRIEF_BIT,),
    "bridle": (BRIEF_NOSEBAND,),
    "saddle": (BRIEF_SADDLE,),
    "set": (BRIEF_BIT, BRIEF_NOSEBAND),
}
KINDS = tuple(CAUTIONS)
ORDERS: tuple[By, ...] = ("kind", "item", "horse", "until")


@pytest.fixture
def tansy(yard: Yard) -> Horse:
    """A filly of 31 months, measured this week, with tack to choose from."""
    born = TODAY - timedelta(days=950)
    horse = make_horse(yard, name="Tansy", foaled=born.isoformat())
    for measure, (mm, method) in SIZES.items():
        make_measurement(horse, measure, ON, mm, method=method)
    return horse


def hang(yard: Yard, kind: str) -> Tack | TackSet:
    """Hang one item of a kind, or a set of a bridle with its bit, and plan."""
    thing = _hang(yard, kind)
    replan(yard, TODAY)
    return thing


def _hang(yard: Yard, kind: str) -> Tack | TackSet:
    if kind == "bit":
        return make_bit(yard, name="Eggbutt", length_mm=117)
    if kind == "saddle":
        row = Tack.objects.create(yard=yard, key="old", name="Old saddle", kind=kind)
        row.parts.create(part="panel", length_mm=430)
        return row
    bridle = Tack.objects.create(yard=yard, key="brown", name="Brown", kind="bridle")
    bridle.parts.create(part="headpiece", length_mm=560, holes=7, spacing_mm=16)
    bridle.parts.create(part="cheekpieces", length_mm=180)
    bridle.parts.create(part="noseband", shortest_mm=560, longest_mm=640, holes=5)
    if kind == "bridle":
        return bridle
    made = TackSet.objects.create(yard=yard, key="first", name="First bridle")
    for slot in ("headpiece", "cheekpieces", "noseband"):
        made.parts.create(slot=slot, tack=bridle)
    made.parts.create(slot="bit", tack=make_bit(yard, name="Eggbutt", length_mm=117))
    return made


def asked(thing: Tack | TackSet) -> str:
    return f"{'set' if isinstance(thing, TackSet) else 'item'}={thing.key}"


def stands(client: Client, address: str, kind: str) -> None:
    """Assert that the page has the cautions of a kind, each once."""
    answer = client.get(address)
    assert answer.status_code == 200
    page = " ".join(unescape(strip_tags(answer.content.decode())).split())
    for caution in CAUTIONS[kind]:
        assert page.count(caution) == 1, (address, caution)


@pytest.mark.parametrize("kind", KINDS)
def test_the_page_of_an_item_or_a_set_has_its_cautions(
    viewer: Client, tansy: Horse, kind: str
) -> None:
    stands(viewer, hang(tansy.yard, kind).get_absolute_url(), kind)


@pytest.mark.parametrize("kind", KINDS)
def test_does_it_fit_has_its_cautions(viewer: Client, tansy: Horse, kind: str) -> None:
    thing = hang(tansy.yard, kind)
    page = reverse("fitting:does-it-fit", args=[tansy.yard.slug])
    stands(viewer, f"{page}?horse={tansy.key}&{asked(thing)}", kind)
    later = (TODAY + timedelta(days=90)).isoformat()
    stands(viewer, f"{page}?horse={tansy.key}&{asked(thing)}&day={later}", kind)


@pytest.mark.parametrize("kind", KINDS)
def test_the_choice_of_an_item_tells_answers_with_their_cautions(
    viewer: Client, tansy: Horse, kind: str
) -> None:
    hang(tansy.yard, kind)
    page = reverse("fitting:does-it-fit", args=[tansy.yard.slug])
    answer = viewer.get(f"{page}?horse={tansy.key}").content.decode()
    for caution in BRIEFLY[kind]:
        assert caution in unescape(answer)


@pytest.mark.parametrize("kind", KINDS)
def test_one_item_on_one_horse_has_its_cautions(
    viewer: Client, tansy: Horse, kind: str
) -> None:
    thing = hang(tansy.yard, kind)
    name = "set-on" if kind == "set" else "item-on"
    there = reverse(f"fitting:{name}", args=[tansy.yard.slug, tansy.key, thing.key])
    stands(viewer, there, kind)


@pytest.mark.parametrize("kind", KINDS)
def test_a_try_on_has_its_cautions_planned_or_not(
    helper: Client, tansy: Horse, kind: str
) -> None:
    thing = hang(tansy.yard, kind)
    page = reverse("fitting:try-on", args=[tansy.yard.slug, tansy.key])
    stands(helper, f"{page}?{asked(thing)}", kind)
    new = make_horse(tansy.yard, name="Not planned yet", plan=False)
    page = reverse("fitting:try-on", args=[tansy.yard.slug, new.key])
    stands(helper, f"{page}?{asked(thing)}", kind)
    named = {"made_up" if kind == "set" else "tack": thing}
    row = TryOn.objects.create(horse=new, on=ON, how="held", **named)
    again = reverse("fitting:edit-tryon", args=[tansy.yard.slug, new.key, row.pk])
    stands(helper, again, kind)


@pytest.mark.parametrize("by", ORDERS)
@pytest.mark.parametrize("kind", KINDS)
def test_who_fits_what_has_its_cautions_in_every_order(
    viewer: Client, tansy: Horse, kind: str, by: By
) -> None:
    hang(tansy.yard, kind)
    page = reverse("fitting:who-fits", args=[tansy.yard.slug])
    answer = unescape(viewer.get(f"{page}?by={by}").content.decode())
    later = (TODAY + timedelta(days=90)).isoformat()
    ahead = unescape(viewer.get(f"{page}?by={by}&day={later}").content.decode())
    for caution in BRIEFLY[kind]:
        assert caution in answer
        assert caution in ahead


def test_what_is_not_told_has_no_caution(viewer: Client, tansy: Horse) -> None:
    hang(tansy.yard, "saddle")
    for name in ("who-fits", "tack-room"):
        page = reverse(f"fitting:{name}", args=[tansy.yard.slug])
        answer = unescape(viewer.get(page).content.decode())
        assert BRIEF_SADDLE in answer
        assert BRIEF_NOSEBAND not in answer
        assert BRIEF_BIT not in answer


@pytest.mark.parametrize("kind", KINDS)
def test_the_tack_room_and_a_horses_tack_have_their_cautions(
    viewer: Client, tansy: Horse, kind: str
) -> None:
    hang(tansy.yard, kind)
    pages = (
        (reverse("fitting:tack-room", args=[tansy.yard.slug]), BRIEFLY),
        (reverse("fitting:horse-tack", args=[tansy.yard.slug, tansy.key]), CAUTIONS),
    )
    for page, cautions in pages:
        answer = unescape(viewer.get(page).content.decode())
        for caution in cautions[kind]:
            assert caution in answer


def test_the_best_bridle_has_the_cautions_of_its_noseband_and_its_bit(
    viewer: Client, tansy: Horse
) -> None:
    hang(tansy.yard, "set")
    there = reverse("fitting:mix-bridle", args=[tansy.yard.slug])
    stands(viewer, f"{there}?horse={tansy.key}&on={TODAY}&bit=yes", "set")


@pytest.mark.parametrize("kind", ["bit", "bridle", "saddle"])
def test_what_to_get_has_its_cautions_on_the_list_and_on_the_card(
    viewer: Client, tansy: Horse, kind: str
) -> None:
    done = [*BEFORE_THE_BRIDLE, "bridle_no_bit", "bridle_bit", "roller", "long_reins"]
    for stage in done if kind == "saddle" else BEFORE_THE_BRIDLE:
        StageRecord.objects.create(horse=tansy, stage=stage, state="established", on=ON)
    replan(tansy.yard, TODAY)
    whole = reverse("starting:to-get", args=[tansy.yard.slug])
    stands(viewer, whole, kind)
    of_horse = [tansy.yard.slug, tansy.key]
    stands(viewer, reverse("starting:horse-to-get", args=of_horse), kind)
    stands(viewer, reverse("starting:shop-cards", args=of_horse), kind)
