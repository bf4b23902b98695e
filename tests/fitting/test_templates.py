"""Templates keep to the rules of the strict headers and say what they must."""

import hashlib
import re
from datetime import date
from pathlib import Path
from types import SimpleNamespace

import pytest
from django import forms
from django.contrib.staticfiles import finders
from django.template import Context, Template
from django.template.loader import render_to_string
from django.test import RequestFactory

ROOT = Path(__file__).resolve().parents[2]
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))
STYLE = ROOT / "fitting/static/fitting/site.css"
SCRIPTS = sorted((ROOT / "fitting/static/fitting").glob("*.js"))
# Letters are plain text: they spell out a whole address.
LETTERS = {"password_reset_email.html"}


class WalkForm(forms.Form):
    """A form with one of each kind of field."""

    name = forms.CharField(help_text="As it is called.")
    remark = forms.CharField(widget=forms.Textarea, required=False)
    shod = forms.BooleanField(required=False)
    how = forms.ChoiceField(
        choices=[("stick", "stick"), ("tape", "tape")], widget=forms.RadioSelect
    )


def drawn(source: str, **given: object) -> str:
    """Return a piece of template, rendered with the yard's tags."""
    return Template("{% load yard %}" + source).render(Context(given))


def test_there_are_templates_to_look_at() -> None:
    names = {path.name for path in TEMPLATES}
    assert {"base.html", "403.html", "404.html", "500.html", "login.html"} <= names


@pytest.mark.parametrize(
    "path", TEMPLATES, ids=lambda p: str(p.relative_to(ROOT / "templates"))
)
def test_a_template_holds_nothing_that_the_headers_forbid(path: Path) -> None:
    text = path.read_text()
    assert not re.search(r"\son[a-z]+\s*=", text), "an inline handler"
    assert not re.search(r"\sstyle\s*=|<style", text), "an inline style"
    assert not re.search(r"<script(?![^>]*\ssrc=)", text), "an inline script"
    assert "javascript:" not in text
    if path.name not in LETTERS:
        assert not re.search(r"https?:|[\"']//", text), "another host"


def test_the_served_stylesheet_of_bootstrap_is_the_published_one() -> None:
    # bootstrap.min.css of Bootstrap 5.3.8 as released.
    found = finders.find("bootstrap/bootstrap.min.css")
    assert isinstance(found, str)
    digest = hashlib.sha256(Path(found).read_bytes()).hexdigest()
    assert digest.startswith("d85327d99c7a3ee1")


def test_our_own_files_fetch_nothing_and_evaluate_nothing() -> None:
    style = STYLE.read_text()
    script = "\n".join(each.read_text() for each in SCRIPTS)
    assert len(SCRIPTS) > 1
    assert not re.search(r"https?:|@import|url\(", style)
    assert not re.search(r"https?:|\beval\b|new Function|innerHTML|fetch\(", script)


def test_straw_is_a_ground_and_never_a_colour_of_text() -> None:
    assert not re.search(r"(?<![-\w])color:\s*var\(--straw\)", STYLE.read_text())


def test_both_themes_and_the_automatic_one_set_the_same_tokens() -> None:
    text = STYLE.read_text()
    blocks = [
        re.search(head + r"[^{]*\{([^}]*)\}", text)
        for head in (r"\[data-bs-theme=light\]", "=dark]", "=auto]")
    ]
    tokens = [re.findall(r"(--[\w-]+):", block[1]) for block in blocks if block]
    assert len(tokens) == 3
    assert tokens[0] == tokens[1] == tokens[2]


def test_the_page_of_a_fault_needs_nothing_to_be_known() -> None:
    page = render_to_string("500.html")
    assert "Something broke" in page
    assert 'href="/"' in page


@pytest.mark.parametrize("name", ["403.html", "404.html", "locked_out.html"])
def test_a_page_outside_a_yard_has_the_mark_and_no_pegs(
    name: str, rf: RequestFactory
) -> None:
    page = render_to_string(name, {}, request=rf.get("/"))
    assert 'class="wordmark"' in page
    assert 'class="rail"' not in page
    assert "notebook, not a diagnosis" in page
    assert "stop and call your vet" in page


def test_the_theme_is_paper_unless_the_person_chose_another(rf: RequestFactory) -> None:
    page = render_to_string("404.html", {}, request=rf.get("/"))
    assert '<html lang="en-GB" data-bs-theme="light">' in page
    told = rf.get("/")
    told.COOKIES["ground"] = "slate"
    slate = render_to_string("404.html", {}, request=told)
    assert 'data-bs-theme="dark"' in slate


def test_scripts_of_htmx_run_no_typed_code(rf: RequestFactory) -> None:
    page = render_to_string("404.html", {}, request=rf.get("/"))
    for setting in ("allowEval", "allowScriptTags", "includeIndicatorStyles"):
        assert f'"{setting}":false' in page


def test_each_field_has_its_label_and_its_refusal_is_tied_to_it() -> None:
    page = str(WalkForm({"how": "stick"}))
    assert '<label for="id_name">Name</label>' in page
    box = re.search(r'<input[^>]*id="id_name"[^>]*>', page)
    assert box
    assert "id_name_error" in box[0]
    assert "id_name_helptext" in box[0]
    assert 'id="id_name_error"' in page
    assert 'id="id_name_helptext"' in page


def test_choices_are_framed_labels_in_a_fieldset_with_a_legend() -> None:
    page = str(WalkForm({}))
    assert re.search(r'<fieldset class="field choices"[^>]*id_how_error', page)
    assert "<legend>How</legend>" in page
    assert page.count('type="radio"') == 2


def test_what_may_stay_empty_says_so() -> None:
    page = str(WalkForm())
    assert page.count("may stay empty") == 1  # the remark; a tick may always


def test_the_refusals_of_the_whole_form_stand_first() -> None:
    form = WalkForm({"name": "Ash", "how": "stick"})
    form.add_error(None, "Somebody changed this meanwhile.")
    page = str(form)
    assert page.index("Somebody changed this") < page.index("<label")


def test_a_sign_refers_into_the_sprite_and_is_silent() -> None:
    assert drawn('{% sign "fit-good" %}') == (
        '<svg class="sign fit fit-good" aria-hidden="true" focusable="false">'
        '<use href="#fit-good"/></svg>'
    )
    assert 'id="fit-good"' in drawn("{% sprite %}")


def test_an_answer_is_said_in_its_word_as_loudly_as_it_needs() -> None:
    assert drawn('{% word "watch" %}') == '<span class="w-watch">only just</span>'
    assert "yes, but" in drawn('{% word "caution" gate=True %}')
    unknown = drawn('{% word "not_known" gate=True %}')
    assert "w-unknown" in unknown
    assert drawn("{{ a|gate_sign }}", a="not_known") == "gate-unknown"
    assert drawn("{{ a|answer_word }}", a="under_way") == "under way"


def test_a_row_keeps_its_sign_left_and_escapes_what_was_typed() -> None:
    row = drawn('{% row "knot-open" %}<p>{{ typed }}</p>{% endrow %}', typed="<b>")
    assert '<div class="m"><svg class="sign knot knot-open"' in row
    assert "&lt;b&gt;" in row


def test_days_are_said_as_a_diary_says_them() -> None:
    on = date(2026, 11, 26)
    assert drawn("{{ on|day }}", on=on) == "26 Nov 2026"
    assert drawn("{{ on|near_day }}", on=on) == "Thu 26 Nov"
    assert drawn("{{ on|near_day:to }}", on=on, to=date(2026, 6, 1)) == "Thu 26 Nov"
    assert drawn("{{ on|near_day:to }}", on=on, to=date(2026, 5, 1)).endswith("2026")
    assert drawn("{{ on|near_day:to }}", on=on, to=date(2027, 6, 1)).endswith("2026")
    assert drawn("{{ on|day }}", on=None) == ""


def test_a_saved_message_tells_the_page_which_draft_to_forget() -> None:
    class Message(SimpleNamespace):
        def __str__(self) -> str:
            return "Written in."

    saved = Message(level_tag="success", extra_tags="measure-ash")
    refused = Message(level_tag="error", extra_tags="measure-ash")
    page = render_to_string("_parts/_messages.html", {"messages": [saved]})
    assert 'data-saved="measure-ash"' in page
    page = render_to_string("_parts/_messages.html", {"messages": [refused]})
    assert "data-saved" not in page
    assert "gate-shut" in page


def test_an_empty_place_names_the_first_act_and_a_second_way() -> None:
    page = render_to_string(
        "_parts/_empty.html",
        {
            "title": "No tack on the pegs",
            "text": "Put up the first item.",
            "act": "Put up an item",
            "act_href": "new/",
            "second": "Try one on",
            "second_href": "try/",
        },
    )
    assert 'class="strap" href="new/"' in page
    assert 'href="try/"' in page
    assert "#knot-open" in page
