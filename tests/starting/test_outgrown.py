"""What is outgrown holds the steps that ask for it, in words of its own."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from fitting.age import read_foaled
from fitting.fit import Answer, Finding, MadeUp, Part, Tack
from fitting.tryons import TryOn
from starting.gates import GateAnswer, gate_name
from starting.outlook import HorseFacts, Outlook, look_at_yard
from starting.outlook.beside import beside_of
from starting.progress import Beside, Outgrown, progress
from tests.starting.making_gates import finding
from tests.starting.making_outlook import (
    TODAY,
    established,
    good_session,
    horse_facts,
    measured,
    yard_facts,
)
from tests.starting.making_rules import DAY, KEYS, WAY, up_to

BEFORE_ROLLER = KEYS[: KEYS.index("roller")]
LAST = TODAY - timedelta(days=9)


def roller(name: str, longest: float | None = None) -> Tack:
    part = Part(part="strap", longest_mm=longest, shortest_mm=longest and longest - 300)
    return Tack(name=name, kind="roller", parts=(part,))


def wore(name: str, **fields: Any) -> HorseFacts:
    done = replace(good_session("roller", LAST), worn=(name,))
    return horse_facts(
        foaled=read_foaled("2023-05-01"),
        records=established(BEFORE_ROLLER, TODAY - timedelta(days=20)),
        sessions=(done,),
        **fields,
    )


OLD = Outgrown(kind="roller", items=("Old roller",), since=LAST)
SMALL = finding("Old roller", "roller", "strap", Answer.NO)


def told(*findings: Finding, tack: tuple[Tack, ...] = ()) -> tuple[Outgrown, ...]:
    facts = wore("Old roller")
    yard = yard_facts(facts, tack=(roller("Old roller"), *tack))
    return beside_of(yard, facts, findings).outgrown


@pytest.mark.parametrize("other", [Answer.GOOD, Answer.WATCH, Answer.NOT_KNOWN])
def test_nothing_is_outgrown_while_another_may_fit(other: Answer) -> None:
    blue = finding("Blue roller", "roller", "strap", other)
    assert told(SMALL, blue, tack=(roller("Blue roller"),)) == ()
    too = finding("Blue roller", "roller", "strap", Answer.NO)
    assert told(SMALL, too, tack=(roller("Blue roller"),)) == (OLD,)


@pytest.mark.parametrize("answer", [Answer.GOOD, Answer.WATCH, Answer.NOT_KNOWN])
def test_only_what_was_worn_and_is_a_no_now_is_outgrown(answer: Answer) -> None:
    assert told(SMALL) == (OLD,)
    assert told(finding("Old roller", "roller", "strap", answer)) == ()
    facts = replace(wore("Old roller"), sessions=())
    yard = yard_facts(facts, tack=(roller("Old roller"),))
    assert beside_of(yard, facts, [SMALL]).outgrown == ()


def test_what_sat_right_when_put_on_was_worn_and_what_was_held_was_not() -> None:
    facts = replace(wore("Old roller"), sessions=())
    yard = yard_facts(facts, tack=(roller("Old roller"),))
    for how, found in (("worn", (OLD,)), ("held", ())):
        tried = TryOn(on=LAST, item="Old roller", how=how, answer="good")  # type: ignore[arg-type]
        mine = replace(facts, tryons=(tried,))
        assert beside_of(yard, mine, [SMALL]).outgrown == found


def test_a_bridle_that_still_makes_up_a_good_set_is_not_outgrown() -> None:
    facts = horse_facts(first_worn=(("Brown", LAST),))
    brown = Tack(name="Brown", kind="bridle", parts=(Part(part="whole"),))
    made_up = MadeUp(name="Best", parts=(("whole", brown),))
    yard = yard_facts(facts, tack=(brown,), made_up=(made_up,))
    small = finding("Brown", "bridle", "whole", Answer.NO)
    bit = finding("Best", "bit", "mouthpiece", Answer.GOOD)
    fits = finding("Best", "bridle", "whole", Answer.WATCH)
    assert beside_of(yard, facts, [small, bit, fits]).outgrown == ()
    hangs_small = finding("Best", "bridle", "whole", Answer.NO)
    (found,) = beside_of(yard, facts, [small, bit, hangs_small]).outgrown
    assert (found.kind, found.items) == ("bridle", ("Brown",))


def test_the_steps_that_need_it_wait_and_the_others_go_on() -> None:
    none, small = (
        progress(WAY, (), up_to("cloth_and_ropes"), DAY, Beside(outgrown=grown))
        for grown in ((), (replace(OLD, since=DAY),))
    )
    for stage in WAY.stages:
        before, now = none.of(stage.key), small.of(stage.key)
        rules = [held.rule for held in now.held]
        asks = "fit:roller" in stage.gates_to_do
        over = before.state in {"established", "left_out"}
        assert rules == (["outgrown"] if asks and not over else [])
        if not rules:
            assert now == before
    assert none.of("roller").state == small.of("roller").state == "waiting"
    assert small.last_true_level == none.last_true_level


def outlook(longest: float) -> Outlook:
    facts = wore(
        "Old roller",
        measured=(measured("heart_girth", TODAY, 1650.0, "tape"),),
    )
    (found,) = look_at_yard(
        yard_facts(facts, tack=(roller("Old roller", longest),), covered=True), TODAY
    )
    return found


def test_the_page_says_what_is_outgrown_what_waits_and_what_would_help() -> None:
    small = outlook(1500.0).stage("roller")
    assert small is not None
    gate = small.gates[0]
    assert (gate.gate, gate.answer) == ("outgrown:roller", GateAnswer.SHUT)
    assert gate.why == (
        "Old roller no longer fits Tansy, nor does any other roller here; it last sat"
        " well on 16 November 2026. Steps that ask for a roller wait, the others go on."
    )
    assert gate.would_meet == "A roller that fits her, borrowed or bought."
    assert gate.record == "item:Old roller"
    assert gate_name(gate.gate) == "a roller in place of the outgrown one"


def test_a_step_under_way_that_its_tack_holds_is_the_reason_why_not_more() -> None:
    held = outlook(1500.0)
    assert "roller" not in {one.stage for one in held.can_do_now}
    assert held.why_not_more_stage == "roller"
    assert held.why_not_more.startswith("First roller: not now. Old roller no longer")
    fits = outlook(1900.0)
    assert not any(one.held for one in fits.stages)


def test_the_day_is_the_last_on_which_it_sat_well() -> None:
    first = (("Old roller", date(2026, 11, 1)), ("Old roller", date(2026, 11, 20)))
    facts = wore("Old roller", first_worn=first)
    yard = yard_facts(facts, tack=(roller("Old roller"),))
    (found,) = beside_of(yard, facts, [SMALL]).outgrown
    assert found.since == date(2026, 11, 20)
