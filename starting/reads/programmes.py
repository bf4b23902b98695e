"""What the pages of programmes show: the list, one of them, its versions."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby

from django.db.models import Q
from django.utils import timezone

from fitting.models import Yard
from starting.differences import Apart, differences, said_of_all
from starting.gates import gate_name
from starting.models import Plan, ProgrammeVersion
from starting.programme import Programme, Stage, shipped, shipped_keys, shipped_text
from starting.programme.ages import numbered, said_span
from starting.programme.editing import gone_from
from starting.programme.shipped import shipped_table
from starting.programme.tables import table_of
from starting.reads.facts import programme_of
from starting.reads.step_facts import how
from starting.reads.which_programme import ref_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Follows:
    """A horse brought on by a programme."""

    name: str
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgrammeRow:
    """One programme as a row; ``version`` 0: it is shipped."""

    ref: str
    name: str
    for_whom: str
    made_from: str
    version: int
    made_at: datetime | None
    made_by: str
    why: str
    horses: tuple[Follows, ...]
    differs: tuple[str, ...]  # names of the steps that are otherwise than as shipped

    @property
    def own(self) -> bool:
        """Whether it is the yard's own."""
        return self.version > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgrammesPage:
    """Every programme a horse of the yard can follow."""

    shipped: tuple[ProgrammeRow, ...]
    own: tuple[ProgrammeRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepLines:
    """One step of a programme, as it is read and printed."""

    key: str
    name: str
    optional: bool
    aim: str
    earliest: tuple[str, str]
    lines: tuple[tuple[str, str], ...]
    ticks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PhaseLines:
    """The steps of one phase."""

    name: str
    steps: tuple[StepLines, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgrammePage:
    """One programme: who follows it, and its steps."""

    row: ProgrammeRow
    newest: str  # the newest version of the yard's own; empty: this is it
    as_a_whole: tuple[str, ...]
    phases: tuple[PhaseLines, ...]
    gone: tuple[tuple[str, str], ...]  # steps taken out: key and name
    may_delete: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionRow:
    """One version, and what it has otherwise than the one before."""

    row: ProgrammeRow
    before: str
    as_a_whole: tuple[str, ...]
    apart: tuple[Apart, ...]


def find(yard: Yard, ref: str) -> ProgrammeVersion | None:
    """Return a version by its number, or a shipped one by its name (1 query)."""
    if ref in shipped_keys():
        return ProgrammeVersion(
            key=ref,
            name=shipped(ref).name,
            digest=shipped(ref).digest,
            text=shipped_text(ref),
        )
    if not ref.isdecimal():
        return None
    mine = ProgrammeVersion.objects.filter(Q(yard=yard) | Q(yard=None))
    return mine.select_related("yard").filter(pk=int(ref)).first()


def versions_of(row: ProgrammeVersion) -> list[ProgrammeVersion]:
    """Return a yard's own programme in all its versions, oldest first (1 query)."""
    rows = ProgrammeVersion.objects.filter(yard=row.yard_id, name=row.name)
    return list(rows.order_by("pk"))


def newest_of(row: ProgrammeVersion) -> ProgrammeVersion:
    """Return the newest version of a yard's own programme (1 query)."""
    return versions_of(row)[-1]


def programmes_page(yard: Yard) -> ProgrammesPage:
    """Return every programme a horse can follow (2 queries: horses, own ones)."""
    follow = _followed(yard)
    lines = _own_lines(yard)
    return ProgrammesPage(
        shipped=tuple(_shipped_row(key, follow) for key in shipped_keys()),
        own=tuple(_row(line[-1], len(line), follow, line) for line in lines),
    )


def _own_lines(yard: Yard) -> list[list[ProgrammeVersion]]:
    """Return the yard's own programmes, each in all its versions, by name."""
    rows = sorted(yard.programmes.all(), key=lambda row: (row.name, row.pk))
    return [list(group) for _, group in groupby(rows, key=lambda row: row.name)]


Followed = dict[int | str, list[Follows]]  # by version, and by digest if shipped


def _followed(yard: Yard) -> Followed:
    found: Followed = {}
    plans = Plan.objects.filter(horse__yard=yard, horse__grown=False)
    named = plans.select_related("horse", "programme").order_by("horse__name")
    for plan in named:
        horse = Follows(name=plan.horse.name, key=plan.horse.key)
        row = plan.programme
        found.setdefault(row.pk if row.yard_id else row.digest, []).append(horse)
    return found


def _shipped_row(key: str, follow: Followed) -> ProgrammeRow:
    programme = shipped(key)
    return ProgrammeRow(
        ref=key,
        name=programme.name,
        for_whom=programme.for_whom,
        made_from="",
        version=0,
        made_at=None,
        made_by="",
        why="",
        horses=tuple(follow.get(programme.digest, ())),
        differs=_differs(shipped(), programme),
    )


def _differs(before: Programme, after: Programme) -> tuple[str, ...]:
    return tuple(one.name for one in differences(before, after))


def _row(
    row: ProgrammeVersion,
    version: int,
    follow: Followed,
    versions: Sequence[ProgrammeVersion] = (),
) -> ProgrammeRow:
    """Return an own version as a row, with who follows it or any of ``versions``."""
    programme = programme_of(row)
    pks = [one.pk for one in versions or (row,)]
    return ProgrammeRow(
        ref=ref_of(row),
        name=row.name,
        for_whom=programme.for_whom,
        made_from=shipped(row.key).name,
        version=version,
        made_at=timezone.localtime(row.made_at),
        made_by=row.made_by,
        why=row.what_changed,
        horses=tuple(horse for pk in pks for horse in follow.get(pk, ())),
        differs=_differs(shipped(row.key), programme),
    )


def programme_page(yard: Yard, row: ProgrammeVersion) -> ProgrammePage:
    """Return one programme (2 queries: horses, versions)."""
    follow = _followed(yard)
    versions = versions_of(row) if row.yard_id else [row]
    number = [one.pk for one in versions].index(row.pk) + 1
    shown = _row(row, number, follow) if row.yard_id else _of_shipped(row, follow)
    programme = programme_of(row)
    base = shipped() if not row.yard_id else shipped(row.key)
    gone = gone_from(shipped_table(row.key), table_of(row.text)) if row.yard_id else ()
    return ProgrammePage(
        row=shown,
        newest=ref_of(versions[-1]) if versions[-1].pk != row.pk else "",
        as_a_whole=said_of_all(base, programme) or said_of_all(shipped(), programme),
        phases=_phases(programme),
        gone=tuple((step["key"], step["name"]) for step in gone),
        may_delete=bool(row.yard_id) and row == versions[-1] and not shown.horses,
    )


def _of_shipped(row: ProgrammeVersion, follow: Followed) -> ProgrammeRow:
    """Return a shipped programme as a row, though it may be one of before."""
    programme = programme_of(row)
    return ProgrammeRow(
        ref=ref_of(row),
        name=row.name,
        for_whom=programme.for_whom,
        made_from="",
        version=0,
        made_at=None,
        made_by="",
        why="",
        horses=tuple(follow.get(row.digest, ())),
        differs=_differs(shipped(), programme),
    )


def _phases(programme: Programme) -> tuple[PhaseLines, ...]:
    names = {stage.key: stage.name for stage in programme.stages}
    return tuple(
        PhaseLines(name=phase, steps=tuple(_step(stage, names) for stage in group))
        for phase, group in groupby(programme.stages, key=lambda s: s.phase)
    )


def _step(stage: Stage, names: dict[str, str]) -> StepLines:
    return StepLines(
        key=stage.key,
        name=stage.name,
        optional=stage.optional,
        aim=stage.aim,
        earliest=numbered(stage.earliest_months),
        lines=tuple(_step_lines(stage, names)),
        ticks=tuple(check.text for check in stage.checks),
    )


def _step_lines(stage: Stage, names: dict[str, str]) -> Iterable[tuple[str, str]]:
    floor = f"; never under {stage.floor_months:g} (ours)" if stage.floor_months else ""
    yield "Age", f"usually {said_span(*stage.typical_months)}{floor}"
    if stage.prerequisites:
        yield "After", ", ".join(names[key] for key in stage.prerequisites)
    asked = (*stage.gates_dated, *stage.gates_to_do)
    if asked:
        yield "Asks first", ", ".join(map(gate_name, asked))
    if stage.gates_on_the_day:
        yield "On the day", ", ".join(map(gate_name, stage.gates_on_the_day))
    yield from how(stage)


def versions_page(yard: Yard, row: ProgrammeVersion) -> tuple[VersionRow, ...]:
    """Return a yard's own programme in all its versions, newest first (2 queries)."""
    follow, rows = _followed(yard), versions_of(row)
    found = []
    before, called = shipped(row.key), shipped(row.key).name
    for number, one in enumerate(rows, 1):
        programme = programme_of(one)
        found.append(
            VersionRow(
                row=_row(one, number, follow),
                before=called,
                as_a_whole=said_of_all(before, programme),
                apart=differences(before, programme),
            )
        )
        before, called = programme, f"version {number}"
    return tuple(reversed(found))
