"""The yard itself: days, units, people, members."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.models import User
from django.db import transaction
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_safe

from fitting.middleware import YardRequest, keepers_only
from starting.forms.people import PersonForm
from starting.forms.yard import (
    DeleteYardForm,
    LetGoForm,
    MemberForm,
    RoleForm,
    YardForm,
)
from starting.models import Person
from starting.reads.members import member_rows, named_in, person_rows
from starting.reads.yards import yard_page
from starting.views.first_visit import FORM_METHODS, typed
from starting.writes import yards
from starting.writes.members import change_role, let_go, let_in, let_in_new


@require_safe
def yard_settings(request: YardRequest, yard: str) -> HttpResponse:
    """What the yard's name leads to."""
    page = yard_page(request.yard, request.user)
    return render(request, "starting/yard_settings.html", {"page": page})


@keepers_only
@require_http_methods(FORM_METHODS)
def edit_yard(request: YardRequest, yard: str) -> HttpResponse:
    """Name, days and units of the yard."""
    form = YardForm(typed(request), instance=request.yard)
    if form.is_valid():
        yards.settle_yard(request.yard, form.Meta.fields)
        messages.success(
            request, "Written in: days and units.", extra_tags=f"yard-{yard}"
        )
        return redirect("starting:yard-settings", yard)
    if form.is_bound:
        request.yard.refresh_from_db()  # the page's head shows what is kept
    status = 422 if form.is_bound else 200
    return render(request, "starting/edit_yard.html", {"form": form}, status=status)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_yard(request: YardRequest, yard: str) -> HttpResponse:
    """Delete the yard, once its name is written out."""
    form = DeleteYardForm(typed(request), yard=request.yard)
    if form.is_valid():
        name = request.yard.name
        yards.delete_yard(request.yard)
        messages.success(request, f"Deleted: {name}.")
        return redirect("yards")
    status = 422 if form.is_bound else 200
    return render(request, "starting/delete_yard.html", {"form": form}, status=status)


@require_safe
def people(request: YardRequest, yard: str) -> HttpResponse:
    """The yard's people."""
    context = {"people": person_rows(request.yard)}
    return render(request, "starting/people.html", context)


@keepers_only
@require_http_methods(FORM_METHODS)
def add_person(request: YardRequest, yard: str) -> HttpResponse:
    """Add somebody."""
    return _person(request, Person())


@keepers_only
@require_http_methods(FORM_METHODS)
def edit_person(request: YardRequest, yard: str, pk: int) -> HttpResponse:
    """Correct somebody."""
    return _person(request, get_object_or_404(request.yard.people, pk=pk))


def _person(request: YardRequest, person: Person) -> HttpResponse:
    """Show and save the form for one person."""
    name, draft = person.name, f"person-{request.yard.slug}-{person.pk or 'new'}"
    form = PersonForm(typed(request), instance=person, yard=request.yard)
    before = form.written_before(request.yard)
    listed = reverse("starting:people", args=[request.yard.slug])
    if before:
        return redirect(before.led_to)
    if form.is_valid():
        yards.write_person(person, form.cleaned_data["token"], listed)
        messages.success(request, f"Written in: {person}.", extra_tags=draft)
        return redirect(listed)
    named = named_in(person) if person.pk else []
    context = {"form": form, "name": name, "draft": draft, "named": named}
    status = 422 if form.is_bound else 200
    return render(request, "starting/person.html", context, status=status)


@keepers_only
@require_http_methods(FORM_METHODS)
def delete_person(request: YardRequest, yard: str, pk: int) -> HttpResponse:
    """Take somebody off the list."""
    person = get_object_or_404(request.yard.people, pk=pk)
    if request.method == "POST":
        name = person.name
        yards.delete_person(person)
        messages.success(request, f"{name} is off the list.")
        return redirect("starting:people", yard)
    context = {"person": person, "named": named_in(person)}
    return render(request, "starting/delete_person.html", context)


@require_safe
def members(request: YardRequest, yard: str) -> HttpResponse:
    """Who may sign in here."""
    context = {"members": member_rows(request.yard, request.user.pk)}
    return render(request, "starting/members.html", context)


@keepers_only
@never_cache
@require_http_methods(FORM_METHODS)
def add_member(request: YardRequest, yard: str) -> HttpResponse:
    """Let somebody in; a new account's first password is shown once, here."""
    form = MemberForm(typed(request), yard=request.yard)
    if form.written_before(request.yard):
        messages.warning(request, "Let in already; a first password is shown once.")
        return redirect("starting:members", yard)
    if form.is_valid():
        return _let_in(request, form)
    status = 422 if form.is_bound else 200
    return render(request, "starting/add_member.html", {"form": form}, status=status)


def _let_in(request: YardRequest, form: MemberForm) -> HttpResponse:
    """Let in whom the form names, with a new account if they have none."""
    given = form.cleaned_data
    name = given["username"]
    listed = reverse("starting:members", args=[request.yard.slug])
    if given["has_account"]:
        user = User.objects.get(username=name)
        let_in(request.yard, user, given["role"], given["token"], listed)
        messages.success(request, f"{name} is let in.")
        return redirect(listed)
    password = let_in_new(
        request.yard,
        username=name,
        email=given["email"],
        role=given["role"],
        token=given["token"],
        led_to=listed,
    )
    context = {"name": name, "password": password, "email": given["email"]}
    return render(request, "starting/first_password.html", context)


@keepers_only
@require_http_methods(FORM_METHODS)
@transaction.atomic
def edit_member(request: YardRequest, yard: str, pk: int) -> HttpResponse:
    """Change what a member may do."""
    member = get_object_or_404(request.yard.memberships.select_related("user"), pk=pk)
    form = RoleForm(typed(request), member=member)
    if form.is_valid():
        change_role(member, form.cleaned_data["role"])
        messages.success(request, f"{member.user} is a {member.role} now.")
        return redirect("starting:members", yard)
    context = {"form": form, "member": member}
    status = 422 if form.is_bound else 200
    return render(request, "starting/edit_member.html", context, status=status)


@keepers_only
@require_http_methods(FORM_METHODS)
@transaction.atomic
def delete_member(request: YardRequest, yard: str, pk: int) -> HttpResponse:
    """Let a member go."""
    member = get_object_or_404(request.yard.memberships.select_related("user"), pk=pk)
    form = LetGoForm(typed(request), member=member)
    if form.is_valid():
        name, yourself = member.user.get_username(), member.user == request.user
        let_go(member)
        messages.success(request, f"{name} no longer belongs to the yard.")
        return redirect("yards") if yourself else redirect("starting:members", yard)
    context = {"form": form, "member": member}
    status = 422 if form.is_bound else 200
    return render(request, "starting/delete_member.html", context, status=status)
