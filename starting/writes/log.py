"""The log: sessions written in, corrected, deleted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from django.db import transaction

from fitting.models import FirstWorn, SetPart, Tack, TackSet
from fitting.writes import remember_token, touch
from starting.models import OffWork, Session, SessionWorn
from starting.writes.care import wait_for_vet

RING_VET: Final = "ring_vet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Worn:
    """What was worn: an item or a set, by its row, and how it sat."""

    kind: str  # item, set
    pk: int
    part: str = ""
    seen: str = ""
    hole: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """What a session led to beside itself."""

    put_off_work: bool
    first_worn: tuple[str, ...]  # kinds of tack


@transaction.atomic
def write_session(
    session: Session, worn: Sequence[Worn], token: str, led_to: str, *, bitted: bool
) -> Done:
    """Save a session, new or corrected, with what was worn.

    ``bitted``: the step asks for a bit; else a made-up set is worn without its own.

    A sign to ring the vet puts the horse off work; a kind of tack that was never worn
    before is worn for the first time. Neither is taken back by a later correction.
    """
    yard = session.horse.yard
    session.save()
    session.worn.all().delete()
    SessionWorn.objects.bulk_create(_worn_row(session, one) for one in worn)
    done = Done(
        put_off_work=session.stop_level == RING_VET
        and wait_for_vet(session.horse, session.on, session.stop_sign),
        first_worn=_first_worn(session, worn, bitted=bitted),
    )
    remember_token(yard, token, led_to)
    touch(yard)
    return done


def _worn_row(session: Session, worn: Worn) -> SessionWorn:
    return SessionWorn(
        session=session,
        tack_id=worn.pk if worn.kind == "item" else None,
        made_up_id=worn.pk if worn.kind == "set" else None,
        part=worn.part,
        seen=worn.seen,
        hole=worn.hole,
    )


def off_work_by(session: Session) -> OffWork | None:
    """Return the off work that a session's stop sign began, if it is still there."""
    if session.stop_level != RING_VET:
        return None
    return OffWork.objects.filter(
        horse=session.horse, start=session.on, why=session.stop_sign
    ).first()


def _first_worn(
    session: Session, worn: Sequence[Worn], *, bitted: bool
) -> tuple[str, ...]:
    """Note each kind worn for the first time; an earlier day than noted moves it."""
    known = {row.kind: row for row in session.horse.first_worn.order_by("-on")}
    new = []
    for kind, item in dict(reversed(list(_kinds(worn, bitted=bitted)))).items():
        row = known.get(kind)
        if row is None:
            FirstWorn.objects.create(
                horse=session.horse,
                kind=kind,
                tack=item,
                on=session.on,
                who=session.who,
            )
            new.append(Tack.Kind(kind).label)
        elif session.on < row.on and row.tack_id == item.pk:
            row.on, row.who = session.on, session.who
            row.save(update_fields=["on", "who"])
    return tuple(new)


def _kinds(worn: Sequence[Worn], *, bitted: bool) -> Iterator[tuple[str, Tack]]:
    """Give each kind of tack that was worn, with its item (2 queries)."""
    items = Tack.objects.in_bulk([one.pk for one in worn if one.kind == "item"])
    sets = TackSet.objects.prefetch_related("parts__tack").in_bulk(
        [one.pk for one in worn if one.kind == "set"]
    )
    for one in worn:
        if one.kind == "item":
            yield items[one.pk].kind, items[one.pk]
            continue
        for part in sets[one.pk].parts.all():
            if bitted or part.slot != SetPart.Slot.BIT:
                yield part.tack.kind, part.tack


@transaction.atomic
def delete_session(session: Session) -> None:
    """Delete a session; off work begun by it, and what was first worn, stay."""
    yard = session.horse.yard
    session.delete()
    touch(yard)
