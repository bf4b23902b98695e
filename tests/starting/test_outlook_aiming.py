"""The aim in words: slack, or what would win time."""

from __future__ import annotations

from datetime import date

from starting.outlook import Aim, Outlook, brief_of, look_at_yard
from starting.outlook.values import AimLook
from tests.starting.making_outlook import TODAY, horse_facts, yard_facts

WEEKENDS = frozenset({5, 6})


def _look(aim: Aim | None) -> Outlook:
    facts = horse_facts(aim=aim)
    (outlook,) = look_at_yard(yard_facts(facts, free_days=WEEKENDS), TODAY)
    return outlook


def _aim(stage: str, by: date | None) -> AimLook:
    found = _look(Aim(stage=stage, by=by)).aim
    assert found is not None
    return found


def test_no_aim_says_nothing() -> None:
    assert _look(None).aim is None


def test_an_aim_in_good_time_says_its_slack() -> None:
    look = _look(Aim(stage="company", by=date(2030, 1, 1)))
    stage = look.stage("company")
    assert stage is not None
    assert stage.finish is not None
    assert look.aim is not None
    slack = (date(2030, 1, 1) - stage.finish).days
    assert (look.aim.slack_days, look.aim.wins) == (slack, ())
    assert look.aim.text.endswith(f", with {slack} days to spare.")
    assert brief_of(look).aim == look.aim


def test_an_aim_that_is_missed_says_by_how_much_and_what_would_win() -> None:
    aim = _aim("company", date(2026, 12, 1))
    assert aim.slack_days is not None
    assert aim.slack_days < 0
    assert aim.text.endswith(f"{-aim.slack_days} days too late.")
    assert aim.wins[0].endswith(" days sooner")
    assert aim.wins[0].split()[1:4] == ["free", "as", "well:"]


def test_slack_that_bad_luck_may_spend_is_told_so() -> None:
    stage = _look(None).stage("company")
    assert stage is not None
    assert stage.finish is not None
    assert stage.finish_late is not None
    aim = _aim("company", stage.finish)
    assert aim.slack_days == 0
    late = stage.finish_late
    assert aim.text.endswith(
        f"with 0 days to spare; one time in ten (ours) it is as late as"
        f" {late.day} {late:%b %Y}."
    )


def test_an_aim_without_a_day_has_no_slack() -> None:
    aim = _aim("company", None)
    assert (aim.slack_days, aim.wins) == (None, ())
    assert aim.text.startswith("Aim: First handling. Likely done on ")
