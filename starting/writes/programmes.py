"""A yard's own programmes: copied, changed by a new version, given to a horse."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable

from django.db import transaction

from fitting.models import Yard
from fitting.writes import remember_token, touch
from starting.gates import RestSpan
from starting.models import Plan, ProgrammeVersion, Rest, StageRecord
from starting.programme.tables import table_of, toml_text
from starting.progress import Recorded
from starting.writes.plans import shipped_version


@transaction.atomic
def copy_programme(
    yard: Yard, base: ProgrammeVersion, name: str, why: str, who: str, token: str
) -> ProgrammeVersion:
    """Make a yard's own copy of a programme under a name of its own.

    No horse follows it yet, so that nothing is planned again.
    """
    text = toml_text(table_of(base.text) | {"name": name})
    row = ProgrammeVersion(yard=yard, key=base.key, name=name, text=text)
    return _save(row, why, who, token)


class NewerVersionError(ValueError):
    """Somebody saved a newer version meanwhile."""


@transaction.atomic
def save_version(
    before: ProgrammeVersion, text: str, why: str, who: str, token: str
) -> ProgrammeVersion:
    """Save a new version of a yard's own programme; horses stay on theirs.

    Raises:
        NewerVersionError: ``before`` is the newest no more; nothing is saved.
        ValueError: it is a shipped one, which is never changed.
    """
    if before.yard is None:
        raise ValueError("a shipped programme is never changed")
    Yard.objects.select_for_update().get(pk=before.yard.pk)
    later = ProgrammeVersion.objects.filter(yard=before.yard_id, name=before.name)
    if later.filter(pk__gt=before.pk).exists():
        raise NewerVersionError(before.name)
    row = ProgrammeVersion(
        yard=before.yard, key=before.key, name=before.name, text=text
    )
    return _save(row, why, who, token)


def _save(row: ProgrammeVersion, why: str, who: str, token: str) -> ProgrammeVersion:
    row.digest = hashlib.sha256(row.text.encode()).hexdigest()
    row.what_changed, row.made_by = why, who
    row.full_clean(exclude=["yard"])
    row.save()
    if row.yard is not None:
        remember_token(row.yard, token, row.get_absolute_url())
    return row


@transaction.atomic
def delete_version(row: ProgrammeVersion) -> None:
    """Take away a version that no horse follows."""
    row.delete()


@transaction.atomic
def move_horse(
    plan: Plan,
    version: ProgrammeVersion,
    kept: Iterable[Recorded],
    settling: RestSpan | None,
    token: str,
    led_to: str,
) -> None:
    """Bring a horse on by another programme; what was established stays so.

    Args:
        plan: the horse's.
        version: the programme, as it is now.
        kept: steps that the log established and the new counts would not.
        settling: days to settle in first.
        token: the form's.
        led_to: where it leads.
    """
    horse = plan.horse
    before = plan.programme.name
    plan.programme = version if version.pk else shipped_version(version.key)
    plan.programme_chosen = True
    steps = {step["key"] for step in table_of(version.text)["stage"]}
    if plan.aim_stage not in steps:
        plan.aim_stage, plan.aim_by = "", None
    plan.save()
    for one in kept:
        note = f"Established by “{before}”, and kept."
        fields = {"state": one.state, "on": one.on, "note": note}
        StageRecord.objects.update_or_create(
            horse=horse, stage=one.stage, defaults=fields
        )
    if settling is not None:
        start, end, why = settling.start, settling.end, settling.why
        Rest.objects.create(horse=horse, start=start, end=end, why=why)
    remember_token(horse.yard, token, led_to)
    touch(horse.yard)


@transaction.atomic
def keep_programme(plan: Plan) -> None:
    """Keep the programme a horse has, so that nobody is asked again."""
    plan.programme_chosen = True
    plan.save()
    touch(plan.horse.yard)
