"""What the pages of the horses show."""

from __future__ import annotations

from datetime import date

from fitting.age import rising_words, say_age
from fitting.models import Horse


def horse_words(row: Horse, on: date) -> str:
    """Return what a horse is: sex, age, rising, type."""
    words = [f"{row.get_sex_display()}, {say_age(row.foaled_days, on)}"]
    if not row.grown:
        words.append(rising_words(row.foaled_days, on, row.yard.hemisphere))
    words.append(row.get_horse_type_display())
    return " ".join(f"{word[:1].upper()}{word[1:]}." for word in words if word)
