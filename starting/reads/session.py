"""What the form of a session starts from, and what a session meant."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from fitting.fit.answers import holed
from fitting.models import Horse, Yard
from fitting.pieces import part_word
from starting.gates import GateAnswer, gate_name, holding
from starting.kit import Kit, kit_of
from starting.minutes import NO_MINUTES, Minutes, minutes_for
from starting.models import Session, SessionWorn
from starting.next_session import one_new_thing, so_far
from starting.outlook import Outlook, StageLook
from starting.outlook.now import steps_back
from starting.programme import Programme, Stage
from starting.reads.facts import session_fact
from starting.reads.step import ANSWERS, stage_of
from starting.reads.step_facts import StopRow, stop_rows
from starting.reads.steps import first_holds, of_horse

Choice = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """What a session's form offers to choose from, and starts from."""

    stage: Stage
    last: Mapping[str, str]  # the last answer of each tick, in words
    asked: Sequence[Choice]  # what is asked on the day: key and question
    people: Sequence[str]
    things: Sequence[Choice]  # "item:7" and its name
    single_parts: Mapping[str, str]  # things of one part only, and that part
    hole_parts: Mapping[str, str] = field(default_factory=dict)  # what a hole is on
    worn: Sequence[Mapping[str, Any]] = ()
    worn_told: tuple[str, ...] = ()  # what was to be worn, and what was last time
    who: str = ""
    minutes: Minutes = NO_MINUTES
    new: str = ""  # the one new thing
    why: str = ""  # why this step now, where it is suggested


@dataclass(frozen=True, slots=True, kw_only=True)
class StepGroup:
    """Steps to choose from, with why they stand together."""

    name: str
    steps: tuple[Choice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionPage:
    """What is said beside a session's form."""

    horse: str
    key: str
    she: str
    stage: str
    step: str
    not_yet: str  # why the step is not to be done yet; empty: it may be
    stopped: str  # off work, or resting
    cautions: tuple[str, ...]
    stops: tuple[StopRow, ...]
    groups: tuple[StepGroup, ...]


def session_page(
    horse: Horse, wanted: str
) -> tuple[SessionPage | None, Offered | None, bool]:
    """Return what a session's form shows and offers, for a step or the suggested one.

    The third says whether the step asked for is one of sessions. 6 queries here
    (programme, outlook, people, tack with parts, sets), then 2 for the last session.
    """
    programme, outlook = of_horse(horse)
    if programme is None:
        return None, None, False
    asked = stage_of(programme, wanted)
    fits = not wanted or (asked is not None and asked.kind == "sessions")
    stage = asked if asked and fits else _suggested(programme, outlook)
    look = outlook.stage(stage.key) if outlook else None
    page = SessionPage(
        horse=horse.name,
        key=horse.key,
        she=horse.she,
        stage=stage.key,
        step=stage.name,
        not_yet=_not_yet(look),
        stopped=(outlook.off_work or outlook.resting) if outlook else "",
        cautions=stage.cautions,
        stops=stop_rows(stage),
        groups=_groups(programme, outlook),
    )
    return page, _offered(horse, stage, look, outlook), fits


def _not_yet(look: StageLook | None) -> str:
    if look is None or (look.state == "established" and not look.held):
        return ""
    return first_holds(look)


def _suggested(programme: Programme, outlook: Outlook | None) -> Stage:
    """Return the step to begin with: suggested, else last true, else the first."""
    sessions = {s.key: s for s in programme.stages if s.kind == "sessions"}
    looks = outlook.stages if outlook else ()
    keys = [s.stage for s in outlook.can_do_now] if outlook else []
    keys += [s.stage for s in looks if s.state == "under_way"]
    keys += [s.stage for s in looks if s.last_true_level]
    keys += [s.stage for s in reversed(looks) if s.state == "established"]
    return next(sessions[k] for k in (*keys, *sessions) if k in sessions)


def _groups(programme: Programme, outlook: Outlook | None) -> tuple[StepGroup, ...]:
    """Return the steps of sessions: what may be done, what is done, what is not yet."""
    now: list[Choice] = []
    done: list[Choice] = []
    later: list[Choice] = []
    back = steps_back(outlook.stages) if outlook else {}
    for stage in programme.stages:
        look = outlook.stage(stage.key) if outlook else None
        if stage.kind != "sessions":
            continue
        again = look is not None and look.go_over_again and not look.held
        if look and (again or look.may_start or stage.key in back):
            now.append((stage.key, stage.name))
        elif look and look.state == "established" and not look.held:
            done.append((stage.key, stage.name))
        else:
            later.append((stage.key, f"{stage.name}{_why_later(look)}"))
    named = (("To do now", now), ("Established", done), ("Not yet, for want of", later))
    return tuple(StepGroup(name=n, steps=tuple(steps)) for n, steps in named if steps)


def _why_later(look: StageLook | None) -> str:
    held = holding(look.gates) if look else ()
    return f" ({gate_name(held[0].gate)})" if held else ""


def _offered(
    horse: Horse, stage: Stage, look: StageLook | None, outlook: Outlook | None
) -> Offered:
    things, single = _things(horse.yard)
    kit = kit_of(look.gates, outlook.fits) if look and outlook else ()
    last = _last_of(horse, stage.key)
    last_checks = dict(look.last_checks) if look else {}
    why = [s.why for s in outlook.can_do_now if s.stage == stage.key] if outlook else []
    return Offered(
        stage=stage,
        last={key: ANSWERS[said] for key, said in last_checks.items()},
        asked=_asked(stage, look),
        people=tuple(horse.yard.people.values_list("name", flat=True)),
        things=things,
        single_parts=single,
        hole_parts=single | (_hole_parts(outlook, things) if outlook else {}),
        worn=_worn(last, kit, dict(things)),
        worn_told=_worn_told(last, kit),
        who=last.who if last else "",
        minutes=minutes_for(
            stage,
            so_far(look),
            session_fact(last) if last else None,
        ),
        new=one_new_thing(stage, last_checks),
        why="".join(why),
    )


def _worn(
    last: Session | None, kit: Sequence[Kit], things: Mapping[str, str]
) -> list[Mapping[str, Any]]:
    """Return what the form starts from: worn last time, else what fits."""
    before = [row["thing"] for row in (worn_rows(last) if last else [])]
    before = [thing for thing in dict.fromkeys(before) if thing in things]
    names = {name: key for key, name in things.items()}
    fitting = [names[one.item] for one in kit if one.fits and one.item in names]
    return [{"thing": thing} for thing in before or dict.fromkeys(fitting)]


def _worn_told(last: Session | None, kit: Sequence[Kit]) -> tuple[str, ...]:
    fits = [one.words for one in kit if one.fits]
    told = [f"Fits: {', '.join(dict.fromkeys(fits))}."] if fits else []
    holes = [row for row in last.worn.all() if row.hole] if last else []
    if last is not None and holes:
        said = ", ".join(
            f"{part_word(row.part)} on hole {row.hole}" if row.part else ""
            for row in holes
        )
        told.append(f"Last time, {last.on.day} {last.on:%b}: {said}.")
    return tuple(told)


def _hole_parts(outlook: Outlook, things: Sequence[Choice]) -> dict[str, str]:
    """Return the strap that a hole is on, where one strap stands for the whole."""
    found = {}
    for key, name in things:
        part = holed(one for one in outlook.fits if one.item == name)
        if part is not None:
            found[key] = part.part
    return found


def _last_of(horse: Horse, stage: str) -> Session | None:
    rows = Session.objects.filter(horse=horse, stage=stage).prefetch_related("worn")
    return rows.first()


def _asked(stage: Stage, look: StageLook | None) -> tuple[Choice, ...]:
    if look is None:
        return tuple((key, f"{gate_name(key)}?") for key in stage.gates_on_the_day)
    return tuple(
        (gate.gate, gate.why)
        for gate in look.gates
        if gate.kind == "on_the_day" and gate.answer is not GateAnswer.MET
    )


def _things(yard: Yard) -> tuple[list[Choice], dict[str, str]]:
    """Return what hangs on the pegs, sets first, and the part of what has only one."""
    sets = [(f"set:{row.pk}", row.name) for row in yard.sets.filter(gone__isnull=True)]
    items, single = [], {}
    for row in yard.tack.filter(gone__isnull=True).prefetch_related("parts"):
        items.append((f"item:{row.pk}", row.name))
        parts = [part.part for part in row.parts.all()]
        if len(parts) == 1:
            single[f"item:{row.pk}"] = parts[0]
    return [*sets, *items], single


def worn_rows(session: Session) -> list[dict[str, Any]]:
    """Return what was worn in a session, as its form says it."""
    return [
        {
            "thing": _thing_key(worn),
            "part": worn.part,
            "seen": worn.seen,
            "hole": worn.hole,
        }
        for worn in session.worn.all()
    ]


def _thing_key(worn: SessionWorn) -> str:
    return f"item:{worn.tack_id}" if worn.tack_id else f"set:{worn.made_up_id}"


def as_written(offered: Offered, session: Session) -> Offered:
    """Return what the form offers when a session is corrected (1 query).

    What was worn then is offered again, though it was taken down since.
    """
    names = dict(offered.things)
    kept = [
        (key, str(row.tack or row.made_up))
        for row in session.worn.select_related("tack", "made_up")
        if (key := _thing_key(row)) not in names
    ]
    asked = dict(offered.asked)
    for key in session.on_the_day:
        asked.setdefault(key, f"{gate_name(key).capitalize()}?")
    return replace(
        offered,
        asked=tuple(asked.items()),
        things=[*offered.things, *dict.fromkeys(kept)],
        worn=worn_rows(session),
    )
