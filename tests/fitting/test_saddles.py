"""A saddle: its panel against the back, who saw it on when, what changed since."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitting.fit import Answer, Finding, Part, Tack, fits
from fitting.fit.findings import rules
from fitting.fit.saddle_checks import fitter_visit
from fitting.fit.saddles import SaddleRule
from fitting.growth import Growth
from fitting.tryons import How, Seen, Tried, TryOn
from fitting.units import read_length
from tests.fitting.making_fit import (
    BORN,
    GOOD,
    NO,
    ON,
    UNKNOWN,
    WATCH,
    make_wearer,
    steady,
)

NAME = "Brown saddle"
CHECKED = ON - timedelta(days=20)


def saddle(panel_mm: float | None = 420.0) -> Tack:
    part = Part(part="panel", length_mm=panel_mm)
    return Tack(name=NAME, kind="saddle", parts=(part,))


def put_on(
    seen: Seen = "sits_right", on: date = CHECKED, how: How = "worn", item: str = NAME
) -> TryOn:
    parts = (Tried(part="panel", seen=seen),)
    return TryOn(on=on, item=item, how=how, parts=parts)


def backs(**taken: tuple[tuple[date, float], ...]) -> Growth:
    return steady(back_length=440.0, taken=taken)


def on_back(
    growth: Growth,
    *tryons: TryOn,
    item: Tack | None = None,
    on: date = ON,
    born: date = BORN,
) -> Finding:
    wearer = make_wearer(growth, grown=False, tryons=tryons, born=born)
    wearer = replace(wearer, standing=(("back_length", "stands"),))
    (found,) = fits(wearer, (item or saddle(),), (), on)
    return found


def test_a_saddle_of_the_right_length_that_nobody_saw_on_is_not_known() -> None:
    found = on_back(backs())
    assert (found.answer, found.ask) == (UNKNOWN, "try it on")
    assert found.why.startswith("Its panel is 20 mm shorter than the back up to the")
    assert "never put on" in found.why


@pytest.mark.parametrize("panel_mm", [441, 500])
def test_a_panel_past_the_last_rib_is_a_no(panel_mm: float) -> None:
    found = on_back(backs(), item=saddle(panel_mm))
    assert found.answer is NO
    assert "too long" in found.why


def test_a_panel_near_the_end_of_an_unsure_back_is_not_called_right() -> None:
    found = on_back(steady(back_length=440.0, sd=15), item=saddle(430))
    assert found.answer is UNKNOWN
    assert "not known closely enough" in found.why


def test_a_saddle_seen_to_sit_right_is_good_until_the_check_is_old() -> None:
    found = on_back(backs(), put_on())
    assert found.answer is GOOD
    assert found.good_until == CHECKED + timedelta(days=57)  # it stands 56 days
    assert found.rests_on == "put on 10 Feb 2026"
    assert "fitter has to confirm" in " ".join(found.cautions)


@pytest.mark.parametrize(
    ("months", "days"), [(30, 56), (47, 56), (49, 90), (90, 90)]
)  # ours
def test_a_check_stands_by_the_age_of_the_horse(months: int, days: int) -> None:
    born = ON - timedelta(days=round(months * 30.4375))
    assert on_back(backs(), put_on(on=ON), born=born).good_until == ON + timedelta(
        days=days + 1
    )
    last = ON + timedelta(days=days)
    assert on_back(backs(), put_on(on=ON), born=born, on=last).answer is GOOD
    over = on_back(backs(), put_on(on=ON), born=born, on=last + timedelta(days=1))
    assert (over.answer, over.stale) == (WATCH, True)
    assert "due again" in over.why


@pytest.mark.parametrize(
    ("measure", "change", "answer"),
    [
        ("back_width_front", 12, GOOD),
        ("back_width_front", 15, GOOD),
        ("back_width_front", 18, WATCH),
        ("back_width_front", -18, WATCH),
        ("back_width_last_rib", 16, WATCH),
        ("heart_girth", 50, GOOD),
        ("heart_girth", 51, WATCH),
        ("heart_girth", -60, WATCH),
    ],
)
def test_a_back_or_girth_that_changed_since_wants_the_saddle_seen_again(
    measure: str, change: float, answer: Answer
) -> None:
    taken = {measure: ((CHECKED - timedelta(days=5), 300.0), (ON, 300.0 + change))}
    found = on_back(backs(**taken), put_on())
    assert found.answer is answer
    if answer is WATCH:
        more = "more" if change > 0 else "less"
        assert f"is {abs(change)} mm {more}" in found.why
        # a fresh check starts from the new shape
        again = on_back(backs(**taken), put_on(), put_on(on=ON))
        assert again.answer is GOOD


def test_a_reading_of_long_before_the_check_says_nothing_of_a_change() -> None:
    taken = ((CHECKED - timedelta(days=60), 300.0), (CHECKED, 330.0), (ON, 331.0))
    found = on_back(backs(back_width_front=taken), put_on())
    assert found.answer is GOOD
    checked = ON - timedelta(days=50)
    old = ((checked - timedelta(days=40), 300.0), (ON, 400.0))
    found = on_back(backs(back_width_front=old), put_on(on=checked))
    assert (found.answer, found.ask) == (GOOD, "back width, front")


def test_a_change_measured_later_says_nothing_of_the_days_before() -> None:
    taken = ((CHECKED, 300.0), (ON, 330.0))
    found = on_back(backs(back_width_front=taken), put_on(), on=ON - timedelta(days=1))
    assert found.answer is GOOD
    assert on_back(backs(back_width_front=taken), put_on()).answer is WATCH


def test_a_back_width_not_measured_at_the_check_is_asked_for_and_bars_nothing() -> None:
    assert on_back(backs(), put_on()).ask == "back width, front"
    front = ((CHECKED, 300.0),)
    assert (
        on_back(backs(back_width_front=front), put_on()).ask == "back width, last rib"
    )
    both = backs(back_width_front=front, back_width_last_rib=front)
    assert on_back(both, put_on()).ask == ""


def test_a_fitter_s_visit_counts_for_the_saddle_the_horse_had_on_by_then() -> None:
    visit = fitter_visit(ON - timedelta(days=2), clear=True)
    alone = on_back(backs(), visit)
    assert alone.answer is UNKNOWN
    assert "A saddle fitter came on 28 Feb 2026" in alone.why
    other = on_back(backs(), visit, put_on(item="Black saddle"))
    assert other.answer is UNKNOWN
    seen = on_back(backs(), visit, put_on(on=ON - timedelta(days=300)))
    assert seen.answer is GOOD
    assert seen.why.startswith("A saddle fitter saw it on 28 Feb 2026")
    later = on_back(backs(), visit, put_on(on=ON - timedelta(days=1), how="held"))
    assert later.answer is UNKNOWN


def test_a_visit_or_a_wearing_still_to_come_says_nothing_of_today() -> None:
    visit = fitter_visit(ON - timedelta(days=2), clear=True)
    tomorrow = put_on(on=ON + timedelta(days=1))
    assert on_back(backs(), visit, tomorrow).answer is UNKNOWN
    to_come = fitter_visit(ON + timedelta(days=1), clear=True)
    assert "fitter" not in on_back(backs(), to_come).why
    seen = on_back(backs(), put_on(on=ON - timedelta(days=9)), visit, to_come)
    assert seen.rests_on == "saddle fitter 28 Feb 2026"


def test_a_panel_too_long_by_an_old_measurement_is_a_no_that_asks_to_measure() -> None:
    wearer = make_wearer(backs(), grown=False)
    wearer = replace(wearer, standing=(("back_length", "stale"),))
    (found,) = fits(wearer, (saddle(460.0),), (), ON)
    assert (found.answer, found.stale) == (NO, True)
    assert found.rests_on == "back length, measured, some time ago"


def test_a_visit_that_left_something_open_is_only_just() -> None:
    visit = fitter_visit(ON - timedelta(days=2), clear=False)
    found = on_back(backs(), put_on(), visit)
    assert (found.answer, found.good_until) == (WATCH, None)


@pytest.mark.parametrize(
    ("seen", "answer"),
    [
        ("too_short", NO),
        ("too_long", NO),
        ("rubs", WATCH),
        ("wrong_place", WATCH),
    ],
)
def test_what_was_seen_is_no_better_than_it_was(seen: Seen, answer: Answer) -> None:
    assert on_back(backs(), put_on(seen)).answer is answer
    # nor does a fitter's visit speak of a saddle that did not go on
    visit = fitter_visit(ON - timedelta(days=2), clear=True)
    both = on_back(backs(), put_on(seen), visit)
    assert both.answer is (NO if answer is NO else GOOD)


def test_a_no_of_long_ago_is_not_known_and_asks_to_look_again() -> None:
    found = on_back(backs(), put_on("too_long", on=ON - timedelta(days=57)))
    assert (found.answer, found.ask) == (UNKNOWN, "try it on")


def test_a_saddle_seen_right_but_reckoned_too_long_shows_both() -> None:
    found = on_back(backs(), put_on(), item=saddle(480))
    assert found.answer is GOOD
    assert "40 mm longer than the back" in found.why
    assert "by its length alone it is a no" in found.disagrees
    assert found.ask == "back length"
    stale = on_back(backs(), put_on(on=ON - timedelta(days=57)), item=saddle(480))
    assert stale.answer is NO  # the tape has the word again


def test_what_is_not_written_down_is_asked_for_and_never_good() -> None:
    unmeasured = steady(back_length=440.0, unmeasured=("back_length",))
    assert on_back(unmeasured).ask == "back length"
    found = on_back(backs(), item=saddle(None))
    assert (found.answer, found.ask) == (UNKNOWN, "length of the panel")
    # but what was seen outranks the tape
    assert on_back(unmeasured, put_on(), item=saddle(None)).answer is GOOD


def test_held_against_is_told_and_decides_nothing() -> None:
    found = on_back(backs(), put_on(how="held"))
    assert found.answer is UNKNOWN
    assert found.rests_on.endswith("held against on 10 Feb 2026: it sat right")


@given(quarters=st.integers(48, 96), back=st.floats(300, 600))
def test_units_never_change_an_answer_about_a_saddle(
    quarters: int, back: float
) -> None:
    inches = quarters / 4
    typed = (f"{inches:g} in", f"{inches * 2.54:g} cm", f"{inches * 25.4:g} mm")
    panels = [saddle(read_length(text, unit="cm").mm) for text in typed]
    growth = steady(back_length=back)
    for seen in ((), (put_on(),)):
        found = [on_back(growth, *seen, item=panel) for panel in panels]
        assert len({(one.answer, one.why) for one in found}) == 1


@given(
    back=st.floats(300, 600),
    sd=st.floats(0.1, 40),
    panel=st.floats(300, 600),
    more=st.floats(0, 100),
)
def test_a_longer_panel_is_never_better_and_a_longer_back_never_worse(
    back: float, sd: float, panel: float, more: float
) -> None:
    def chance_no(back_mm: float, panel_mm: float) -> float:
        growth = steady(back_length=back_mm, sd=sd)
        (rule,) = rules(make_wearer(growth), (saddle(panel_mm),), (), ON)
        assert isinstance(rule, SaddleRule)
        spread = growth.at("back_length", ON)
        assert spread is not None
        return rule.judge(spread, ON, worn=False).chance_no

    now = chance_no(back, panel)
    assert chance_no(back, panel + more) >= now - 1e-12
    assert chance_no(back + more, panel) <= now + 1e-12
