"""The log becomes each step's state, with the rules that hold it back."""

from starting.progress.log import is_good
from starting.progress.states import progress
from starting.progress.values import (
    Beside,
    CheckAnswer,
    Held,
    Incident,
    Look,
    Looked,
    NewTack,
    Outgrown,
    Progress,
    Recorded,
    Rule,
    SessionDone,
    StageProgress,
    State,
)

__all__ = [
    "Beside", "CheckAnswer", "Held", "Incident", "Look", "Looked", "NewTack",
    "Outgrown", "Progress", "Recorded", "Rule", "SessionDone", "StageProgress", "State",
    "is_good", "progress",
]  # fmt: skip
