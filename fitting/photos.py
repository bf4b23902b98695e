"""An uploaded photo becomes one that may be kept: upright, bounded, only the picture.

Whatever else a camera writes into the file, above all where it was taken, is left
behind: the picture is drawn again and only that is kept.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from io import BytesIO
from typing import Final

from PIL import Image, ImageOps

# How much is taken, and what is kept of it: ours.
MOST_MEGABYTES: Final = 20
MOST_BYTES: Final = MOST_MEGABYTES * 1024 * 1024
MOST_PIXELS: Final = 64_000_000  # of a camera's JPEG
MOST_DRAWN_PIXELS: Final = 25_000_000  # of PNG and WebP, which unpack whole
LONGEST_EDGE: Final = 1600
SMALL_EDGE: Final = 480
_LEAST_EDGE: Final = 16
_QUALITY: Final = 82
_MILLION: Final = 1_000_000

_READ: Final = ("JPEG", "PNG", "WEBP")
_CAMERA: Final = frozenset({"JPEG", "MPO"})  # MPO: a JPEG with a second one behind
_WORDS: Final = "A photo is a JPEG, PNG or WebP picture."
_BOX: Final = slice(4, 8)
_BRAND: Final = slice(8, 12)
_HEIC_BRANDS: Final = frozenset(
    {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"}
)
_TOO_LARGE: Final = (Image.DecompressionBombError, Image.DecompressionBombWarning)


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A photo as it is kept: JPEG bytes whole and small; pixels of the whole one."""

    whole: bytes
    small: bytes
    width: int
    height: int


class UnreadablePhotoError(ValueError):
    """An uploaded file that is not taken as a photo; says why."""


def read_photo(given: bytes) -> Picture:
    """Return an uploaded photo as it may be kept.

    Upright by the camera's own note, the longest edge at most 1600 px, JPEG, and no
    metadata.

    Raises:
        UnreadablePhotoError: it is no picture, not whole, too large or too small.
    """
    if len(given) > MOST_BYTES:
        raise UnreadablePhotoError(
            f"This file is larger than {MOST_MEGABYTES} MB. Take it smaller, or cut it"
            " down first."
        )
    if given[_BOX] == b"ftyp" and given[_BRAND] in _HEIC_BRANDS:
        raise UnreadablePhotoError(
            f"This photo is HEIC, which few browsers can show. {_WORDS} Save it as JPEG"
            " first, or set the camera to JPEG."
        )
    if not given:
        raise UnreadablePhotoError(f"This file is empty. {_WORDS}")
    return _kept(_drawn(_looked_at(given)))


def _looked_at(given: bytes) -> Image.Image:
    """Return the picture, its kind and size looked at, none of it unpacked yet."""
    try:
        found = Image.open(BytesIO(given), formats=_READ)
    except _TOO_LARGE:
        raise _too_many_pixels(MOST_PIXELS) from None
    except Exception as error:
        raise UnreadablePhotoError(f"This file cannot be read. {_WORDS}") from error
    most = MOST_PIXELS if found.format in _CAMERA else MOST_DRAWN_PIXELS
    if found.width * found.height > most:
        raise _too_many_pixels(most)
    if min(found.size) < _LEAST_EDGE:
        raise UnreadablePhotoError(
            f"This picture is {found.width} by {found.height} pixels: nothing can be"
            " seen on it."
        )
    return found


def _too_many_pixels(most: int) -> UnreadablePhotoError:
    return UnreadablePhotoError(
        f"This picture has more than {most // _MILLION} million pixels. Take it"
        " smaller, or cut it down first."
    )


def _drawn(found: Image.Image) -> Image.Image:
    """Return the picture, unpacked, at most as large as it is kept, and upright."""
    try:
        found.load() if found.format not in _CAMERA else _load_at_scale(found)
    except Exception as error:
        raise UnreadablePhotoError(
            "This picture is not whole: a part of the file is missing or damaged. Send"
            " it once more, or take another."
        ) from error
    found.thumbnail((LONGEST_EDGE, LONGEST_EDGE), Image.Resampling.LANCZOS)
    with suppress(Exception):  # a damaged note of the camera; the picture is sound
        found = ImageOps.exif_transpose(found)
    return found


def _load_at_scale(found: Image.Image) -> None:
    """Unpack a JPEG no larger than is needed: that takes a fraction of the memory."""
    found.draft("RGB", (LONGEST_EDGE, LONGEST_EDGE))
    found.load()


def _kept(drawn: Image.Image) -> Picture:
    """Return the picture drawn on new paper, so that nothing else comes along."""
    seen = drawn.convert("RGBA")
    whole = Image.new("RGB", seen.size, "white")
    whole.paste(seen, mask=seen.getchannel("A"))
    small = whole.copy()
    small.thumbnail((SMALL_EDGE, SMALL_EDGE), Image.Resampling.LANCZOS)
    return Picture(
        whole=_jpeg(whole), small=_jpeg(small), width=whole.width, height=whole.height
    )


def _jpeg(picture: Image.Image) -> bytes:
    into = BytesIO()
    picture.save(into, "JPEG", quality=_QUALITY, optimize=True, progressive=True)
    return into.getvalue()
