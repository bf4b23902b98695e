import re

import pytest

from starting.programme import (
    ProgrammeError,
    read_programme,
    shipped,
)

TWO_STEPS = """
name = "Two steps"
for_whom = "A horse made up for this test."

[[stage]]
key = "first"
name = "The first"
phase = "Only"
kind = "sessions"
aim = "It stands."
earliest_months = 6
typical_months = [6, 8.5]
prerequisites = []
gates_to_do = ["fresh:withers_height", "fit:headcollar"]
gates_on_the_day = ["ground"]
min_good_sessions = 2
typical_sessions = [2, 5]
minutes = [5, 10]
days_a_week = [1, 2]
days_in_a_row = 1
refresh_after_days = 30
people = 1
checks = [{ key = "stands", text = "Stands still" }]
stop_signs = [{ key = "runs", level = "end_today", text = "Runs off" }]
evidence = "Ours."

[[stage]]
key = "second"
name = "The second"
phase = "Only"
kind = "event"
aim = "It is there."
earliest_months = 9
typical_months = [9, 9]
prerequisites = ["first"]
checks = [{ key = "there", text = "Is there" }]
stop_signs = []
evidence = "Ours."
"""


def refusal(text: str) -> ProgrammeError:
    with pytest.raises(ProgrammeError) as caught:
        read_programme(text, key="tried")
    return caught.value


def swapped(old: str, new: str) -> str:
    assert TWO_STEPS.count(old) == 1, old
    return TWO_STEPS.replace(old, new)


def test_a_programme_file_becomes_its_steps_in_order() -> None:
    programme = read_programme(TWO_STEPS, key="tried")
    first, second = programme.stages
    assert (programme.key, programme.name) == ("tried", "Two steps")
    assert first.typical_months == (6.0, 8.5)
    assert first.checks[0].text == "Stands still"
    assert first.stop_signs[0].level == "end_today"
    assert first.gates_to_do == ("fresh:withers_height", "fit:headcollar")
    assert second.prerequisites == ("first",)
    assert programme.stage("second") is second


def test_the_digest_follows_the_text_to_the_letter() -> None:
    one = read_programme(TWO_STEPS, key="a")
    assert one.digest == read_programme(TWO_STEPS, key="b").digest
    assert one.digest != read_programme(TWO_STEPS + "\n", key="a").digest
    assert re.fullmatch("[0-9a-f]{64}", one.digest)


@pytest.mark.parametrize(
    ("old", "new", "where", "allowed"),
    [
        ('name = "Two steps"\n', "", "file", "a value for it"),
        ('name = "Two steps"', "name = [", "file", "TOML"),
        (
            'name = "Two steps"',
            'nmae = "Two steps"',
            "file",
            "name, for_whom, settings, stage",
        ),
        ('aim = "It stands."\n', "", "step 'first'", "a value for it"),
        ('aim = "It stands."', 'aim = " "', "step 'first', aim", "not empty"),
        ("people = 1\n", "", "step 'first'", "a value for it"),
        ("people = 1", "people = 0", "step 'first', people", "at least 1"),
        (
            "people = 1",
            "people = 2\npeople_better = 1",
            "step 'first', people_better",
            "at least people",
        ),
        ("people = 1", "people = true", "step 'first', people", "whole number"),
        ("people = 1", "poeple = 1", "step 'first'", "people_better"),
        ('kind = "event"', 'kind = "evnt"', "step 'second', kind", "check, event"),
        (
            'kind = "event"',
            'kind = "sessions"',
            "step 'second'",
            "a value for it",
        ),
        ('"fit:headcollar"', '"fit:hat"', "step 'first', gates_to_do", "fit:roller"),
        ('"ground"', '"teeth"', "step 'first', gates_on_the_day", "calm_day"),
        (
            '"fresh:withers_height"',
            '"fresh:temper"',
            "step 'first', gates_to_do",
            "fresh:mouth_width",
        ),
        (
            '"fit:headcollar"',
            '"fresh:withers_height"',
            "step 'first', gates_to_do",
            "once",
        ),
        (
            'prerequisites = ["first"]',
            'prerequisites = ["frist"]',
            "step 'second', prerequisites",
            "a step of this file",
        ),
        ("[6, 8.5]", "[8.5, 6]", "step 'first', typical_months", "smaller first"),
        ("[6, 8.5]", "[6, inf]", "step 'first', typical_months", "months from 0"),
        ("[6, 8.5]", "[6, nan]", "step 'first', typical_months", "months from 0"),
        ("[6, 8.5]", "[6]", "step 'first', typical_months", "two numbers"),
        ("[6, 8.5]", "[5, 8]", "step 'first', typical_months", "earliest_months on"),
        (
            "earliest_months = 6",
            "earliest_months = -6",
            "step 'first', earliest_months",
            "months from 0 to 600",
        ),
        (
            "earliest_months = 6",
            "earliest_months = 6\nfloor_months = 6.5",
            "step 'first', floor_months",
            "at most earliest_months",
        ),
        ("[2, 5]", "[1, 1]", "step 'first', typical_sessions", "min_good_sessions"),
        (
            "min_good_sessions = 2",
            "min_good_sessions = 0",
            "step 'first', min_good_sessions",
            "at least 1",
        ),
        (
            'kind = "event"',
            'kind = "event"\nmin_good_sessions = 1',
            "step 'second', min_good_sessions",
            "none but",
        ),
        ("[1, 2]", "[1, 8]", "step 'first', days_a_week", "1 to 7"),
        (
            "days_in_a_row = 1",
            "days_in_a_row = 0",
            "step 'first', days_in_a_row",
            "at least 1",
        ),
        (
            'level = "end_today"',
            'level = "run"',
            "step 'first', stop_signs 1, level",
            "end_today, go_back, ring_vet",
        ),
        ('key = "second"', 'key = "first"', "step 'first', key", "a key once"),
        ('key = "second"', 'key = "Second"', "step 'Second', key", "small letters"),
        (
            '{ key = "there", text = "Is there" }',
            '{ key = "a", text = "A" }, { key = "a", text = "B" }',
            "step 'second', checks",
            "a key once",
        ),
        (
            '[{ key = "there", text = "Is there" }]',
            "[]",
            "step 'second', checks",
            "at least one check",
        ),
        ('[{ key = "there", text = "Is there" }]', "[3]", "step 'second'", "a table"),
        (
            'prerequisites = ["first"]',
            'prerequisites = ["first"]\nprerequisites_once = ["second"]',
            "step 'second', prerequisites_once",
            "in prerequisites too",
        ),
        (
            'prerequisites = ["first"]',
            'prerequisites = ["first"]\nfalls_back_to = "second"',
            "step 'second', falls_back_to",
            "further up",
        ),
    ],
)
def test_a_wrong_file_says_where_and_what_is_allowed(
    old: str, new: str, where: str, allowed: str
) -> None:
    error = refusal(swapped(old, new))
    assert error.where.startswith(where)
    assert allowed in error.allowed
    assert error.where in str(error)
    assert error.allowed in str(error)


def test_steps_that_wait_for_each_other_are_refused_by_name() -> None:
    error = refusal(swapped("prerequisites = []", 'prerequisites = ["second"]'))
    assert "do not wait for each other" in error.allowed
    assert "first needs second" in str(error) or "second needs first" in str(error)


def test_a_step_that_stands_before_its_prerequisite_is_refused() -> None:
    head, first, second = TWO_STEPS.split("[[stage]]")
    error = refusal("[[stage]]".join((head, second, first)))
    assert error.where == "step 'second', prerequisites"


def test_a_file_without_steps_is_refused() -> None:
    assert refusal('name = "A"\nfor_whom = "B"\nstage = []').where == "file, stage"


def test_an_unknown_step_is_a_key_error() -> None:
    with pytest.raises(KeyError, match="third"):
        read_programme(TWO_STEPS, key="tried").stage("third")


def test_the_shipped_programme_is_read_once() -> None:
    assert shipped() is shipped()


@pytest.mark.parametrize("key", ["none", "../default", ""])
def test_a_programme_that_is_not_shipped_is_refused(key: str) -> None:
    with pytest.raises(ProgrammeError, match="default"):
        shipped(key)
