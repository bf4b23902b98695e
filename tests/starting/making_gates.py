"""Facts for the tests of the gates: only what matters is said."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from fitting.age import Foaled
from fitting.fit import Answer, Finding
from starting.gates import CareDone, Gate, GateFacts, gates_of
from starting.programme import Programme, Stage
from starting.progress import Progress, StageProgress, State

ON = date(2026, 3, 2)
BORN = date(2023, 4, 19)  # 34 months old on ON

YIELDS = Stage(
    key="yields_in_hand", name="Yields in hand", phase="D", kind="sessions", aim=""
)
CHECK = replace(YIELDS, key="body_check", name="Body check", kind="check")
BRIDLE = replace(
    YIELDS,
    key="bridle",
    name="First bridle",
    earliest_months=30,
    floor_months=24,
    prerequisites=("yields_in_hand", "body_check"),
)
MOUTHING = replace(
    BRIDLE,
    key="mouthing",
    name="First bit",
    prerequisites=("bridle",),
    gates_to_do=("fit:bit", "fit:bridle", "fresh:mouth_width", "teeth", "wolf_teeth"),
    gates_on_the_day=("mouth_watch", "second_person_first"),
)
ASTRIDE = replace(
    BRIDLE,
    key="astride",
    name="Astride, standing",
    earliest_months=36,
    floor_months=36,
    prerequisites=("mouthing",),
    gates_dated=("growth_pause", "season"),
    gates_to_do=("teeth", "rider_load", "fit:saddle"),
    gates_on_the_day=("safety_gear", "second_person"),
)
STAGES = (YIELDS, CHECK, BRIDLE, MOUTHING, ASTRIDE)
PROGRAMME = Programme(key="short", name="Short", for_whom="", digest="", stages=STAGES)


def done(
    stage: str, state: State = "established", *, again: bool = False
) -> StageProgress:
    return StageProgress(
        stage=stage, state=state, go_over_again=again, established_on=date(2026, 1, 5)
    )


def progress_of(*stages: StageProgress) -> Progress:
    return Progress(stages=stages, last_true_level=None)


ALL_DONE = progress_of(*(done(stage.key) for stage in STAGES))


def born(on: date) -> Foaled:
    return Foaled(first=on, last=on)


def facts(**changes: object) -> GateFacts:
    plain = GateFacts(
        name="Bracken",
        she="she",
        foaled=born(BORN),
        programme=PROGRAMME,
        progress=ALL_DONE,
    )
    return replace(plain, **changes)  # type: ignore[arg-type]


def gate(key: str, stage: Stage, on: date = ON, **changes: object) -> Gate:
    asked = replace(stage, gates_to_do=tuple({*stage.gates_to_do, key}))
    if key in stage.gates_dated or key in stage.gates_on_the_day:
        asked = stage
    gates = gates_of(asked, facts(**changes), on)
    return next(one for one in gates if one.gate == key)


def seen(days_ago: int, **changes: object) -> CareDone:
    visit = CareDone(kind="teeth", on=ON - timedelta(days=days_ago))
    return replace(visit, **changes)  # type: ignore[arg-type]


def finding(
    item: str, kind: str, part: str, answer: Answer, **changes: object
) -> Finding:
    plain = Finding(item=item, kind=kind, part=part, answer=answer, why="8 mm over.")
    return replace(plain, **changes)  # type: ignore[arg-type]
