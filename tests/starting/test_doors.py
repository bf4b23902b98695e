"""The doors: signing in and out, being locked out, setting a password."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from io import StringIO
from pathlib import Path

import pytest
from django.contrib.auth.models import User
from django.core.mail import EmailMessage
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse

from fitting.models import Yard
from starting.settings import PASSWORD_HASHERS
from tests.make import PASSWORD, make_member, make_user

ROOT = Path(__file__).resolve().parent.parent.parent
TRIES = 6
NEW_PASSWORD = "another long enough word"


@pytest.fixture
def sam(yard: Yard) -> User:
    return make_member(yard, "keeper", make_user("sam"))


def sign_in(client: Client, password: str = PASSWORD, **more: str) -> int:
    sent = {"username": "sam", "password": password, **more}
    return client.post(reverse("sign-in"), sent).status_code


def is_in(client: Client) -> bool:
    return client.get(reverse("password_change")).status_code == 200


def test_signing_in_leads_to_the_yard(client: Client, sam: User) -> None:
    page = client.get(reverse("sign-in"))
    assert page.status_code == 200
    assert "Sign in" in page.content.decode()
    done = client.post(
        reverse("sign-in"), {"username": "sam", "password": PASSWORD}, follow=False
    )
    assert done.headers["Location"] == reverse("yards")
    assert client.get(reverse("yards")).headers["Location"] == "/sallow-end/"


def test_signing_in_leads_back_to_the_page_that_was_asked_for(
    client: Client, sam: User
) -> None:
    asked = reverse("starting:people", args=["sallow-end"])
    away = client.get(asked).headers["Location"]
    assert away == f"{reverse('sign-in')}?next={asked}"
    assert f'name="next" value="{asked}"' in client.get(away).content.decode()
    sent = {"username": "sam", "password": PASSWORD, "next": asked}
    assert client.post(reverse("sign-in"), sent).headers["Location"] == asked


def test_signing_in_never_leads_to_another_site(client: Client, sam: User) -> None:
    sent = {"username": "sam", "password": PASSWORD, "next": "https://far.example/"}
    done = client.post(reverse("sign-in"), sent)
    assert done.headers["Location"] == reverse("yards")


def test_a_wrong_password_says_so_and_lets_nobody_in(client: Client, sam: User) -> None:
    page = client.post(reverse("sign-in"), {"username": "sam", "password": "no"})
    assert (
        "That name and that password do not belong together." in page.content.decode()
    )
    assert 'value="sam"' in page.content.decode()
    assert not is_in(client)


def test_the_seventh_try_is_locked_out_even_with_the_right_password(
    client: Client, sam: User
) -> None:
    for _ in range(TRIES - 1):
        assert sign_in(client, "wrong") == 200
    last = client.post(reverse("sign-in"), {"username": "sam", "password": "wrong"})
    assert last.status_code == 429
    assert "Too many tries" in last.content.decode()
    assert reverse("password_reset") in last.content.decode()
    assert sign_in(client) == 429
    assert not is_in(client)


def test_a_lock_shuts_out_nobody_else(client: Client, sam: User) -> None:
    make_user("jo")
    for _ in range(TRIES):
        sign_in(client, "wrong")
    sent = {"username": "jo", "password": PASSWORD}
    assert Client().post(reverse("sign-in"), sent).status_code == 302


def test_signing_in_rightly_forgets_the_tries_before(client: Client, sam: User) -> None:
    for _ in range(TRIES - 1):
        sign_in(client, "wrong")
    assert sign_in(client) == 302
    assert sign_in(Client(), "wrong") == 200


def test_signing_out_takes_a_form_not_a_link(client: Client, sam: User) -> None:
    sign_in(client)
    assert client.get(reverse("sign-out")).status_code == 405
    assert is_in(client)
    done = client.post(reverse("sign-out"))
    assert done.headers["Location"] == reverse("sign-in")
    assert not is_in(client)


def test_a_password_is_changed_and_one_stays_signed_in(
    client: Client, sam: User
) -> None:
    sign_in(client)
    elsewhere = Client()
    sign_in(elsewhere)
    sent = {
        "old_password": PASSWORD,
        "new_password1": NEW_PASSWORD,
        "new_password2": NEW_PASSWORD,
    }
    done = client.post(reverse("password_change"), sent, follow=True)
    assert "Password changed" in done.content.decode()
    assert is_in(client)
    assert not is_in(elsewhere)
    assert sign_in(Client(), NEW_PASSWORD) == 302


@pytest.mark.parametrize(
    ("new", "said"),
    [("short", "too short"), ("password123", "too common"), ("40302010", "numeric")],
)
def test_a_weak_password_is_refused_in_words(
    client: Client, sam: User, new: str, said: str
) -> None:
    sign_in(client)
    sent = {"old_password": PASSWORD, "new_password1": new, "new_password2": new}
    page = client.post(reverse("password_change"), sent)
    assert said in page.content.decode()
    sam.refresh_from_db()
    assert sam.check_password(PASSWORD)


def ask_for_letter(client: Client, email: str) -> str:
    page = client.post(reverse("password_reset"), {"email": email}, follow=True)
    return page.content.decode()


def link_in(letter: EmailMessage) -> str:
    found = re.search(r"http://testserver(/password/reset/\S+)", str(letter.body))
    assert found is not None
    return found[1]


def test_a_forgotten_password_is_set_anew_by_letter(
    client: Client, sam: User, mailoutbox: list[EmailMessage]
) -> None:
    assert "Look for the letter" in ask_for_letter(client, "sam@yard.example")
    [letter] = mailoutbox
    assert letter.subject == "Set a new password for Longrein"
    assert letter.to == ["sam@yard.example"]
    assert "for sam." in str(letter.body)
    page = client.get(link_in(letter), follow=True)
    assert "Choose a new password" in page.content.decode()
    sent = {"new_password1": NEW_PASSWORD, "new_password2": NEW_PASSWORD}
    done = client.post(page.request["PATH_INFO"], sent, follow=True)
    assert "New password set" in done.content.decode()
    assert sign_in(client) == 200
    assert sign_in(client, NEW_PASSWORD) == 302


def test_a_link_of_a_letter_serves_once(
    client: Client, sam: User, mailoutbox: list[EmailMessage]
) -> None:
    ask_for_letter(client, "sam@yard.example")
    sam.set_password(NEW_PASSWORD)
    sam.save()
    page = client.get(link_in(mailoutbox[0]), follow=True)
    assert "This link is used up" in page.content.decode()


def test_setting_a_password_by_letter_opens_the_lock(
    client: Client, sam: User, mailoutbox: list[EmailMessage]
) -> None:
    for _ in range(TRIES):
        sign_in(client, "wrong")
    ask_for_letter(client, "sam@yard.example")
    page = client.get(link_in(mailoutbox[0]), follow=True)
    sent = {"new_password1": NEW_PASSWORD, "new_password2": NEW_PASSWORD}
    client.post(page.request["PATH_INFO"], sent)
    assert sign_in(client, NEW_PASSWORD) == 302


def test_an_address_that_is_not_kept_is_not_given_away(
    client: Client, sam: User, mailoutbox: list[EmailMessage]
) -> None:
    known = ask_for_letter(Client(), "sam@yard.example")
    unknown = ask_for_letter(Client(), "nobody@yard.example")
    assert unknown == known
    assert len(mailoutbox) == 1


def test_passwords_are_kept_by_argon2() -> None:
    assert PASSWORD_HASHERS[0] == "django.contrib.auth.hashers.Argon2PasswordHasher"


@pytest.mark.django_db
def test_the_first_one_is_let_in_by_a_command(client: Client) -> None:
    said = StringIO()
    call_command("let_in", "sam", stdout=said)
    password = said.getvalue().partition("First password: ")[2].split()[0]
    assert sign_in(client, password) == 302
    assert client.get(reverse("yards")).headers["Location"] == reverse("new-yard")
    user = User.objects.get()
    assert not user.is_staff


@pytest.mark.parametrize(
    ("name", "said"),
    [("sam", "has an account already"), ("two words", "Enter a valid username")],
)
def test_nobody_is_let_in_by_a_name_that_will_not_do(
    sam: User, name: str, said: str
) -> None:
    with pytest.raises(CommandError, match=said):
        call_command("let_in", name)
    assert User.objects.count() == 1


@pytest.mark.django_db
def test_every_page_lets_the_browser_run_and_load_only_our_own(client: Client) -> None:
    header = client.get(reverse("sign-in")).headers["Content-Security-Policy"]
    allowed = dict(part.strip().split(" ", 1) for part in header.split(";"))
    assert allowed["default-src"] == "'none'"
    assert allowed["script-src"] == "'self'"
    assert allowed["style-src"] == "'self'"
    assert allowed["frame-ancestors"] == "'none'"
    assert "unsafe" not in header


def test_the_site_is_fit_to_be_served_to_the_world() -> None:
    around = {
        **{k: v for k, v in os.environ.items() if k != "DJANGO_ALLOW_ASYNC_UNSAFE"},
        "DEBUG": "off",
        "SITE_URL": "https://yard.example",
        "ALLOWED_HOSTS": "yard.example",
        "SECRET_KEY": "only-for-this-check-" + "".join(map(str, range(30))),
        "DJANGO_SETTINGS_MODULE": "starting.settings",
    }
    done = subprocess.run(
        [sys.executable, "manage.py", "check", "--deploy", "--fail-level", "WARNING"],
        cwd=ROOT,
        env=around,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert "no issues" in done.stdout
