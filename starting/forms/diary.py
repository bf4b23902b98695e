"""Which entries of the diary are shown: whose, and of which kind."""

from __future__ import annotations

from django import forms

from starting.reads.diary import KINDS, DiaryPage


class DiaryForm(forms.Form):
    """What of the diary is shown; it only reads, so a GET sends it."""

    horse = forms.ChoiceField(label="Horse", required=False)
    kind = forms.ChoiceField(
        label="Kind",
        required=False,
        choices=[("", "every kind"), *KINDS.items()],
    )

    def __init__(self, *, page: DiaryPage) -> None:
        asked = page.asked
        super().__init__(initial={"horse": asked.horse, "kind": asked.kind})
        self.fields["horse"].choices = [("", "every horse"), *page.horses]  # type: ignore[attr-defined]
        if asked.of_horse:
            del self.fields["horse"]
