"""What every record that people edit has in common."""

from __future__ import annotations

from typing import Any

from django.db import models


class KeptRow(models.Model):
    """A record that counts its edits, so that two people never overwrite blindly."""

    revision = models.PositiveIntegerField(default=0, editable=False)
    changed_at = models.DateTimeField(auto_now=True)

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Count the edit, then save."""
        self.revision += 1
        fields = kwargs.get("update_fields")
        if fields is not None:
            kwargs["update_fields"] = {*fields, "revision", "changed_at"}
        super().save(*args, **kwargs)
