"""The units of a yard's file: a size means the same in any of them."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitting.models import Horse, Measurement, Part, Yard
from fitting.reads.facts import edges_for
from starting.models import Person, Plan
from starting.yardfile import dump_yard, load_yard
from tests.starting.rich_yard import ON, Table, load, rich, small

FILES = st.fixed_dictionaries(
    {
        "height": st.sampled_from(["12.3 hh", "130 cm", "51 1/4 in", "1301.5 mm"]),
        "length": st.sampled_from(["4 1/8 in", "105 mm", "10.5 cm"]),
        "weight": st.sampled_from(["257 kg", "566 lb", "256.5 kg"]),
        "units": st.fixed_dictionaries(
            {
                "height": st.sampled_from(["hands", "cm"]),
                "length": st.sampled_from(["in", "cm", "mm"]),
                "weight": st.sampled_from(["kg", "lb"]),
            }
        ),
    }
)


def sizes_of(yard: Yard) -> list[Any]:
    taken = Measurement.objects.of(yard).order_by("measure")
    part = Part.objects.get(tack__yard=yard)
    horse = yard.horses.get()
    return [
        *(m.values for m in taken),
        part.length_mm,
        horse.dam_height_mm,
        yard.people.get().weight_kg,
        horse.clearances["bit"]["mm"],
    ]


@settings(  # each file replaces the one before: nothing is left to reset
    max_examples=8,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(said=FILES)
def test_the_yards_units_never_change_a_size_that_has_its_own(
    db: None, said: Table
) -> None:
    plain = {"height": "cm", "length": "mm", "weight": "kg"}
    yard = load(sized(said, plain), replace=True)
    wanted = sizes_of(yard)
    yard = load(sized(said, said["units"]), replace=True)
    assert sizes_of(yard) == wanted
    again = load_yard(dump_yard(yard), ON, replace=True)
    assert sizes_of(again) == wanted


def sized(said: Table, units: Table) -> Table:
    table = small(
        yard={"name": "Fallow Bottom", "units": units},
        people=[{"name": "Maud", "weight": said["weight"]}],
        tack=[
            {
                "name": "Bit",
                "kind": "bit",
                "parts": [{"part": "mouthpiece", "length": said["length"]}],
            }
        ],
    )
    kinds = (
        ("withers_height", "stick", "height"),
        ("mouth_width", "dowel", "length"),
        ("weight", "weigh_tape", "weight"),
    )
    table["horses"][0] |= {
        "dam_height": said["height"],
        "clearances": {"bit": said["length"]},
        "measurements": [
            {
                "measure": key,
                "on": "2026-11-01",
                "readings": [said[what]],
                "method": how,
            }
            for key, how, what in kinds
        ],
    }
    return table


def test_a_bare_number_means_the_yards_unit(db: None) -> None:
    said = {"height": "130", "length": "105", "weight": "500"}
    yard = load(sized(said, {"height": "cm", "length": "mm", "weight": "lb"}))
    assert sizes_of(yard)[-4:] == [105.0, 1300.0, 226.796185, 105.0]
    dumped = json.loads(dump_yard(yard))
    assert dumped["horses"][0]["dam_height"] == "130 cm"
    assert dumped["people"][0]["weight"] == "500 lb"


SIZES = ("_mm", "_kg")


def every_size() -> list[Any]:
    """Return every size of every row, by model; readings and rooms too."""
    found = []
    for model in (Horse, Measurement, Part, Person, Plan):
        for row in model._default_manager.order_by("pk"):
            found += [
                (model.__name__, str(row), name, value)
                for name, value in vars(row).items()
                if name.endswith(SIZES)
            ]
    found += [("readings", str(m), "", m.values) for m in Measurement.objects.all()]
    found += [
        ("clearances", str(h), kind, room["mm"])
        for h in Horse.objects.all()
        for kind, room in h.clearances.items()
        if kind != "edges"
    ]
    found += [("edges", str(h), "", edges_for(h).changed) for h in Horse.objects.all()]
    return sorted(found, key=str)


def test_a_dump_means_the_same_whatever_its_yards_units(db: None) -> None:
    dump = json.loads(dump_yard(load(rich())))
    wanted = every_size()
    assert len([size for size in wanted if size[-1] is not None]) > 20
    dump["yard"]["units"] = {"height": "cm", "length": "mm", "weight": "lb"}
    load(dump, replace=True)
    assert every_size() == wanted
