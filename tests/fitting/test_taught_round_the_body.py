"""Try-ons of rollers, girths, saddles and rugs become bounds on the body."""

from __future__ import annotations

import pytest

from fitting.body import Taken
from fitting.fit import Part, Tack
from fitting.growth import Bound, fit_growth
from fitting.taught import TriedOn, bounds_of
from fitting.tryons import Seen, Tried, TryOn
from tests.fitting.making_fit import ON, YOUNG

ROLLER = Tack(
    name="Web roller",
    kind="roller",
    parts=(Part(part="strap", shortest_mm=1500, longest_mm=1700, holes=5),),
)
GIRTH = Tack(
    name="Cord girth", kind="girth", parts=(Part(part="strap", length_mm=1200),)
)
SADDLE = Tack(
    name="Brown saddle", kind="saddle", parts=(Part(part="panel", length_mm=420),)
)
RUG = Tack(name="Rain rug", kind="rug", parts=(Part(part="back_seam", length_mm=1600),))


def taught(item: Tack, seen: Seen, hole: int | None = None) -> tuple[Bound, ...]:
    (part,) = item.parts
    tried = Tried(part=part.part, seen=seen, hole=hole)
    tryon = TryOn(on=ON, item=item.name, how="worn", parts=(tried,))
    tack = (ROLLER, GIRTH, SADDLE, RUG)
    return bounds_of(YOUNG, TriedOn(tryons=(tryon,), tack=tack))


@pytest.mark.parametrize(
    ("item", "seen", "hole", "bound"),
    [
        (ROLLER, "too_short", None, ("heart_girth", "at_least", 1700, 25)),
        (ROLLER, "too_long", None, ("heart_girth", "at_most", 1500, 25)),
        (ROLLER, "too_short", 3, ("heart_girth", "at_least", 1600, 25)),
        (ROLLER, "sits_right", 3, ("heart_girth", "about", 1600, 25)),
        (GIRTH, "sits_right", None, ("girth_path", "about", 1200, 50.8)),
        (GIRTH, "too_short", None, ("girth_path", "at_least", 1250.8, 50.8)),
        (SADDLE, "too_long", None, ("back_length", "at_most", 420, 15)),
        (SADDLE, "sits_right", None, ("back_length", "at_least", 420, 15)),
        (RUG, "too_short", None, ("rug_length", "at_least", 1606.35, 41.275)),
        (RUG, "too_long", None, ("rug_length", "at_most", 1523.8, 41.275)),
    ],
)
def test_a_word_on_what_goes_round_the_body_says_how_large_it_is(
    item: Tack, seen: Seen, hole: int | None, bound: tuple[str, str, float, float]
) -> None:
    (found,) = taught(item, seen, hole)
    measure, kind, value, sigma = bound
    assert (found.measure, found.kind) == (measure, kind)
    assert (found.value, found.sigma) == pytest.approx((value, sigma))


@pytest.mark.parametrize(
    ("item", "seen"),
    [
        (ROLLER, "sits_right"),  # on which hole is not said
        (ROLLER, "rubs"),
        (SADDLE, "too_short"),  # for the rider, that is
        (SADDLE, "wrong_place"),
    ],
)
def test_a_word_that_says_nothing_of_size_teaches_nothing(
    item: Tack, seen: Seen
) -> None:
    assert taught(item, seen) == ()


def test_a_roller_too_short_let_right_out_makes_the_girth_larger() -> None:
    girth = Taken(measure="heart_girth", on=ON, readings=(1650.0,), method="tape")
    before, after = (
        fit_growth(YOUNG, [girth], bounds).at("heart_girth", ON)
        for bounds in ((), taught(ROLLER, "too_short"))
    )
    assert before is not None
    assert after is not None
    assert after.quantile(0.5) > before.quantile(0.5) + 5
