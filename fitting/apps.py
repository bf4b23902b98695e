"""The body and the tack."""

from django.apps import AppConfig


class FittingConfig(AppConfig):
    """The yard, its people, the horses' bodies and the tack."""

    name = "fitting"
    verbose_name = "Body and tack"

    def ready(self) -> None:
        """Take the files of a photo away with it."""
        from fitting.writes import photos  # noqa: PLC0415 - models are ready only now

        photos.listen()
