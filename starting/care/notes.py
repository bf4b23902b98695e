"""The cautions and sources that stand beside what the records say."""

from __future__ import annotations

from typing import Final

from starting.gates.mouth import FIRST_BIT_DAYS, HEALING_DAYS, LATER_BIT_DAYS
from starting.schedule.jobs import QUIET_DAYS_AFTER_VACCINATION

# Source: common practice, no published source: advice runs from four to eight weeks.
FARRIER_WEEKS: Final = (4, 8)

# Source: client advice of several equine practices, which agree on six months.
MOUTH: Final = (
    (
        "Have the mouth looked at by your vet, or by a qualified dental technician"
        " within your country's rules; sedation and most treatment are the vet's. That"
        " somebody qualified looked does not say that the mouth is free of trouble."
        " Never pull a cap or a wolf tooth yourself."
    ),
    (
        "In general: every six months under five years, later at least yearly. Client"
        " advice of several equine practices; no study was found."
    ),
)
COUNTS: Final = (
    (
        f"For a first bit a look counts {FIRST_BIT_DAYS[0]} days, and up to"
        f" {FIRST_BIT_DAYS[1]} as 'yes, but'; for later steps {LATER_BIT_DAYS[0]} and"
        f" {LATER_BIT_DAYS[1]}. After wolf teeth are out the mouth heals for"
        f" {HEALING_DAYS} days, if nobody named others. These days are ours."
    ),
)
VACCINATION: Final = (
    (
        f"Nothing new on the day and {QUIET_DAYS_AFTER_VACCINATION} days after it"
        " (ours). Fever, swelling, a dull horse: ask your vet. When and with what is"
        " between you, your vet and the product."
    ),
)
VET: Final = (
    (
        "Your vet's dates come first, and the plan moves round them. No visit written"
        " down, or nothing left open, does not say that a horse is well."
    ),
)
FARRIER: Final = (
    (
        f"In general: every {FARRIER_WEEKS[0]} to {FARRIER_WEEKS[1]} weeks, foals about"
        " monthly. Common practice, no published source. Your farrier's dates come"
        " first."
    ),
)
WORMING: Final = (
    (
        "When, with what and how much: follow your vet and the product. The site gives"
        " no doses."
    ),
)
