"""The site's apps, and what of their files is served."""

import logging
import re

from django.apps import AppConfig
from django.contrib.staticfiles.apps import StaticFilesConfig

# with or without its ending, whole or cut off: a short one opens nothing
_CALENDAR_KEY = re.compile(r"(?<=/calendar/)[^/\s?'\"]{20,}")


class StartingConfig(AppConfig):
    """The way up: programme, gates, schedule, diary."""

    name = "starting"
    verbose_name = "The way up"

    def ready(self) -> None:
        """Listen for changes of the yard, and for what its pages ask."""
        from starting import writes  # noqa: PLC0415 - models are ready only now
        from starting.reads import off_work, worn, worn_facts  # noqa: PLC0415
        from starting.writes import care  # noqa: PLC0415

        writes.listen()
        care.listen()
        worn_facts.listen()
        worn.listen()
        off_work.listen()


class LeanStaticFilesConfig(StaticFilesConfig):
    """Serve only the files that a page asks for."""

    ignore_patterns = [
        *StaticFilesConfig.ignore_patterns,
        "*.rtl*", "bootstrap-*", "bootstrap.css*",
        "htmax*", "htmx-4*", "htmx-2.js", "hx-*",
    ]  # fmt: skip


class WithoutCalendarKeys(logging.Formatter):
    """Keep calendar links out of the logs: whoever reads one can follow it."""

    def format(self, record: logging.LogRecord) -> str:
        """Return the line, and the trace below it, with links blotted out."""
        return _CALENDAR_KEY.sub("(hidden)", super().format(record))
