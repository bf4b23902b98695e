"""The cautions and sources that stand beside what the records say."""

from __future__ import annotations

from typing import Final

from fitting.teeth import WOLF_TEETH_MONTHS
from starting.gates.gelding import GELDING_DAYS
from starting.gates.mouth import FIRST_BIT_DAYS, HEALING_DAYS, LATER_BIT_DAYS
from starting.schedule.jobs import QUIET_DAYS_AFTER_VACCINATION

# Source: common practice, no published source: advice runs from four to eight weeks.
FARRIER_WEEKS: Final = (4, 8)

# Source: flu_2024, of a course for shows: days after the one before.
FLU_SECOND_DAYS: Final = (21, 60)
FLU_THIRD_DAYS: Final = (120, 180)
# Source: fei_flu_2019, before the day of arrival.
FLU_BOOSTER_MONTHS: Final = 6
FLU_BOOSTER_DAYS: Final = 21
FLU_QUIET_DAYS: Final = 7

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
MOUTH_WATCH: Final = (
    (
        "Watch without reaching in: in daylight lift the lips at the front and the"
        " sides, once a week from 28 to 54 months (ours); never put fingers between"
        " the teeth. Feed dropped half chewed, slow chewing, the head held to one"
        " side, the bit minded, blood, a bad smell: leave the bit out and ask your vet"
        " or a qualified dental technician (common practice, no published source)."
        " Seen a tooth change? Write it in: the head is then measured again."
    ),
    (
        "Ages: the textbooks of Munroe (ed.), Coumbe and Craig (1912), which differ by"
        " up to a year; single horses differ more. The milk cheek teeth go between"
        " 2½ and 4 years, a veterinary practice tells owners. In this span a bit that"
        " was taken well can be minded from one day to the next."
    ),
)
WOLF_TEETH: Final = (
    (
        f"Wolf teeth come through at {WOLF_TEETH_MONTHS[0]} to {WOLF_TEETH_MONTHS[1]}"
        " months; 40 to 80 % of horses have one at some time, 15 to 20 % of those over"
        " two and a half still do (BEVA Congress 2010). Whether one has to come out is"
        " for your vet to say; vets differ."
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
        " (ours; a magazine advises nothing new along with it). Fever, swelling, a dull"
        " horse: ask your vet. When and with what is between you, your vet and the"
        " product."
    ),
    (
        "For shows, flu rules since January 2024 as veterinary practices tell them: a"
        f" second {FLU_SECOND_DAYS[0]} to {FLU_SECOND_DAYS[1]} days after the first, a"
        f" third {FLU_THIRD_DAYS[0]} to {FLU_THIRD_DAYS[1]} days after the second. An"
        f" international body's (2019): the last within {FLU_BOOSTER_MONTHS} months and"
        f" {FLU_BOOSTER_DAYS} days of arrival, none within {FLU_QUIET_DAYS} days before"
        " it. Bodies differ and change: read your own's, and ask your vet."
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
        " no doses. No weight here is good enough to dose by. In general: dung is"
        " counted for eggs once or twice a year, without fixed intervals, and horses"
        " under about three years need a plan of their own (American Association of"
        " Equine Practitioners, 2024)."
    ),
)
GELDING: Final = (
    (
        f"Nothing new for {GELDING_DAYS} days, or as long as your vet says, and then"
        " only once cleared. Movement is needed every day meanwhile: a veterinary"
        " school asks for it for two weeks or until healed, and for 14 to 30 days"
        " apart from mares (Michigan State University). The hold is ours. Swelling,"
        " bleeding or a dull horse: ring your vet."
    ),
)
