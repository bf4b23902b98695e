"""Which programme a horse is brought on by."""

from __future__ import annotations

from django.db import transaction

from fitting.models import Horse
from starting.models import Plan, ProgrammeVersion
from starting.programme import shipped, shipped_text


def shipped_version(key: str = "default") -> ProgrammeVersion:
    """Return the row of a shipped programme, found by the hash of its text.

    Raises:
        ProgrammeError: no programme of that name is shipped.
    """
    programme, text = shipped(key), shipped_text(key)
    version, _ = ProgrammeVersion.objects.get_or_create(
        yard=None,
        digest=programme.digest,
        defaults={"key": key, "name": programme.name, "text": text},
    )
    return version


@transaction.atomic
def give_plan(horse: Horse) -> Plan | None:
    """Give a youngster the default programme; a grown horse is not brought on."""
    if horse.grown:
        Plan.objects.filter(horse=horse).delete()
        return None
    plan = Plan.objects.filter(horse=horse).first()
    return plan or Plan.objects.create(horse=horse, programme=shipped_version())
