"""Diary entries as pages tell them: how they stand, what is done, what it became."""

from starting.dated.became import Became, Gone, Records, TickRow, became, is_shown
from starting.dated.doing import Doing, doing_of, is_plain
from starting.dated.months import Month, month_of, read_month
from starting.dated.parts import Part, in_parts, open_until
from starting.dated.rows import Act, DiaryRow
from starting.dated.standing import SIGNS, Standing, standing_of, stands_words
from starting.dated.ticks import Ticked, without_ticked
from starting.dated.together import Together, together
from starting.dated.told import Told, short_title, told_of

__all__ = [
    "SIGNS",
    "Act",
    "Became",
    "DiaryRow",
    "Doing",
    "Gone",
    "Month",
    "Part",
    "Records",
    "Standing",
    "TickRow",
    "Ticked",
    "Together",
    "Told",
    "became",
    "doing_of",
    "in_parts",
    "is_plain",
    "is_shown",
    "month_of",
    "open_until",
    "read_month",
    "short_title",
    "standing_of",
    "stands_words",
    "together",
    "told_of",
    "without_ticked",
]
