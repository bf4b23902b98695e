"""The addresses of what is settled in a yard."""

from __future__ import annotations

from typing import Any

from django.test import Client
from django.urls import reverse

from fitting.models import Yard


def at(name: str, yard: Yard, *args: Any) -> str:
    return reverse(f"starting:{name}", args=[yard.slug, *args])


def text_of(client: Client, address: str) -> str:
    return client.get(address).content.decode()
