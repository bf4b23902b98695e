"""A horse's photos: by day, one more, what is said of one, the picture itself."""

from __future__ import annotations

from typing import Final

from django.contrib import messages
from django.db.models.fields.files import ImageFieldFile
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.cache import patch_cache_control
from django.views.decorators.http import require_http_methods, require_safe

from fitting.forms.base import OnceForm
from fitting.forms.photos import NewPhotoForm, PhotoForm
from fitting.middleware import YardRequest, helpers_may, keepers_only
from fitting.models import Photo
from fitting.reads import photos as reads
from fitting.reads.horses import horse_head
from fitting.reads.today import today_in
from fitting.writes import photos as writes

FORM_METHODS: Final = ["GET", "HEAD", "POST"]
KEPT_BY_THE_PHONE: Final = 7 * 24 * 60 * 60  # seconds; a picture never changes


@require_safe
def photos(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """A horse's photos, by day."""
    whose = get_object_or_404(request.yard.horses, key=horse)
    context = {
        "head": horse_head(whose, today_in(request.yard)),
        "days": reads.photo_days(whose),
        "may_write": request.role != "viewer",
    }
    return render(request, "fitting/photos.html", context)


@helpers_may
@require_http_methods(FORM_METHODS)
def add_photo(request: YardRequest, yard: str, horse: str) -> HttpResponse:
    """Add a photo of a day."""
    whose = get_object_or_404(request.yard.horses, key=horse)
    today = today_in(request.yard)
    form = NewPhotoForm(
        request.POST or None,
        request.FILES or None,
        instance=Photo(horse=whose, on=today),
        today=today,
    )
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    led_to = reverse("fitting:photos", args=[yard, horse])
    draft = f"photo-{yard}-{horse}"
    if form.is_valid():
        given = form.cleaned_data
        writes.add_photo(form.instance, given["photo"], given["token"], led_to)
        messages.success(request, "Written in: a photo.", extra_tags=draft)
        return redirect(led_to)
    context = {"form": form, "horse": whose, "draft": draft}
    status = 422 if form.is_bound else 200
    return render(request, "fitting/add_photo.html", context, status=status)


@helpers_may
@require_http_methods(FORM_METHODS)
def edit_photo(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Correct the day or the note of a photo."""
    row = _row(request, horse, pk)
    form = PhotoForm(request.POST or None, instance=row, today=today_in(request.yard))
    before = form.written_before(request.yard)
    if before:
        return redirect(before.led_to)
    view = reads.photo_view(row, row.horse)
    if form.is_valid():
        led_to = reverse("fitting:photos", args=[yard, horse])
        writes.correct_photo(form.instance, form.cleaned_data["token"], led_to)
        messages.success(request, "Written in: what the photo shows.")
        return redirect(led_to)
    context = {"form": form, "horse": row.horse, "photo": view}
    context["may_delete"] = request.role == "keeper"
    status = 422 if form.is_bound else 200
    return render(request, "fitting/edit_photo.html", context, status=status)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_photo(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """Delete a photo, once asked."""
    row = _row(request, horse, pk)
    if request.method == "POST":
        writes.delete_photo(row)
        messages.success(request, "The photo is deleted.")
        return redirect("fitting:photos", yard, horse)
    context = {"horse": row.horse, "photo": reads.photo_view(row, row.horse)}
    context |= {"on": row.on, "form": OnceForm()}
    return render(request, "fitting/delete_photo.html", context)


@require_safe
def large_photo(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """The picture itself."""
    row = _row(request, horse, pk)
    return _jpeg(row.image, row)


@require_safe
def small_photo(request: YardRequest, yard: str, horse: str, pk: int) -> HttpResponse:
    """The picture, small enough for a page of many."""
    row = _row(request, horse, pk)
    return _jpeg(row.small or row.image, row)


def _jpeg(kept: ImageFieldFile, row: Photo) -> HttpResponse:
    """Return a picture that only this member's own browser may keep."""
    if not kept or not kept.storage.exists(str(kept.name)):
        raise Http404("This photo is not here any more.")
    with kept.open("rb") as file:
        answer = HttpResponse(file.read(), content_type="image/jpeg")
    name = f"{row.horse.key}-{row.on:%Y-%m-%d}.jpg"
    answer.headers["Content-Disposition"] = f'inline; filename="{name}"'
    patch_cache_control(answer, private=True, max_age=KEPT_BY_THE_PHONE, immutable=True)
    return answer


def _row(request: YardRequest, horse: str, pk: int) -> Photo:
    """Return the photo of the address."""
    rows = Photo.objects.select_related("horse__yard")
    return get_object_or_404(rows, pk=pk, horse__key=horse, horse__yard=request.yard)
