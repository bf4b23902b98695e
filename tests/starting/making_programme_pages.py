"""What is sent and read of a yard's own programmes."""

from __future__ import annotations

import re
from typing import Any

from django.test import Client
from django.urls import reverse

from fitting.models import Yard
from starting.writes.plans import shipped_version
from starting.writes.programmes import copy_programme


def at(yard: Yard, name: str, *parts: object) -> str:
    return reverse(f"starting:{name}", args=[yard.slug, *parts])


def own(yard: Yard, base: str = "default", name: str = "As we do it") -> Any:
    return copy_programme(yard, shipped_version(base), name, "To try.", "Jo", "")


def jo(yard: Yard) -> str:
    """Return the keeper's name."""
    return yard.memberships.get(role="keeper").user.username


def said(answer: Any) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.content.decode()))


def sent(client: Client, there: str, **changes: Any) -> dict[str, Any]:
    """Return what the step's form would send as it stands, with some changes."""
    form = client.get(there).context["form"]
    fields = {n: form[n].value() for n in form.fields if form[n].value() is not None}
    return fields | {"why": "Wetter springs."} | changes
