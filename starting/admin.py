"""The rows of the way up, for repair."""

from __future__ import annotations

from django.contrib import admin
from django.http import HttpRequest

from fitting.admin import KeptAdmin
from starting import models


class OfHorseAdmin(KeptAdmin):
    """What hangs on a horse and keeps its history."""

    list_select_related = ["horse"]
    raw_id_fields = ["horse"]
    search_fields = ["horse__name"]


@admin.register(models.CareVisit)
class CareVisitAdmin(OfHorseAdmin):
    list_display = ["horse", "kind", "on", "clear", "next_due"]
    list_filter = ["kind"]


@admin.register(models.Incident)
class IncidentAdmin(OfHorseAdmin):
    list_display = ["horse", "what", "on"]
    list_filter = ["what"]


@admin.register(models.OffWork)
class OffWorkAdmin(OfHorseAdmin):
    list_display = ["horse", "start", "why", "until", "cleared_on"]


@admin.register(models.Rest)
class RestAdmin(OfHorseAdmin):
    list_display = ["horse", "start", "end", "why"]


@admin.register(models.WentAhead)
class WentAheadAdmin(OfHorseAdmin):
    list_display = ["horse", "stage", "gate", "who", "on"]


@admin.register(models.Plan)
class PlanAdmin(OfHorseAdmin):
    list_display = ["horse", "programme", "aim_stage", "aim_by", "rider"]
    list_select_related = ["horse", "programme", "rider"]
    raw_id_fields = ["horse", "programme", "rider", "trainer"]


class SessionWornInline(admin.TabularInline[models.SessionWorn, models.Session]):
    model = models.SessionWorn
    raw_id_fields = ["tack", "made_up"]
    extra = 0


@admin.register(models.Session)
class SessionAdmin(OfHorseAdmin):
    list_display = ["horse", "on", "stage", "minutes", "stop_sign"]
    raw_id_fields = ["horse", "written_by"]
    inlines = [SessionWornInline]


@admin.register(models.SessionWorn)
class SessionWornAdmin(admin.ModelAdmin[models.SessionWorn]):
    list_display = ["session", "tack", "made_up", "seen", "hole"]
    list_select_related = ["session__horse", "tack", "made_up"]
    raw_id_fields = ["session", "tack", "made_up"]
    search_fields = ["session__horse__name", "tack__name"]


@admin.register(models.StageRecord)
class StageRecordAdmin(admin.ModelAdmin[models.StageRecord]):
    list_display = ["horse", "stage", "state", "on"]
    list_select_related = ["horse"]
    raw_id_fields = ["horse"]
    search_fields = ["horse__name", "stage"]


@admin.register(models.Person)
class PersonAdmin(admin.ModelAdmin[models.Person]):
    list_display = ["name", "yard", "has_backed_horses", "child"]
    list_select_related = ["yard"]
    raw_id_fields = ["yard"]
    search_fields = ["name", "yard__name"]


@admin.register(models.ProgrammeVersion)
class ProgrammeVersionAdmin(admin.ModelAdmin[models.ProgrammeVersion]):
    """A version is never changed, here either: a change is a new one."""

    list_display = ["name", "key", "yard", "digest", "made_at"]
    list_select_related = ["yard"]
    raw_id_fields = ["yard"]
    search_fields = ["name", "key", "digest"]

    def has_change_permission(
        self, request: HttpRequest, obj: models.ProgrammeVersion | None = None
    ) -> bool:
        """Nobody changes a version that is there; each can be read."""
        return obj is None and super().has_change_permission(request, obj)


@admin.register(models.StoredOutlook)
class StoredOutlookAdmin(admin.ModelAdmin[models.StoredOutlook]):
    list_display = ["horse", "version", "on"]
    list_select_related = ["horse"]
    raw_id_fields = ["horse"]
    search_fields = ["horse__name"]


@admin.register(models.Moved)
class MovedAdmin(admin.ModelAdmin[models.Moved]):
    list_display = ["horse", "on", "kind", "subject"]
    list_select_related = ["horse"]
    raw_id_fields = ["horse"]
    search_fields = ["horse__name", "subject"]


@admin.register(models.LastTold)
class LastToldAdmin(admin.ModelAdmin[models.LastTold]):
    list_display = ["horse"]
    list_select_related = ["horse"]
    raw_id_fields = ["horse"]
    search_fields = ["horse__name"]


@admin.register(models.Bought)
class BoughtAdmin(admin.ModelAdmin[models.Bought]):
    list_display = ["horse", "kind", "part", "on"]
    list_select_related = ["horse"]
    raw_id_fields = ["horse"]
    search_fields = ["horse__name"]


@admin.register(models.DiaryEntry)
class DiaryEntryAdmin(admin.ModelAdmin[models.DiaryEntry]):
    list_display = ["key", "yard", "horse", "on", "sequence"]
    list_select_related = ["yard", "horse"]
    raw_id_fields = ["yard", "horse"]
    search_fields = ["key", "uid", "yard__name"]


@admin.register(models.RetiredEntry)
class RetiredEntryAdmin(admin.ModelAdmin[models.RetiredEntry]):
    list_display = ["uid", "yard", "sequence"]
    list_select_related = ["yard"]
    raw_id_fields = ["yard"]
    search_fields = ["uid"]


@admin.register(models.PastEntry)
class PastEntryAdmin(admin.ModelAdmin[models.PastEntry]):
    list_display = ["uid", "yard", "horse", "on", "gone_on"]
    list_select_related = ["yard", "horse"]
    raw_id_fields = ["yard", "horse"]
    search_fields = ["uid", "horse__name"]


@admin.register(models.DiaryTick)
class DiaryTickAdmin(admin.ModelAdmin[models.DiaryTick]):
    list_display = ["key", "horse", "due_on", "on", "who"]
    list_select_related = ["horse"]
    raw_id_fields = ["horse"]
    search_fields = ["key", "horse__name"]


@admin.register(models.CalendarKey)
class CalendarKeyAdmin(admin.ModelAdmin[models.CalendarKey]):
    list_display = ["label", "yard", "made_at", "revoked_at", "fetched_at"]
    list_select_related = ["yard"]
    raw_id_fields = ["yard"]
    search_fields = ["label", "yard__name"]


@admin.register(models.StoredFeed)
class StoredFeedAdmin(admin.ModelAdmin[models.StoredFeed]):
    list_display = ["calendar_key"]
    list_select_related = ["calendar_key"]
    raw_id_fields = ["calendar_key"]
    search_fields = ["calendar_key__label"]
