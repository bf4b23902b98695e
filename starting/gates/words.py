"""What the gates are called on the screen, and the cautions that stand beside them."""

from __future__ import annotations

from datetime import date
from typing import Final

NAMES: Final = {
    "age": "old enough",
    "stages_before": "steps before",
    "rest": "not resting",
    "off_work": "not off work",
    "teeth": "teeth looked at",
    "wolf_teeth": "wolf teeth",
    "vet": "seen by the vet",
    "farrier": "feet done",
    "weight_trend": "not losing weight",
    "rider_load": "rider not too heavy",
    "rider_experience": "a rider who has backed horses",
    "growth_pause": "not in a growth spurt",
    "season": "time of year",
    "trainer": "a trainer there",
    "condition_score": "in good condition",
    "recent_sessions": "enough good sessions lately",
    "gone_back": "good sessions a step back",
    "stuck": "looked over, after going back three times",
    "incident": "looked over since the incident",
    "long_off": "brought back after time off",
    "ground": "level dry ground",
    "daylight": "daylight",
    "enclosed": "a fenced place",
    "calm_day": "a calm day",
    "second_person": "a second person",
    "second_person_first": "a second person at first",
    "safety_gear": "hat, gloves and boots",
    "company": "company in the field",
    "mouth_watch": "mouth looked into",
    "fit:cavesson": "a lungeing cavesson that fits",
}

CAUTION_AGE: Final = (
    "Ages here are earliest starting points, not targets; the floors under them are "
    "ours. Studies disagree: limbs finish well before the spine, whose growth plates "
    "close between 4.9 and 6.7 years. Size and breed do not show that a horse is "
    "ready. Ask your vet whether this one is strong enough; a late or unwell horse "
    "waits longer, and your country or federation may ask for more."
)
CAUTION_TEETH: Final = (
    "Somebody qualified has looked; that does not say the mouth is free of trouble. "
    "Have it looked at by your vet, or by a qualified dental technician within your "
    "country's rules; sedation and most treatment are the vet's. Never pull a cap or "
    "a wolf tooth yourself. Milk cheek teeth go between about 2½ and 4 years: look "
    "again whenever the bit is minded. The 90, 180 and 365 days and the 14 days "
    "after an extraction are ours."
)
CAUTION_BIT: Final = (
    "A bit that measures right can still hurt. For a first one: smooth, plain and not "
    "loose. Look at the lips and bars after each session, and ask your vet or a "
    "qualified dental technician about anything sore."
)
CAUTION_BRIDLE: Final = (
    "Check a noseband at the front of the nose; it never holds the mouth shut. If it "
    "seems to need to be tight, look for pain first, with your vet."
)
CAUTION_HEADCOLLAR: Final = (
    "Look at a headcollar on a foal or a growing horse every day it is worn, and never "
    "leave one on where nobody watches: it can be too tight within a week, and a hind "
    "foot or a fence can catch in it."
)
CAUTION_CAVESSON: Final = (
    "A cavesson lies on bone, firm with a finger under it, and never holds the mouth "
    "shut; if it is minded, look for pain first, with your vet. An ordinary headcollar "
    "is too loose to lunge from."
)
CAUTION_ROLLER: Final = (
    "A wide pad under it, two fingers clear over the spine, and the same hole both "
    "sides: common practice, no published source. Take it up a hole at a time, with a "
    "walk between; a tight one done up at once is how a horse learns to buck in it."
)
CAUTION_SADDLE: Final = (
    "Have a saddle looked at by a qualified saddle fitter before a rider sits in it, "
    "and again as the back changes: Longrein asks after 56 days up to four years and "
    "90 later, both ours, and fitters differ. A sore back, or one dipped from the "
    "hand, is for your vet: leave the saddle off."
)
CAUTION_GIRTH: Final = (
    "Do a girth up a hole at a time, the same both sides, buckles clear of the elbow; "
    "look at the skin under it after each use, and ask your vet about a sore one."
)
CAUTION_RUG: Final = (
    "Look under a rug every day, for rubs and for straps that a foot could catch in; "
    "one grown too short pulls on the withers."
)
CAUTION_SAFETY: Final = (
    "Backing and work on lines are dangerous: an experienced helper, a hat to a "
    "current standard, a body protector with a rider, never alone."
)
CAUTION_CROUP: Final = (
    "A youngster's croup is normally the higher, by 2 to 6 cm in the breeds measured:"
    " that is no illness. A horse that stumbles, is lame or unlevel, or is sore in the"
    " back stops work whatever is measured: ring your vet. The 5 cm (heavy breeds 6),"
    " the 2 cm over the usual and the 28 days are ours."
)
CAUTION_SEASON: Final = (
    "The months are ours: what counts is dry, level ground and light to the end of the"
    " session, and that is asked on the day, whatever the month."
)
CAUTION_LOAD: Final = (
    "The share is a guide for a sound, fit horse in good condition; a green horse"
    " carries less, for less time. No study sets a limit for a horse being backed, and"
    " experts differ: some federations hold 20 % for grown horses, with less for young"
    " ones; 12 and 15 % are ours. A weight by tape can be a tenth out: use a scale when"
    " it matters, never this figure to dose medicine. Ask your vet about a youngster,"
    " and have the saddle checked by a qualified fitter."
)
CAUTION_LAME: Final = (
    "If a horse is lame, sore, losing weight, bleeding or not itself, stop and ring "
    "your vet."
)
CAUTION_PAIN: Final = (
    "A horse that goes back is often a horse that hurts: lame, sore in the back, "
    "bleeding at the mouth or suddenly cross is for your vet, whatever is counted here."
)
CAUTION_INCIDENT: Final = (
    "Fourteen quiet days rule nothing out. Have horse, and anybody who was hurt or hit "
    "their head, looked at before anything goes on; a hat or body protector that took "
    "a blow is replaced."
)


def gate_name(key: str) -> str:
    """Return what a gate is called on the screen, in the trade's words."""
    if key in NAMES:
        return NAMES[key]
    subject, _, what = key.partition(":")
    said = what.replace("_", " ")
    if subject == "fresh" and said:
        return f"{said} measured"
    if subject == "fit" and said:
        return f"a {said} that fits"
    if subject == "new_tack" and said:
        return f"a session in the new {said}"
    if subject == "outgrown" and said:
        return f"a {said} in place of the outgrown one"
    return key.replace("_", " ").replace(":", " ")


def say_day(on: date) -> str:
    """Return a day in words: ``28 October 2021``."""
    return f"{on.day} {on:%B %Y}"


def say_days(days: int) -> str:
    """Return a number of days in words: ``1 day``, ``12 days``."""
    return "1 day" if days == 1 else f"{days} days"


def clause(text: str) -> str:
    """Return a sentence without its full stop, to stand inside another."""
    return text.strip().rstrip(".")
