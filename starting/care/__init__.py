"""What the records of care say on a day, and how long each still counts."""

from starting.care.said import (
    incident_said,
    off_said,
    off_words,
    rest_said,
    rest_words,
    visit_said,
)
from starting.care.told import records_told
from starting.care.values import (
    ASKED_WHETHER_CLEAR,
    LOOKED_OVER,
    Told,
    Visit,
    Whose,
    say_date,
)

__all__ = [
    "ASKED_WHETHER_CLEAR", "LOOKED_OVER", "Told", "Visit", "Whose", "incident_said",
    "off_said", "off_words", "records_told", "rest_said", "rest_words", "say_date",
    "visit_said",
]  # fmt: skip
