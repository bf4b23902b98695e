"""The earliest day by which a small yard can be through, proven by a solver.

The rules are written down afresh, as the schedule checker has them: nothing of the
scheduler is used.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from itertools import pairwise

from ortools.sat.python import cp_model

from starting.schedule import HorseAhead, HorsePlan, StageAhead, YardDays

# A yard, in the solver's own time: the same on every machine. What is not proven by
# then counts against the plan.
MOST_TIME = 0.5
Place = tuple[str, str, int]  # a horse, a step, a day


@dataclass(slots=True, kw_only=True)
class Model:
    """One yard as booleans: whether a step has a day; day 0 is today."""

    rules: cp_model.CpModel
    horses: Sequence[HorseAhead]
    yard: YardDays
    today: date
    length: int
    has: dict[Place, cp_model.IntVar] = field(default_factory=dict)
    done: dict[Place, cp_model.IntVar] = field(default_factory=dict)  # before the day

    def on(self, day: int) -> date:
        """Return the date of a day."""
        return self.today + timedelta(days=day)

    def days_of(
        self, horse: HorseAhead, ahead: StageAhead
    ) -> dict[int, cp_model.IntVar]:
        """Return whether a step has a day, by each day that it might have."""
        places = ((n, (horse.horse, ahead.stage.key, n)) for n in range(self.length))
        return {n: self.has[place] for n, place in places if place in self.has}


def earliest_end(
    horses: Sequence[HorseAhead],
    yard: YardDays,
    today: date,
    plans: Sequence[HorsePlan],
) -> tuple[int, bool]:
    """Return on which day, 1 for today, no plan ends sooner; and if one ends then.

    The plans given are a first solution; they set how far ahead is looked.
    """
    ends = [one.finish for plan in plans for one in plan.stages if one.finish]
    model = Model(
        rules=cp_model.CpModel(),
        horses=horses,
        yard=yard,
        today=today,
        length=(max(ends) - today).days + 1,
    )
    for horse in horses:
        for ahead in horse.stages:
            _may_have(model, horse, ahead)
            _pace(model, horse, ahead)
            _in_order(model, horse, ahead)
    model.rules.minimize(sum(_days_needed(model)))
    _first_solution(model, plans)
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = MOST_TIME
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    status = solver.solve(model.rules)
    assert status in {cp_model.OPTIMAL, cp_model.FEASIBLE}
    return round(solver.best_objective_bound), status == cp_model.OPTIMAL


def _needed(ahead: StageAhead) -> int:
    return ahead.sessions_left if ahead.stage.kind == "sessions" else 1


def _may_have(model: Model, horse: HorseAhead, ahead: StageAhead) -> None:
    """A step has days that are free, open, and with the helper if it needs one."""
    stage = ahead.stage
    weekdays = model.yard.free
    if stage.people > 1:
        weekdays &= model.yard.helper
    for day in range(model.length):
        on = model.on(day)
        shut = any(h.until is None or on < h.until for h in ahead.holds)
        shut |= any(one.first <= on <= one.last for one in ahead.closed)
        if not shut and on not in horse.care_days and on.weekday() in weekdays:
            place = (horse.horse, stage.key, day)
            model.has[place] = model.rules.new_bool_var(str(place))
    model.rules.add(sum(model.days_of(horse, ahead).values()) == _needed(ahead))


def _pace(model: Model, horse: HorseAhead, ahead: StageAhead) -> None:
    if ahead.stage.kind != "sessions":
        return
    mine = model.days_of(horse, ahead)
    weeks: dict[date, list[cp_model.IntVar]] = {}
    for day, has in mine.items():
        on = model.on(day)
        weeks.setdefault(on - timedelta(days=on.weekday()), []).append(has)
    for week in weeks.values():
        model.rules.add(sum(week) <= ahead.stage.days_a_week[1])
    most = ahead.stage.days_in_a_row
    for first in range(model.length - most):
        row = [mine[day] for day in range(first, first + most + 1) if day in mine]
        model.rules.add(sum(row) <= most)


def _in_order(model: Model, horse: HorseAhead, ahead: StageAhead) -> None:
    """A step waits until each one before it is done."""
    mine = model.days_of(horse, ahead)
    for day, has in mine.items():
        for before in ahead.stage.prerequisites:
            model.rules.add(has <= model.done[horse.horse, before, day])
    for day in range(model.length):
        place = (horse.horse, ahead.stage.key, day)
        model.done[place] = model.rules.new_bool_var(f"done before {place}")
        so_far = sum(has for at, has in mine.items() if at < day)
        model.rules.add(so_far >= _needed(ahead) * model.done[place])


def _days_needed(model: Model) -> list[cp_model.IntVar]:
    """Return for each day whether anybody still works; they share its sessions."""
    works = [model.rules.new_bool_var(f"day {day}") for day in range(model.length)]
    for today, tomorrow in pairwise(works):
        model.rules.add(tomorrow <= today)
    kinds = {
        (h.horse, one.stage.key): one.stage.kind
        for h in model.horses
        for one in h.stages
    }
    sessions: dict[int, dict[str, list[cp_model.IntVar]]] = {}
    for (name, step, day), has in model.has.items():
        model.rules.add(has <= works[day])
        if kinds[name, step] == "sessions":
            sessions.setdefault(day, {}).setdefault(name, []).append(has)
    for day, by_horse in sessions.items():
        for own in by_horse.values():
            model.rules.add(sum(own) <= works[day])
        every = [has for own in by_horse.values() for has in own]
        model.rules.add(sum(every) <= model.yard.sessions_a_day * works[day])
    return works


def _first_solution(model: Model, plans: Sequence[HorsePlan]) -> None:
    taken = {
        (plan.horse, one.stage, (on - model.today).days)
        for plan in plans
        for one in plan.stages
        for on in one.days
    }
    for place, has in model.has.items():
        model.rules.add_hint(has, place in taken)
