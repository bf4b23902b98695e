"""The diary as it was published, and the links that may read it."""

from __future__ import annotations

from django.db import models

from fitting.models import Horse, Yard

ENTRY_KINDS = (
    ("measure", "measuring days"),
    ("try_on", "try-ons"),
    ("care", "care"),
    ("get", "tack to get"),
    ("stage_opens", "a step opens"),
    ("stage_starts", "a step's planned start"),
)


class DiaryEntry(models.Model):
    """One entry as published: its UID stays, its sequence only goes up."""

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="diary")
    horse = models.ForeignKey(
        Horse, models.SET_NULL, null=True, blank=True, related_name="diary"
    )
    key = models.CharField(max_length=160)
    uid = models.CharField(max_length=120)
    sequence = models.PositiveIntegerField(default=0)
    created = models.DateTimeField()
    changed = models.DateTimeField()
    digest = models.CharField(max_length=64)
    on = models.DateField()
    content = models.BinaryField()

    class Meta:
        ordering = ["on", "key"]
        constraints = [
            models.UniqueConstraint(fields=["yard", "key"], name="diary_key_once"),
            models.UniqueConstraint(fields=["yard", "uid"], name="diary_uid_once"),
        ]

    def __str__(self) -> str:
        return self.key


class RetiredEntry(models.Model):
    """An entry that has gone: should it return, its sequence and times go on."""

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="retired_entries")
    uid = models.CharField(max_length=120)
    sequence = models.PositiveIntegerField()
    created = models.DateTimeField(null=True, blank=True)
    changed = models.DateTimeField(null=True, blank=True)

    class Meta:
        verbose_name_plural = "retired entries"
        constraints = [
            models.UniqueConstraint(fields=["yard", "uid"], name="retired_uid_once")
        ]

    def __str__(self) -> str:
        return self.uid


class PastEntry(models.Model):
    """An entry that has gone, as it stood last; what it became the records tell."""

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="past_entries")
    horse = models.ForeignKey(Horse, models.CASCADE, related_name="past_entries")
    uid = models.CharField(max_length=120)
    on = models.DateField()
    since = models.DateField("first published")
    gone_on = models.DateField()
    content = models.BinaryField()

    class Meta:
        ordering = ["on", "uid"]
        verbose_name_plural = "past entries"
        indexes = [models.Index(fields=["yard", "on"])]
        constraints = [
            models.UniqueConstraint(
                fields=["yard", "uid", "on"], name="past_entry_once"
            )
        ]

    def __str__(self) -> str:
        return f"{self.uid}, {self.on}"


class DiaryTick(models.Model):
    """A task of the diary, ticked by hand because no record tells that it is done."""

    horse = models.ForeignKey(Horse, models.CASCADE, related_name="diary_ticks")
    key = models.CharField(max_length=160)
    due_on = models.DateField()
    on = models.DateField()
    who = models.CharField(max_length=150)

    class Meta:
        ordering = ["on", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["horse", "key", "due_on"], name="diary_tick_once"
            )
        ]

    def __str__(self) -> str:
        return f"{self.key}, {self.on}"


class CalendarKey(models.Model):
    """One calendar link: only the hash of its secret is kept.

    What a poll asks for stands in this row alone; the bodies lie apart.
    """

    class Alarm(models.TextChoices):
        NONE = "", "no reminder"
        DAY = "day", "at seven on the day"
        EVE = "eve", "at six the evening before"

    yard = models.ForeignKey(Yard, models.CASCADE, related_name="calendar_keys")
    key_hash = models.CharField(max_length=64, unique=True)
    label = models.CharField(max_length=60)
    alarm = models.CharField(max_length=3, choices=Alarm, blank=True)
    kinds = models.JSONField(default=list, blank=True)
    horses = models.JSONField(default=list, blank=True)
    plain_titles = models.BooleanField(default=False)
    as_tasks = models.BooleanField(default=False)  # to-dos, not events
    revision = models.PositiveIntegerField(default=0)
    options_changed_at = models.DateTimeField(null=True, blank=True, editable=False)
    made_at = models.DateTimeField(auto_now_add=True)
    revoked_at = models.DateTimeField(null=True, blank=True)
    etag = models.CharField(max_length=40, blank=True, editable=False)
    changed_at = models.DateTimeField(null=True, blank=True, editable=False)
    valid_until = models.DateTimeField(null=True, blank=True, editable=False)
    fetched_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-made_at"]

    def __str__(self) -> str:
        return self.label


class StoredFeed(models.Model):
    """The body that a link serves until the diary moves."""

    calendar_key = models.OneToOneField(
        CalendarKey, models.CASCADE, related_name="stored"
    )
    body = models.BinaryField()
    gzipped = models.BinaryField()
    # the edition of the program, and for which address of the site
    written_by = models.CharField(max_length=32, blank=True)

    def __str__(self) -> str:
        return f"The file of {self.calendar_key}"
