"""What moved, in words: how far, from which day, and why."""

from __future__ import annotations

import pytest

from starting.moves import Mark, Move, moves
from starting.moves.saying import (
    alike,
    led,
    loudest,
    run_names,
    run_sentence,
    run_title,
    sentence,
    text,
    title,
)
from tests.starting.making_moves import item, marks, step


def only(was: Mark | None, now: Mark | None) -> Move:
    beside = step("feet")
    before = marks(beside, *([was] if was else []))
    (found,) = moves(before, marks(beside, *([now] if now else [])))
    return found


def test_a_step_says_both_days_and_the_reason() -> None:
    now = step(after=24, because="Waits for Feet, likely done on 12 Dec 2026.")
    found = only(step(after=10), now)
    assert title(found) == "14 days later"
    assert text(found) == (
        "Likely done 19 Dec 2026; it was 5 Dec 2026. Waits for Feet, likely done on"
        " 12 Dec 2026."
    )
    assert sentence("Wren", found) == (
        "Wren's Bridle moves from 5 Dec to 19 Dec 2026: waits for Feet, likely done on"
        " 12 Dec 2026."
    )


def test_more_sessions_to_come_are_a_reason() -> None:
    found = only(step(after=10, left=3), step(after=24, left=5, because="Goes on."))
    assert "About 5 sessions still to come, it was 3. Goes on." in text(found)


def test_a_step_that_nobody_went_on_with_says_so_and_not_that_it_goes_on() -> None:
    now = step(after=16, left=1, because="Goes on today.", free=True)
    found = only(step(after=10, left=1), now)
    assert text(found).endswith("About 1 session still to come, as many as before.")
    assert "today" not in sentence("Wren", found)


@pytest.mark.parametrize(
    ("was", "now", "said"),
    [
        (step(after=None), step(after=5), "has a day now"),
        (step(after=5), step(after=None), "has no day any more"),
        (step(after=5), step(after=None, state="established"), "established"),
        (step(after=None, state="established"), step(), "no longer established"),
        (step(after=5), step(after=None, state="left_out"), "left out"),
        (step(after=None, state="left_out"), step(), "no longer left out"),
        (None, step(), "new on the way up"),
        (step(), None, "no longer on the way up"),
    ],
)
def test_every_other_change_of_a_step_is_named(
    was: Mark | None, now: Mark | None, said: str
) -> None:
    found = only(was, now)
    assert title(found) == said
    assert sentence("Wren", found).startswith(f"Wren's Bridle: {said}.")


@pytest.mark.parametrize(
    ("was", "now", "said", "more"),
    [
        (item(after=90), item(after=100), "good for 10 days longer", "it was 23 Feb"),
        (item(after=90), item(after=80), "good for 10 days less", "13 Feb 2027"),
        (item(after=90), item(after=None), "good for longer", "as far as is looked"),
        (item(after=None), item(after=90), "good for less long", "23 Feb 2027"),
        (
            item(after=None, state="watch"),
            item(after=90),
            "good now",
            "the answer before: only just",
        ),
        (
            item(after=90),
            item(after=None, state="no"),
            "no, no longer good",
            "It was good until about 23 Feb 2027.",
        ),
        (
            item(after=90),
            item(after=None, state="not_known"),
            "can't say, no longer good",
            "It was good until",
        ),
    ],
)
def test_tack_says_until_when_it_is_good(
    was: Mark, now: Mark, said: str, more: str
) -> None:
    found = only(was, now)
    assert title(found) == said
    assert more in text(found)


def test_steps_that_wait_for_one_that_moved_follow_it() -> None:
    was = marks(step("a", 10), step("b", 20), step("c", 30), step("d", 40))
    now = marks(
        step("a", 15),
        step("b", 26, waits_for="a"),
        step("c", 37, waits_for="b"),
        step("d", 30),
    )
    first, second = led(moves(was, now))
    assert first.move.mark.subject == "a"
    assert [one.mark.subject for one in first.followers] == ["b", "c"]
    assert second.move.mark.subject == "d"
    assert second.followers == ()


def test_steps_that_wait_for_each_other_in_a_ring_are_told_all_the_same() -> None:
    was = marks(step("a", 10), step("b", 20))
    now = marks(step("a", 20, waits_for="b"), step("b", 30, waits_for="a"))
    told = led(moves(was, now))
    names = {m.mark.subject for one in told for m in (one.move, *one.followers)}
    assert names == {"a", "b"}


def test_the_loudest_are_the_steps_that_moved_furthest() -> None:
    was = marks(step("a", 10), step("b", 20), item(after=90))
    now = marks(step("a", 15), step("b", 40), item(after=300))
    runs = loudest(led(moves(was, now)), 3)
    names = [one.move.mark.subject for run in runs for one in run]
    assert names == ["b", "a", "Small eggbutt"]


def test_many_steps_that_came_to_the_same_are_told_as_one() -> None:
    keys = ("a", "b", "c", "d")
    was = marks(*(step(key, 10) for key in keys))
    done = [step(key, None, state="established") for key in keys[:3]]
    (run, one) = alike(led(moves(was, marks(*done, step("d", 30)))))
    assert run_title(run) == "3 steps: established"
    assert run_names(run) == "A, B, C."
    assert run_sentence("Wren", run) == (
        "Wren, 3 steps: established, the last of them C."
    )
    assert run_sentence("Wren", one).startswith("Wren's D moves from")
    two = alike(led(moves(was, marks(*done[:2], step("c", 10), step("d", 10)))))
    assert [len(run) for run in two] == [1, 1]
