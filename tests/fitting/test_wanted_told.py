"""What is wanted, told: sizes in the yard's unit, rounded so that they are good."""

from __future__ import annotations

from datetime import timedelta

from fitting.readings import Units
from fitting.units.showing import THIN_SPACE
from fitting.wanted import Offer, Range, Wants
from fitting.wanted.telling import (
    CHECKS,
    keep_words,
    offer_words,
    range_words,
    size_lines,
)
from tests.fitting.making_fit import ON
from tests.fitting.making_wanted import growing, need, wanted_for, wearer_of


def told(wants: Wants) -> dict[str, str]:
    lines = size_lines(wants.wanted[0], Units(length="mm"))
    return {name: size.replace(THIN_SPACE, " ") for name, size in lines}


def test_millimetres_beside_inches_are_rounded_into_the_range() -> None:
    said = range_words(Range(from_mm=120.4, to_mm=127.8), Units(length="in"))
    assert said.endswith("(121 to 127\u2009mm)")
    exact = range_words(Range(from_mm=121.02, to_mm=127.98), Units(length="in"))
    assert exact.endswith("(121 to 128\u2009mm)")


def test_a_bit_is_told_by_length_thickness_and_ring() -> None:
    wants = wanted_for(wearer_of(growing({"mouth_width": 118.0})), need("bit"))
    lines = told(wants)
    assert lines == {
        "Length between the cheeks": "121 to 128 mm",
        "The same with loose rings": "124 to 131 mm",
        "Thickness beside the ring": "14 to 17 mm",
        "Ring, inside": "about 65 mm (ours)",
    }


def test_a_bits_ring_is_told_in_inches_too_and_its_thickness_as_callipers_do() -> None:
    wants = wanted_for(wearer_of(growing({"mouth_width": 118.0})), need("bit"))
    lines = dict(size_lines(wants.wanted[0], Units(length="in")))
    assert lines["Ring, inside"] == f"about 2½{THIN_SPACE}in (65 mm), ours"
    assert lines["Thickness beside the ring"] == f"14 to 17{THIN_SPACE}mm"


def test_a_roller_is_told_by_both_its_ends() -> None:
    wants = wanted_for(wearer_of(growing({"heart_girth": 1700.0})), need("roller"))
    assert wants.wanted[0].good.to_mm is None  # it is never too long let right out
    lines = told(wants)
    assert lines["Let right out, with its pad"] == "1780 mm or more"
    assert lines["Taken right up"] == "no more than 1700 mm"


def test_a_saddle_is_told_by_the_longest_panel() -> None:
    wants = wanted_for(wearer_of(growing({"back_length": 460.0})), need("saddle"))
    assert told(wants) == {"Panel, front edge to back edge": "up to 460 mm"}


def test_what_is_outgrown_is_borrowed_and_what_lasts_is_bought_to_keep() -> None:
    def said(kind: str, grown_mm: float) -> str:
        measure, mm = {
            "bit": ("mouth_width", 118.0),
            "bridle": ("head_length", 1040.0),
        }[kind]
        growth = growing({measure: mm}, ends={measure: grown_mm})
        return keep_words(wanted_for(wearer_of(growth), need(kind)).wanted[0])

    assert said("bit", 121.0).startswith("Buy to keep: less than one size of growth")
    assert said("bit", 130.0) == "Borrow it, or buy it used: it will be outgrown."
    assert said("bridle", 1060.0).startswith("Buy to keep: less than two holes of")
    assert said("bridle", 1140.0) == (
        "Borrow it, or buy it used, unless it is good at its size when grown too."
    )


def test_an_offer_says_whose_on_which_hole_and_until_when() -> None:
    until = ON + timedelta(days=30)
    offer = Offer(item="Hazel bridle", owner="Old Fennel", hole=4, until=until)
    said = "Hazel bridle from Old Fennel, on hole 4: good until about 1 Apr 2026."
    assert offer_words(offer) == said


def test_every_kind_that_can_be_wanted_says_what_to_look_at_on_used_tack() -> None:
    kinds = {
        "bit", "bridle", "headcollar", "cavesson", "roller", "girth", "saddle", "rug",
    }  # fmt: skip
    assert set(CHECKS) == kinds
    assert any("saddle fitter" in check for check in CHECKS["saddle"])
    assert any("Elastic" in check for check in CHECKS["girth"])
