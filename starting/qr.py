"""An address becomes a picture that a phone's camera reads."""

from __future__ import annotations

from typing import Final

import segno

QUIET: Final = 4  # modules of light border, as ISO/IEC 18004 asks


def qr_svg(address: str) -> str:
    """Return a QR code as SVG text: dark on light whatever the page; sized by its page.

    Raises:
        DataOverflowError: the address is too long for a code, about 2,300 characters.
    """
    return segno.make(address, error="m", micro=False).svg_inline(
        border=QUIET,
        dark="#000",
        light="#fff",
        omitsize=True,
        svgclass="qr",
        lineclass=None,
    )
