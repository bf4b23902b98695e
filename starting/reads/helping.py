"""What the helper's page shows: what is theirs to do, today and on their next days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from django.contrib.auth.models import AbstractBaseUser
from django.urls import reverse

from fitting.models import Yard
from starting.dated import doing_of
from starting.dated.bring import for_a_visit, measuring_tools
from starting.diary import horse_key_of
from starting.helping import (
    DAYS,
    HANDS,
    Appointment,
    Hand,
    HelpDay,
    HorseDays,
    help_days,
)
from starting.models import DiaryEntry, Person
from starting.reads.diary_rows import entry_of, live_row
from starting.reads.facts import weekdays
from starting.reads.outlook import briefs
from starting.reads.yards import days_in_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Helper:
    """Somebody the page can be seen for."""

    pk: int
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HelpingPage:
    """What is theirs to do; ``pk`` 0: of nobody in particular."""

    pk: int
    name: str
    title: str
    days_said: str
    on: date
    child: bool
    hands_off: bool  # listed, but not as one who helps or handles
    days: tuple[HelpDay, ...]
    cautions: tuple[str, ...]
    people: tuple[Helper, ...]

    @property
    def more(self) -> bool:
        """Whether there is anything after today."""
        return len(self.days) > 1


def helping_page(
    yard: Yard, user: AbstractBaseUser, on: date, pk: int | None = None
) -> HelpingPage | None:
    """Return what is somebody's to do (4 queries); None: nobody of that key is here.

    People, horses with their plans, outlooks, diary. Without a key it is for the one
    who looks, where somebody of that name is listed, else for any helper.
    """
    people = list(yard.people.all())
    you = _named(people, user)
    asked = you if pk is None else next((p for p in people if p.pk == pk), None)
    if pk is not None and asked is None:
        return None
    hand = _hand(asked)
    days = help_days(hand, _horses(yard), _entries(yard, on), _weekdays(yard), on)
    return HelpingPage(
        pk=asked.pk if asked else 0,
        name=hand.name,
        title=_title(asked, you),
        days_said=_days_said(yard),
        on=on,
        child=hand.child,
        hands_off=asked is not None and not hand.can & HANDS and not hand.child,
        days=days,
        cautions=_cautions(days),
        people=tuple(Helper(pk=p.pk, name=p.name) for p in people),
    )


def _named(people: list[Person], user: AbstractBaseUser) -> Person | None:
    """Return who is listed by the name that somebody signs in with, or goes by."""
    full = getattr(user, "get_full_name", str)()
    names = {name.casefold() for name in (full, user.get_username()) if name}
    return next((p for p in people if p.name.casefold() in names), None)


def _hand(person: Person | None) -> Hand:
    if person is None:
        return Hand(name="the helper")
    return Hand(name=person.name, can=frozenset(person.can), child=person.child)


def _title(asked: Person | None, you: Person | None) -> str:
    if asked is None:
        return "For the helper"
    return f"{asked.name}: yours to do" if asked == you else f"For {asked.name}"


def _days_said(yard: Yard) -> str:
    if yard.helper_days:
        return f"The helper's days here: {days_in_words(yard.helper_days)}."
    free = days_in_words(yard.free_days)
    return f"No helper's days are named here. The yard's free days: {free}."


def _weekdays(yard: Yard) -> frozenset[int]:
    return weekdays(yard.helper_days or yard.free_days)


def _horses(yard: Yard) -> tuple[HorseDays, ...]:
    """Return the youngsters with their planned days (2 queries)."""
    seen = briefs(yard)
    rows = yard.horses.filter(grown=False)
    return tuple(
        HorseDays(
            name=row.name,
            key=row.key,
            days=seen[row.key].days_ahead,
            rider=_of_plan(row, "rider"),
            trainer=_of_plan(row, "trainer"),
        )
        for row in rows.select_related("plan__rider", "plan__trainer")
        if row.key in seen
    )


def _of_plan(row: object, what: str) -> str:
    person = getattr(getattr(row, "plan", None), what, None)
    return person.name if person else ""


def _entries(yard: Yard, on: date) -> tuple[Appointment, ...]:
    """Return the diary of the fortnight, what is overdue first (1 query)."""
    last = on + timedelta(days=DAYS - 1)
    rows = DiaryEntry.objects.filter(yard=yard, on__lte=last)
    return tuple(_appointment(row, yard.slug) for row in rows)


def _appointment(row: DiaryEntry, slug: str) -> Appointment:
    entry, shown = entry_of(row), live_row(row, slug, row.on, acts=False)
    doing, at = doing_of(entry), [slug, horse_key_of(entry.key)]
    bring: tuple[str, ...] = ()
    done_on = ""
    if doing.record == "measure":
        bring, done_on = measuring_tools(doing.measures), "fitting:measure"
    elif doing.record == "try_on":
        bring, done_on = (f"the {doing.what.replace('_', ' ')}",), "fitting:try-on"
    elif doing.record == "visit":
        bring = for_a_visit(doing.what)
    return Appointment(
        on=entry.on,
        kind=entry.kind,
        horse=entry.horse,
        title=shown.title,
        reason=shown.reason,
        href=shown.href,
        what=shown.what,
        bring=bring,
        done_on=reverse(done_on, args=at) if done_on else "",
    )


def _cautions(days: tuple[HelpDay, ...]) -> tuple[str, ...]:
    every = (job.caution for day in days for job in day.jobs if job.caution)
    return tuple(dict.fromkeys(every))
