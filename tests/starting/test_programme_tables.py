"""Changes made in a programme, found again, and its order: every circle is seen."""

from __future__ import annotations

import tomllib
from itertools import permutations
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from starting.programme import read_programme, shipped, shipped_keys, shipped_table
from starting.programme.order import below, circle_in, in_order, out_of_reach
from starting.programme.tables import ChangeError, changed, changes_of, toml_text

KEYS = [stage.key for stage in shipped().stages]
NAMES = "abcdef"
GRAPHS = st.dictionaries(
    st.sampled_from(NAMES),
    st.lists(st.sampled_from(NAMES), unique=True, max_size=3),
    max_size=len(NAMES),
).map(lambda waits: {k: [n for n in names if n in waits] for k, names in waits.items()})

# What a yard file may change, in the shape that is promised.
AT_FOOT = (
    "company", "first_headcollar", "feet", "led_with_dam", "ramp_with_dam", "weaned",
)  # fmt: skip
AS_WRITTEN: dict[str, dict[str, Any]] = {
    "late_starter": {
        "stages": {
            **{key: {"enabled": False} for key in AT_FOOT},
            "handling_block": {"prerequisites": []},
        },
        "settings": {
            "settle_days": 14,
            "intake_stages": ["handling_block", "tied_and_groomed", "led_out"],
            "intake_clean_days": 2,
            "good_session_factor_from_48_months": 1.5,
            "trainer_gate": ["ready_check", "person_above"],
        },
    },
    "restart": {
        "stages": {
            **{key: {"enabled": False} for key in (*AT_FOOT, "grow_at_grass")},
            "handling_block": {"prerequisites": []},
        },
        "settings": {
            "start_at": "body_check",
            "one_good_each": ["yields_in_hand", "bridle", "led_in_bit", "roller"],
            "two_good_below_failure": True,
            "no_rider_days_after_fall": 14,
        },
    },
    "late_big_heavy": {
        "stages": {"big_circle": {"enabled": False}, "side_reins": {"enabled": False}},
        "settings": {"growth_pause_croup_cm": 6, "first_eight_rides_max_minutes": 20},
    },
    "small_pony": {"settings": {"may_end_at": "long_reins_out"}},
}  # fmt: skip


def brute_circle(waits: dict[str, list[str]]) -> bool:
    """Whether any ring of steps, tried one by one, waits for each other."""
    return any(
        all(
            after in waits[before]
            for before, after in zip(ring, (*ring[1:], ring[0]), strict=True)
        )
        for size in range(1, len(waits) + 1)
        for ring in permutations(waits, size)
    )


@given(GRAPHS)
def test_every_circle_is_found_and_none_is_made_up(waits: dict[str, list[str]]) -> None:
    ring = circle_in(waits)
    assert bool(ring) == brute_circle(waits)
    for one, following in zip(ring, (*ring[1:], *ring[:1]), strict=True):
        assert following in waits[one]


@given(GRAPHS)
def test_steps_in_order_stand_after_all_they_wait_for(
    waits: dict[str, list[str]],
) -> None:
    steps = [{"key": key, "prerequisites": names} for key, names in waits.items()]
    ordered = in_order(steps)
    assert sorted(s["key"] for s in ordered) == sorted(waits)
    if not circle_in(waits):
        seen: set[str] = set()
        for step in ordered:
            assert seen.issuperset(step["prerequisites"])
            seen.add(step["key"])
        assert in_order(ordered) == ordered


@given(GRAPHS, st.sets(st.sampled_from(NAMES)))
def test_out_of_reach_is_all_that_no_order_ever_comes_to(
    waits: dict[str, list[str]], never: set[str]
) -> None:
    """Brute force: a step is reached if it, and all below it, stand in no circle."""
    lost = out_of_reach(waits, frozenset(never))
    for key in waits:
        under = below(waits, key) | {key}
        in_a_circle = any(one in below(waits, one) for one in under)
        assert (key in lost) == (in_a_circle or bool(under & never))


def test_the_shipped_order_is_left_as_it_stands() -> None:
    for key in shipped_keys():
        table = shipped_table(key)
        assert in_order(table["stage"]) == table["stage"]


@pytest.mark.parametrize("name", AS_WRITTEN)
def test_a_variant_written_in_the_promised_shape_makes_a_programme(name: str) -> None:
    table = changed(shipped_table("default"), AS_WRITTEN[name])
    made = read_programme(toml_text(table), key="default")
    assert made.stages


def test_the_written_late_starter_asks_what_its_settings_say() -> None:
    table = changed(shipped_table("default"), AS_WRITTEN["late_starter"])
    made = read_programme(toml_text(table), key="default")
    assert made.settle_days == 14
    assert made.more_sessions == 1.5
    assert [s.key for s in made.stages if s.clean_days == 2] == [
        "handling_block", "tied_and_groomed", "led_out",
    ]  # fmt: skip
    assert "trainer" in made.stage("person_above").gates_to_do


def test_the_written_restart_starts_at_its_check() -> None:
    table = changed(shipped_table("default"), AS_WRITTEN["restart"])
    made = read_programme(toml_text(table), key="default")
    first = made.stages[0]
    assert (first.key, first.prerequisites) == ("body_check", ())
    assert made.stage("yields_in_hand").prerequisites == ("body_check",)
    assert made.stage("mouthing").min_good_sessions == 6  # not gone over: as usual


AGES = st.integers(42, 60)
CHANGES = st.fixed_dictionaries(
    {},
    optional={
        "stages": st.dictionaries(
            st.sampled_from(KEYS),
            st.one_of(
                st.just({"enabled": False}),
                st.builds(
                    lambda low, more: {
                        "earliest_months": low,
                        "typical_months": [low, low + more],
                    },
                    AGES,
                    st.integers(0, 24),
                ),
                st.builds(lambda text: {"aim": text}, st.just("It goes.")),
                st.builds(
                    lambda keys: {"prerequisites": keys},
                    st.lists(st.sampled_from(KEYS), unique=True, max_size=2),
                ),
            ),
            max_size=4,
        ),
        "settings": st.fixed_dictionaries(
            {},
            optional={
                "settle_days": st.integers(0, 60),
                "one_good_each": st.lists(
                    st.sampled_from(["bridle", "saddle"]), unique=True
                ),
            },
        ),
    },
)


@given(st.sampled_from(shipped_keys()), CHANGES)
def test_changes_are_found_again_and_make_the_same_programme(
    key: str, changes: dict[str, Any]
) -> None:
    base = shipped_table(key)
    try:
        table = changed(base, changes)
    except ChangeError:
        return  # it changes a step that this programme has not got
    found = changes_of(base, table)
    assert changed(base, found) == table
    assert toml_text(changed(base, found)) == toml_text(table)
    assert tomllib.loads(toml_text(table)) == table
    assert changes_of(base, changed(base, found)) == found


def test_a_step_taken_out_hands_on_what_it_waited_for() -> None:
    base = shipped_table("default")
    off = {key: {"enabled": False} for key in ("mouthing", "led_in_bit")}
    table = changed(base, {"stages": off})
    made = read_programme(toml_text(table), key="default")
    assert made.stage("long_reins_on_bit").prerequisites == (
        "long_reins", "bridle", "body_check",
    )  # fmt: skip


def test_a_step_moved_after_another_stands_behind_it() -> None:
    base = shipped_table("default")
    new = {"stages": {"bridle": {"prerequisites": ["yields_in_hand", "travels"]},
                      "cloth_and_ropes": {"prerequisites": ["bridle"]}}}  # fmt: skip
    keys = [s["key"] for s in changed(base, new)["stage"]]
    assert keys.index("cloth_and_ropes") == keys.index("bridle") + 1


def test_a_step_no_longer_falls_back_to_one_that_is_not_before_it() -> None:
    base = shipped_table("default")
    new = {"stages": {"roller": {"prerequisites": ["bridle"]}}}
    made = read_programme(toml_text(changed(base, new)), key="default")
    assert shipped().falls_back_to("roller") == "cloth_and_ropes"
    assert made.falls_back_to("roller") == "bridle"


def test_a_new_first_month_leaves_the_old_first_day_behind() -> None:
    base = shipped_table("default")
    new = {"stages": {"feet": {"earliest_months": 2, "typical_months": [2, 4]}}}
    made = read_programme(toml_text(changed(base, new)), key="default")
    assert made.stage("feet").earliest_days is None


def test_a_floor_may_be_raised_and_never_lowered() -> None:
    base = shipped_table("default")
    up = {"stages": {"bridle": {"floor_months": 26}}}
    assert changed(base, up)
    with pytest.raises(ChangeError, match="never lowered"):
        changed(base, {"stages": {"bridle": {"floor_months": 23}}})
    with pytest.raises(ChangeError, match="never lowered"):
        changed(base, {"stages": {"astride": {"floor_months": 0}}})
