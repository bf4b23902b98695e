from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest

from starting.diary import (
    BACKING,
    FORECAST,
    NEVER_PERMISSION,
    NOTEBOOK,
    Entry,
    Step,
    Task,
    care_entry,
    get_entry,
    measure_entry,
    measures_said,
    stage_opens_entry,
    stage_starts_entry,
    try_on_entry,
)

ROLLER = Step(key="roller", name="First roller", work="line", people=2)


def make_task(**only_what_matters: object) -> Task:
    task = Task(horse="Pennyroyal", horse_key="pennyroyal", on=date(2025, 12, 11))
    return replace(task, **only_what_matters)  # type: ignore[arg-type]


def test_a_measuring_entry_says_whom_and_what() -> None:
    entry = measure_entry(make_task(), "mouth-4", ("mouth", "girth"))
    assert entry.title == "Pennyroyal: measure mouth and girth"
    assert entry.key == "pennyroyal/measure/mouth-4"


def test_a_title_has_room_for_two_measures_and_the_text_for_all() -> None:
    entry = measure_entry(make_task(), "mouth-4", ("mouth", "girth", "brow", "weight"))
    assert entry.title == "Pennyroyal: measure mouth and 3 more"
    assert measures_said(entry) == "mouth, girth, brow, weight"


def test_what_to_bring_stands_after_the_next_step() -> None:
    task = make_task(because="Due.", bring=("tape", "a rope"), forecast=True)
    lines = care_entry(task, "teeth", "teeth").text.split("\n")
    assert lines[2:4] == ["Bring: tape; a rope.", FORECAST]
    assert "Bring" not in care_entry(make_task(), "teeth", "teeth").text


@pytest.mark.parametrize(
    ("entry", "title"),
    [
        (try_on_entry(make_task(), "i7", "bridle"), "Pennyroyal: try on bridle"),
        (care_entry(make_task(), "teeth", "teeth"), "Pennyroyal: teeth"),
        (get_entry(make_task(), "girth", "a girth"), "Pennyroyal: get a girth"),
        (
            stage_opens_entry(make_task(), ROLLER),
            "Pennyroyal: gates open for First roller",
        ),
        (
            stage_starts_entry(make_task(), ROLLER),
            "Pennyroyal: starts First roller",
        ),
    ],
)
def test_an_entry_has_a_plain_title_and_ends_with_the_caution(
    entry: Entry, title: str
) -> None:
    assert entry.title == title
    assert entry.text.endswith(NOTEBOOK)
    assert entry.key.split("/")[:2] == ["pennyroyal", entry.kind]


def test_the_reason_comes_first_and_the_next_step_second() -> None:
    task = make_task(because="The mouth stands to 12 December.", cautions=("Ask.",))
    text = care_entry(replace(task, forecast=True), "teeth", "teeth").text
    assert text.split("\n") == [
        "The mouth stands to 12 December.",
        "Next: book the visit, and write in what was found.",
        FORECAST,
        "Ask.",
        NOTEBOOK,
    ]


@pytest.mark.parametrize("build", [stage_starts_entry, stage_opens_entry])
def test_a_line_step_says_who_must_be_there_and_what_must_be_worn(
    build: Callable[[Task, Step], Entry],
) -> None:
    lines = build(make_task(), ROLLER).text.split("\n")
    assert (
        "Who must be there: two capable adults, one at the horse's head or the gate."
        in lines
    )
    assert "What must be worn: hat to a current standard, gloves, boots." in lines
    assert NEVER_PERMISSION in lines


@pytest.mark.parametrize("build", [stage_starts_entry, stage_opens_entry])
def test_a_mounted_step_is_never_alone_nor_without_a_body_protector(
    build: Callable[[Task, Step], Entry],
) -> None:
    step = Step(key="astride", name="Astride, standing", work="mounted", people=1)
    text = build(make_task(), step).text
    assert "Who must be there: two capable adults" in text
    assert "body protector, neck strap on the horse." in text
    assert BACKING in text


def test_a_step_says_what_is_better_what_is_worn_and_what_is_asked_on_the_day() -> None:
    step = Step(
        key="big_circle",
        name="Lungeing in the cavesson",
        work="line",
        people_better=2,
        worn=("hat", "gloves"),
        on_the_day=("fenced, safe ground", "calm day"),
    )
    lines = stage_starts_entry(make_task(), step).text.split("\n")
    assert "Who must be there: one capable adult; two are better." in lines
    assert "What must be worn: hat, gloves." in lines
    assert "Ask on the day: fenced, safe ground; calm day." in lines


def test_a_step_without_handling_asks_for_nobody() -> None:
    step = Step(key="turned_away", name="Turned away", work="none")
    text = stage_starts_entry(make_task(), step).text
    assert "Who must be there" not in text
    assert NEVER_PERMISSION in text
