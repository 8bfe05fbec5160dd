"""Pictures for the screen, made from the SVG with the project's own font and no other."""

from __future__ import annotations

import resvg_py

from fanblock.problems import ExportError, Problem
from fanblock.sheet.font import FAMILY, font_file

WIDEST_PX = 1200
"""Widest picture made: what a picture costs grows with its pixels, and wider ones show no more."""


def to_png(svg: str, width_px: int = 800, background: str = "#ffffff") -> bytes:
    """Return the SVG as a PNG picture ``width_px`` wide (1 to ``WIDEST_PX``) and as high as the drawing asks.

    Raises :class:`fanblock.problems.ExportError` when the width is out of range or the SVG cannot be read.
    """
    if not 1 <= width_px <= WIDEST_PX:
        raise ExportError(
            [
                Problem(
                    "picture-width",
                    "picture",
                    f"A picture {width_px} px wide cannot be made.",
                    f"Ask for 1 to {WIDEST_PX} px.",
                )
            ]
        )
    try:
        data = resvg_py.svg_to_bytes(
            svg_string=svg,
            width=width_px,
            dpi=96,
            background=background,
            skip_system_fonts=True,
            font_files=[str(font_file())],
            font_family=FAMILY,
            sans_serif_family=FAMILY,
        )
    except ValueError as error:
        raise ExportError(
            [Problem("picture", "picture", f"The drawing could not be made a picture: {error}.")]
        ) from error
    return bytes(data)
