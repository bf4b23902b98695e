"""A calendar link's picture as drawn, and what a reader of codes makes of it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import numpy as np
import numpy.typing as npt
import zxingcpp
from PIL import Image

Grey = npt.NDArray[np.uint8]  # rows of pixels, 0 black to 255 white

SLATE: Final = 0x23  # the darkest ground that a page has
DRAWN: Final = re.compile(
    r'<svg viewBox="0 0 (?P<wide>\d+) (?P=wide)" class="qr">'
    r'<path fill="#fff" d="M0 0h(?P=wide)v(?P=wide)h-(?P=wide)z"/>'
    r'<path stroke="#000" d="(?P<strokes>[^"]+)"/></svg>\s*'
)
STROKE: Final = re.compile(r"(?P<move>[Mm])(?P<x>-?\d+) (?P<y>[\d.]+)h(?P<run>\d+)")


@dataclass(frozen=True)
class Run:
    """Dark modules side by side."""

    row: int
    first: int
    end: int


def runs_of(strokes: str) -> Iterator[Run]:
    """Follow the pen: it draws level lines one module high, and lifts between them."""
    x, y, done = 0, 0.0, 0
    for found in STROKE.finditer(strokes):
        assert found.start() == done, "the pen does what this does not know"
        if found["move"] == "M":
            x, y = 0, 0.0
        x, y = x + int(found["x"]), y + float(found["y"])
        yield Run(row=int(y), first=x, end=x + int(found["run"]))
        x, done = x + int(found["run"]), found.end()
    assert done == len(strokes), "the pen does what this does not know"


def modules_of(svg: str) -> Grey:
    """Return the drawing, a pixel to a module."""
    drawn = DRAWN.fullmatch(svg)
    assert drawn, svg[:200]
    modules = np.full((int(drawn["wide"]),) * 2, 255, dtype=np.uint8)
    for run in runs_of(drawn["strokes"]):
        modules[run.row, run.first : run.end] = 0
    return modules


def pictured(modules: Grey, *, pixels: int = 4) -> Grey:
    """Return the drawing some pixels to a module, lying on the slate."""
    large = np.kron(modules, np.ones((pixels, pixels), dtype=np.uint8))
    return np.pad(large, 6 * pixels, constant_values=SLATE)


def read(picture: Grey) -> list[str]:
    """Return what another program reads: dark on light only, as any phone can."""
    kinds = zxingcpp.barcode_formats_from_str("QRCode")
    found = zxingcpp.read_barcodes(picture, formats=kinds, try_invert=False)
    return [code.text for code in found]


def read_file(picture: Path) -> list[str]:
    """Return what another program reads in a picture that is kept in a file."""
    with Image.open(picture) as opened:
        return read(np.asarray(opened.convert("L")))
