"""Addresses: the yard itself: days, units, people, members."""

from django.urls import path

from starting.views import settings

urlpatterns = [
    path("yard/", settings.yard_settings, name="yard-settings"),
    path("yard/days/", settings.edit_yard, name="edit-yard"),
    path("yard/delete/", settings.delete_yard, name="delete-yard"),
    path("yard/people/", settings.people, name="people"),
    path("yard/people/new/", settings.add_person, name="add-person"),
    path("yard/people/<int:pk>/", settings.edit_person, name="edit-person"),
    path("yard/people/<int:pk>/delete/", settings.delete_person, name="delete-person"),
    path("yard/members/", settings.members, name="members"),
    path("yard/members/new/", settings.add_member, name="add-member"),
    path("yard/members/<int:pk>/", settings.edit_member, name="edit-member"),
    path("yard/members/<int:pk>/delete/", settings.delete_member, name="delete-member"),
]
