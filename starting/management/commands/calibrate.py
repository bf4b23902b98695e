"""Say how well growth foretells, on simulated horses."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError
from typing import Any, Final, get_args

from fitting.body import HorseType
from fitting.calibration import calibrate, say_calibration, worlds
from starting.management.plain import PlainCommand

HORSES: Final = 1000
MOST_HORSES: Final = 100_000


class Command(PlainCommand):
    """Fit simulated horses and print how often the bands held."""

    help = (
        "Say how well growth foretells: how often its bands hold the true size of"
        " simulated horses, and how far off their grown height is. First horses drawn"
        " from the model itself, then warmbloods of a curve outside it."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Say what may be asked for."""
        parser.add_argument(
            "--horses", type=_horses, default=HORSES, metavar="N",
            help=f"how many of each, default {HORSES}",
        )  # fmt: skip
        parser.add_argument(
            "--type", choices=get_args(HorseType), default="light",
            help="of the horses drawn from the model, default light",
        )  # fmt: skip
        parser.add_argument(
            "--seed", type=_seed, default=1, help="same seed, same horses; default 1"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        """Simulate, fit and print; no yard is read."""
        for world in worlds(options["type"]):
            found = calibrate(world, horses=options["horses"], seed=options["seed"])
            self.stdout.write(say_calibration(found))
            self.stdout.write("")


def _horses(text: str) -> int:
    if not (text.isdecimal() and 1 <= int(text) <= MOST_HORSES):
        raise ArgumentTypeError(f"{text!r} is no number from 1 to {MOST_HORSES}")
    return int(text)


def _seed(text: str) -> int:
    if not text.isdecimal():
        raise ArgumentTypeError(f"{text!r} is no whole number from 0 up")
    return int(text)
