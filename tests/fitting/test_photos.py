"""An upload becomes a photo that may be kept, or is refused in words."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO

import pytest
from PIL import Image

from fitting import photos
from fitting.photos import (
    LONGEST_EDGE,
    SMALL_EDGE,
    Picture,
    UnreadablePhotoError,
    read_photo,
)
from tests.make import make_picture

ORIENTATION, MAKER, GPS = 0x0112, 0x010F, 0x8825


def opened(kept: bytes) -> Image.Image:
    found = Image.open(BytesIO(kept))
    found.load()
    return found


def saved(image: Image.Image, kind: str, **how: object) -> bytes:
    into = BytesIO()
    image.save(into, kind, **how)
    return into.getvalue()


def why_not(given: bytes) -> str:
    with pytest.raises(UnreadablePhotoError) as refused:
        read_photo(given)
    return str(refused.value)


def png_head(width: int, height: int, packed: bytes) -> bytes:
    """Return a PNG that says how large it is, whatever it holds."""

    def chunk(name: bytes, body: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(name + body))
        return struct.pack(">I", len(body)) + name + body + check

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    start = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head)
    return start + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


def marked_by_a_camera() -> bytes:
    """Return a JPEG, left half red, that a camera lay on its side and told where."""
    image = Image.new("RGB", (120, 80), "blue")
    image.paste("red", (0, 0, 60, 80))
    exif = Image.Exif()
    exif[ORIENTATION] = 6  # the camera was turned: the top is at the right
    exif[MAKER] = "A camera of nobody"
    exif[GPS] = {1: "N", 2: (51.0, 10.0, 0.0), 3: "W", 4: (1.0, 30.0, 0.0)}
    return saved(
        image, "JPEG", quality=95, exif=exif, comment=b"Gate code 1234", dpi=(72, 72)
    )


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "MPO"])
def test_every_kind_of_picture_is_kept_as_jpeg(kind: str) -> None:
    kept = read_photo(make_picture((300, 200), kind))
    for picture in (kept.whole, kept.small):
        assert opened(picture).format == "JPEG"
        assert opened(picture).size == (300, 200)
    assert (kept.width, kept.height) == (300, 200)


def test_where_and_with_what_it_was_taken_is_left_out() -> None:
    given = marked_by_a_camera()
    assert Image.open(BytesIO(given)).getexif().get_ifd(GPS)  # it was there
    kept = read_photo(given)
    for picture in (kept.whole, kept.small):
        found = opened(picture)
        assert not found.getexif()
        assert not {"exif", "comment", "icc_profile", "photoshop"} & set(found.info)
        assert b"Gate code" not in picture
        assert b"nobody" not in picture


def test_a_photo_stands_upright_by_the_cameras_own_note() -> None:
    kept = read_photo(marked_by_a_camera())
    assert (kept.width, kept.height) == (80, 120)
    upright = opened(kept.whole).convert("RGB")
    top, foot = upright.getpixel((40, 20)), upright.getpixel((40, 100))
    assert isinstance(top, tuple)
    assert isinstance(foot, tuple)
    assert top[0] > 150 + top[2]  # what lay left of the sensor is the top
    assert foot[2] > 150 + foot[0]


@pytest.mark.filterwarnings("ignore:Corrupt EXIF data")
def test_a_damaged_note_of_the_camera_does_not_cost_the_picture() -> None:
    image = Image.new("RGB", (120, 80), "red")
    broken = saved(image, "JPEG", exif=b"Exif\x00\x00MM\x00*\x00\x00\x00\x08\xff\xff")
    kept = read_photo(broken)
    assert (kept.width, kept.height) == (120, 80)


@pytest.mark.parametrize(
    ("size", "whole", "small"),
    [
        ((4000, 3000), (LONGEST_EDGE, 1200), (SMALL_EDGE, 360)),
        ((1200, 3200), (600, LONGEST_EDGE), (180, SMALL_EDGE)),
        ((640, 480), (640, 480), (SMALL_EDGE, 360)),
        ((200, 100), (200, 100), (200, 100)),  # never enlarged
    ],
)
def test_the_longest_edge_is_bounded(
    size: tuple[int, int], whole: tuple[int, int], small: tuple[int, int]
) -> None:
    kept = read_photo(make_picture(size))
    assert opened(kept.whole).size == whole == (kept.width, kept.height)
    assert opened(kept.small).size == small


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "I;16"])
def test_any_kind_of_colour_becomes_plain_colour(mode: str) -> None:
    kept = read_photo(saved(Image.new(mode, (60, 40)), "PNG"))
    assert opened(kept.whole).mode == "RGB"


def test_what_is_seen_through_is_laid_on_white() -> None:
    clear = read_photo(saved(Image.new("RGBA", (60, 40), (0, 0, 0, 0)), "PNG"))
    assert opened(clear.whole).getpixel((30, 20)) == (255, 255, 255)


def test_the_same_picture_is_kept_alike_again() -> None:
    first = read_photo(make_picture((900, 700)))
    again = read_photo(first.whole)
    assert isinstance(again, Picture)
    assert (again.width, again.height) == (first.width, first.height)


@pytest.mark.parametrize("share", [0.2, 0.5, 0.9])
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_picture_cut_short_is_refused(kind: str, share: float) -> None:
    noise = Image.effect_noise((400, 300), 90).convert("RGB")
    whole = saved(noise, kind)
    assert read_photo(whole).width == 400
    said = why_not(whole[: int(len(whole) * share)])
    assert "not whole" in said or "cannot be read" in said


def test_a_picture_that_says_it_is_huge_is_refused_before_it_is_unpacked() -> None:
    packed = zlib.compress(b"\x00" * 1000)
    for width, height in ((200_000, 200_000), (12_000, 10_000), (6_000, 5_000)):
        bomb = png_head(width, height, packed)
        assert len(bomb) < 200
        assert "million pixels" in why_not(bomb)


def test_a_cameras_jpeg_may_have_more_pixels_than_a_drawn_picture() -> None:
    size = (6000, 4500)  # 27 million
    assert "25 million pixels" in why_not(make_picture(size, "PNG"))
    assert read_photo(make_picture(size)).width == LONGEST_EDGE


def test_a_file_larger_than_allowed_is_refused_by_its_size() -> None:
    padded = make_picture() + b"\x00" * photos.MOST_BYTES
    assert "larger than 20 MB" in why_not(padded)


@pytest.mark.parametrize(
    "given",
    [
        b"not a picture at all, though it is called .jpg",
        b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>',
        saved(Image.new("P", (60, 40)), "GIF"),
        saved(Image.new("RGB", (60, 40)), "BMP"),
        saved(Image.new("RGB", (60, 40)), "TIFF"),
        b"%PDF-1.7 a sheet",
        b"\xff\xd8\xff\xe0" + b"\x00" * 40,
        b"\x89PNG\r\n\x1a\n",
        b"RIFF\x00\x00\x00\x00WEBP",
    ],
    ids=["text", "svg", "gif", "bmp", "tiff", "pdf", "jpeg-head", "png-head", "webp"],
)
def test_what_is_no_photo_is_refused(given: bytes) -> None:
    assert "A photo is a JPEG, PNG or WebP picture." in why_not(given)


@pytest.mark.parametrize("brand", [b"heic", b"heix", b"mif1"])
def test_heic_is_refused_by_its_name_with_a_way_out(brand: bytes) -> None:
    said = why_not(b"\x00\x00\x00\x18ftyp" + brand + b"\x00" * 100)
    assert "HEIC" in said
    assert "Save it as JPEG" in said


def test_an_empty_file_and_a_dot_are_refused() -> None:
    assert "empty" in why_not(b"")
    assert "nothing can be seen" in why_not(make_picture((1, 1)))


def test_a_script_behind_the_picture_is_left_behind() -> None:
    kept = read_photo(make_picture() + b"<script>alert(1)</script>")
    assert b"script" not in kept.whole + kept.small
