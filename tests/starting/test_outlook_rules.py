"""What the rules hold, as gates, plan, diary and first page show it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from fitting.age import read_foaled
from fitting.fit import Answer, Part, Tack
from starting.gates import CareDone, GateAnswer
from starting.outlook import HorseFacts, Outlook, look_at_yard
from starting.outlook.beside import beside_of
from starting.outlook.contract import contract_of
from starting.progress import Incident, NewTack, SessionDone
from tests.starting.making_gates import BRIDLE, finding, gate
from tests.starting.making_outlook import (
    TODAY,
    established,
    good_session,
    horse_facts,
    yard_facts,
)
from tests.starting.making_rules import KEYS, WAY


def day(n: int) -> date:
    return TODAY + timedelta(days=n)


def horse(last: str, *sessions: SessionDone, **fields: Any) -> HorseFacts:
    """A filly with every step up to one set by hand 20 days ago."""
    keys = KEYS[: KEYS.index(last) + 1]
    fields.setdefault("foaled", read_foaled("2023-05-01"))
    return horse_facts(records=established(keys, day(-20)), sessions=sessions, **fields)


def seen(of: HorseFacts) -> Outlook:
    (outlook,) = look_at_yard(yard_facts(of), TODAY)
    return outlook


def lost(stage: str, n: int) -> SessionDone:
    return replace(good_session(stage, day(n)), stop="go_back")


def shut(outlook: Outlook, stage: str) -> dict[str, str]:
    look = outlook.stage(stage)
    assert look is not None
    return {g.gate: g.why for g in look.gates if g.answer is GateAnswer.SHUT}


def test_a_step_that_went_back_says_so_and_leads_to_the_step_before() -> None:
    at = seen(horse("travels", lost("led_out", -2), good_session("led_out", day(-9))))
    why = shut(at, "led_out")["gone_back"]
    assert "went back on 23 November 2026: a sign asked for a step back" in why
    assert "First come 2 good sessions of Tied, groomed and rugged" in why
    first = at.can_do_now[0]
    assert (first.stage, first.state) == ("tied_and_groomed", "go_over_again")
    assert first.why == why
    assert "led_out" not in {one.stage for one in at.can_do_now}


def test_the_plan_has_the_sessions_back_before_what_waits_for_them() -> None:
    without = seen(horse("travels"))
    at = seen(horse("travels", lost("led_out", -2)))
    back, ahead = at.stage("tied_and_groomed"), at.stage("yields_in_hand")
    before = without.stage("yields_in_hand")
    assert back is not None
    assert ahead is not None
    assert before is not None
    assert back.next_on is not None
    assert back.next_on >= TODAY
    assert (ahead.start or TODAY) > (before.start or TODAY)
    assert back.start is None  # it is established: no new start


def test_the_first_session_back_is_counted() -> None:
    at = seen(
        horse("travels", lost("led_out", -4), good_session("tied_and_groomed", day(-2)))
    )
    assert "rugged, 1 so far" in shut(at, "led_out")["gone_back"]


FELL = Incident(on=day(-3), what="fall")


def test_after_a_fall_the_gate_is_dated_and_the_looks_stand_in_the_diary() -> None:
    at = seen(horse("saddle", incidents=(FELL,)))
    look = at.stage("long_reins")
    assert look is not None
    held = look.gates[0]
    assert (held.gate, held.kind, held.opens_on) == ("incident", "dated", day(11))
    assert "Tansy fell on 22 November 2026" in held.why
    assert "the horse by the vet, teeth and the saddle by a saddle fitter" in held.why
    visits = {e.key.partition("/")[2] for e in at.entries if e.on == TODAY}
    assert {"care/vet-1", "care/teeth-1", "care/saddle_fitter-1"} <= visits
    contract = contract_of(at, str)
    gates = next(s for s in contract["stages"] if s["stage"] == "long_reins")["gates"]
    assert gates[0]["opens_on"] == day(11).isoformat()


def test_once_the_wait_is_over_only_the_looks_hold_it() -> None:
    long_ago = Incident(on=day(-15), what="fall")
    held = seen(horse("saddle", incidents=(long_ago,))).stage("long_reins")
    assert held is not None
    assert (held.gates[0].kind, held.gates[0].opens_on) == ("to_do", None)
    care = tuple(
        CareDone(kind=kind, on=day(-10)) for kind in ("vet", "teeth", "saddle_fitter")
    )
    clear = seen(horse("saddle", incidents=(long_ago,), care=care))
    assert "incident" not in shut(clear, "long_reins")
    look = clear.stage("long_reins")
    assert look is not None
    assert look.again_because == (
        "To be done once more since the incident on 10 November 2026."
    )


def test_nothing_is_said_of_rules_where_none_acts() -> None:
    calm = seen(horse("saddle"))
    ruled = {"gone_back", "stuck", "incident", "long_off"}
    assert not ruled & {gate.gate for one in calm.stages for gate in one.gates}
    assert not any(one.again_because or one.held for one in calm.stages)


def test_what_is_outgrown_holds_the_steps_that_need_it_and_no_other() -> None:
    small = finding("Old bridle", "bridle", "whole", Answer.NO)
    outgrown = gate("fit:bridle", BRIDLE, findings=(small,))
    assert outgrown.answer is GateAnswer.SHUT
    assert "fit:bridle" not in WAY.stage("cloth_and_ropes").gates_to_do
    other = finding("New bridle", "bridle", "whole", Answer.GOOD)
    again = gate("fit:bridle", BRIDLE, findings=(small, other))
    assert again.answer is GateAnswer.MET


def roller(name: str) -> Tack:
    return Tack(name=name, kind="roller", parts=(Part(part="strap"),))


OLD, BLUE = roller("Old roller"), roller("Blue roller")
FITS = (
    finding("Old roller", "roller", "strap", Answer.NO),
    finding("Blue roller", "roller", "strap", Answer.GOOD),
)


def told(of: HorseFacts, *altered: tuple[str, date]) -> tuple[NewTack, ...]:
    yard = yard_facts(of, tack=(OLD, BLUE), altered=altered)
    return beside_of(yard, of, FITS).new_tack


def worn(item: str, n: int) -> SessionDone:
    return replace(good_session("roller", day(n)), worn=(item,))


def test_tack_is_new_where_only_what_is_outgrown_was_worn() -> None:
    new = NewTack(kind="roller", items=("Blue roller",))
    assert told(horse("saddle", worn("Old roller", -9))) == (new,)
    assert told(horse("saddle", worn("Old roller", -9), worn("Blue roller", -1))) == ()
    assert told(horse("saddle")) == ()  # nobody wrote down what was worn


def test_what_was_first_worn_counts_as_worn() -> None:
    wore = horse("saddle", first_worn=(("Old roller", day(-9)),))
    assert told(wore)
    both = (*wore.first_worn, ("Blue roller", day(-1)))
    assert told(replace(wore, first_worn=both)) == ()


def test_tack_altered_since_it_was_worn_is_new_again() -> None:
    of = horse("saddle", worn("Blue roller", -9))
    altered = NewTack(kind="roller", items=("Blue roller",), since=day(-5))
    assert told(of, ("Blue roller", day(-5))) == (altered,)
    assert told(of, ("Blue roller", day(-10))) == ()
