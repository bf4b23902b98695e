"""The rows of body and tack, for repair."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.http import HttpRequest
from simple_history.admin import SimpleHistoryAdmin

from fitting import models
from fitting.reads.hangs_on import hangs_on_thing


class KeptAdmin(SimpleHistoryAdmin):  # type: ignore[misc] # it ships no types
    """A row that keeps its history."""


class MembershipInline(admin.TabularInline[models.Membership, models.Yard]):
    model = models.Membership
    raw_id_fields = ["user"]
    extra = 0


@admin.register(models.Yard)
class YardAdmin(admin.ModelAdmin[models.Yard]):
    list_display = ["name", "slug", "timezone", "version", "planned_on"]
    search_fields = ["name", "slug"]
    inlines = [MembershipInline]


@admin.register(models.Membership)
class MembershipAdmin(admin.ModelAdmin[models.Membership]):
    list_display = ["user", "yard", "role"]
    list_filter = ["role"]
    list_select_related = ["user", "yard"]
    raw_id_fields = ["user", "yard"]
    search_fields = ["user__username", "yard__name"]


@admin.register(models.WrittenOnce)
class WrittenOnceAdmin(admin.ModelAdmin[models.WrittenOnce]):
    list_display = ["token", "yard", "led_to", "at"]
    list_select_related = ["yard"]
    raw_id_fields = ["yard"]
    search_fields = ["token", "yard__name"]


@admin.register(models.Horse)
class HorseAdmin(KeptAdmin):
    list_display = ["name", "yard", "sex", "foaled", "horse_type", "grown"]
    list_filter = ["grown", "horse_type"]
    list_select_related = ["yard"]
    raw_id_fields = ["yard"]
    search_fields = ["name", "yard__name"]


@admin.register(models.BroughtIn)
class BroughtInAdmin(admin.ModelAdmin[models.BroughtIn]):
    list_display = ["name", "yard", "on", "by", "came"]
    list_select_related = ["yard", "by"]
    raw_id_fields = ["yard", "by"]
    search_fields = ["name", "yard__name"]


@admin.register(models.Measurement)
class MeasurementAdmin(KeptAdmin):
    list_display = ["horse", "measure", "on", "method", "written", "struck"]
    list_filter = ["measure", "method"]
    list_select_related = ["horse"]
    raw_id_fields = ["horse", "written_by", "brought_in"]
    search_fields = ["horse__name", "measure"]


@admin.register(models.Photo)
class PhotoAdmin(admin.ModelAdmin[models.Photo]):
    list_display = ["horse", "on", "note"]
    list_select_related = ["horse"]
    raw_id_fields = ["horse"]
    readonly_fields = ["image", "small"]  # a file comes in through the page alone
    search_fields = ["horse__name"]


class NeverLost:
    """Rows that are not deleted as long as anything hangs on them.

    A yard that is deleted whole still takes them with it: only their own pages refuse.
    """

    def get_deleted_objects(self, objs: Any, request: HttpRequest) -> Any:
        """Tell what hangs on them as what protects them."""
        found: Any = super().get_deleted_objects(objs, request)  # type: ignore[misc]
        *told, protected = found
        hangs = (f"{row}: {one.said}" for row in objs for one in hangs_on_thing(row))
        return (*told, [*protected, *hangs])


class PartInline(admin.StackedInline[models.Part, models.Tack]):
    model = models.Part
    extra = 0


@admin.register(models.Tack)
class TackAdmin(NeverLost, KeptAdmin):
    list_display = ["name", "kind", "yard", "gone"]
    list_filter = ["kind"]
    list_select_related = ["yard"]
    raw_id_fields = ["yard"]
    search_fields = ["name", "yard__name"]
    inlines = [PartInline]


@admin.register(models.Part)
class PartAdmin(KeptAdmin):
    list_display = ["tack", "part", "length_mm"]
    list_select_related = ["tack"]
    raw_id_fields = ["tack"]
    search_fields = ["tack__name", "part"]


class SetPartInline(admin.TabularInline[models.SetPart, models.TackSet]):
    model = models.SetPart
    raw_id_fields = ["tack"]
    extra = 0


@admin.register(models.TackSet)
class TackSetAdmin(NeverLost, admin.ModelAdmin[models.TackSet]):
    list_display = ["name", "yard", "gone"]
    list_select_related = ["yard"]
    raw_id_fields = ["yard"]
    search_fields = ["name", "yard__name"]
    inlines = [SetPartInline]


@admin.register(models.SetPart)
class SetPartAdmin(admin.ModelAdmin[models.SetPart]):
    list_display = ["made_up", "slot", "tack"]
    list_select_related = ["made_up", "tack"]
    raw_id_fields = ["made_up", "tack"]
    search_fields = ["made_up__name", "tack__name"]


@admin.register(models.Loan)
class LoanAdmin(admin.ModelAdmin[models.Loan]):
    list_display = ["tack", "to", "back_by", "returned"]
    list_select_related = ["tack", "to"]
    raw_id_fields = ["tack", "to"]
    search_fields = ["tack__name", "to__name"]


class TryOnPartInline(admin.TabularInline[models.TryOnPart, models.TryOn]):
    model = models.TryOnPart
    extra = 0


@admin.register(models.TryOn)
class TryOnAdmin(KeptAdmin):
    list_display = ["horse", "on", "tack", "made_up", "how", "answer", "struck"]
    list_select_related = ["horse", "tack", "made_up"]
    raw_id_fields = ["horse", "tack", "made_up"]
    search_fields = ["horse__name", "tack__name", "made_up__name"]
    inlines = [TryOnPartInline]


@admin.register(models.TryOnPart)
class TryOnPartAdmin(admin.ModelAdmin[models.TryOnPart]):
    list_display = ["tryon", "part", "seen", "hole", "gap_mm"]
    list_select_related = ["tryon__horse", "tryon__tack", "tryon__made_up"]
    raw_id_fields = ["tryon"]
    search_fields = ["tryon__horse__name"]


@admin.register(models.FirstWorn)
class FirstWornAdmin(admin.ModelAdmin[models.FirstWorn]):
    list_display = ["horse", "kind", "tack", "on"]
    list_select_related = ["horse", "tack"]
    raw_id_fields = ["horse", "tack"]
    search_fields = ["horse__name", "tack__name"]
