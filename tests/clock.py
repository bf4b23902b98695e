"""The day of the tests: one and the same, however late it is and long they take.

The site asks one clock what day it is. In the tests, and in the commands they start,
it begins at noon of ``TESTS_DAY`` and goes on from there: no day ends meanwhile, and no
test depends on the day it is run. To see them on another day, name that one:
``TESTS_DAY=2028-02-29 python -m pytest``.
"""

import os
from datetime import UTC, date, datetime, time
from typing import Final
from unittest import mock

USUAL_DAY: Final = "2026-11-26"


def hold_the_day() -> None:
    """Set the site's clock to noon of the tests' day, for commands they start too."""
    day = date.fromisoformat(os.environ.setdefault("TESTS_DAY", USUAL_DAY))
    ahead = datetime.combine(day, time(12), UTC) - datetime.now(UTC)

    def now() -> datetime:
        return datetime.now(UTC) + ahead

    mock.patch("django.utils.timezone.now", now).start()
