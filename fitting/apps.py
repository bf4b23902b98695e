"""The body and the tack."""

from django.apps import AppConfig


class FittingConfig(AppConfig):
    """The yard, its people, the horses' bodies and the tack."""

    name = "fitting"
    verbose_name = "Body and tack"
