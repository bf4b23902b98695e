"""Addresses: the tack room: items, parts, made-up sets, loans."""

from django.urls import path

from fitting.views import loans, mixing, sets, tack, tack_beside, taken_down

urlpatterns = [
    path("tack/", tack.tack_room, name="tack-room"),
    path("tack-beside/", tack_beside.tack_beside, name="tack-beside"),
    path("tack/new/", tack.add_tack, name="add-tack"),
    path("tack/sets/new/", sets.make_up, name="make-up"),
    path("make-up-a-bridle/", mixing.mix_bridle, name="mix-bridle"),
    path("tack/sets/<slug:made_up>/", sets.made_up_set, name="set"),
    path("tack/sets/<slug:made_up>/edit/", sets.edit_set, name="edit-set"),
    path("tack/sets/<slug:made_up>/delete/", sets.delete_set, name="delete-set"),
    path(
        "tack/sets/<slug:made_up>/take-down/",
        taken_down.take_set_down,
        name="take-set-down",
    ),
    path(
        "tack/sets/<slug:made_up>/put-up/",
        taken_down.put_set_up_again,
        name="put-set-up-again",
    ),
    path("tack/<slug:tack>/", tack.tack, name="tack"),
    path("tack/<slug:tack>/edit/", tack.edit_tack, name="edit-tack"),
    path("tack/<slug:tack>/take-down/", taken_down.take_down, name="take-down"),
    path("tack/<slug:tack>/put-up/", taken_down.put_up_again, name="put-up-again"),
    path("tack/<slug:tack>/delete/", tack.delete_tack, name="delete-tack"),
    path("tack/<slug:tack>/lend/", loans.lend, name="lend"),
    path("tack/<slug:tack>/lent/<int:pk>/", loans.edit_loan, name="edit-loan"),
    path(
        "tack/<slug:tack>/lent/<int:pk>/delete/",
        loans.delete_loan,
        name="delete-loan",
    ),
    path("tack/<slug:tack>/lent/<int:pk>/back/", loans.bring_back, name="return-loan"),
]
