"""Pictures: as wide as asked, the shape of the drawing, words in the project's own font."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image
from tests.sheet.paper_samples import sheet

from fanblock.problems import ExportError
from fanblock.sheet.drawing import Drawing, Group, Words
from fanblock.sheet.font import width_mm
from fanblock.sheet.png import to_png
from fanblock.sheet.svg import write_svg


def pixels(data: bytes) -> np.ndarray:
    """Greys of a picture, 0 black to 255 white, row by row."""
    return np.asarray(Image.open(io.BytesIO(data)).convert("L"), dtype=np.float64)


def test_a_picture_has_the_shape_of_its_drawing() -> None:
    """Pillow reads 620 pixels across and 480 down (or one more) from a drawing of 620 × 480 mm, ink on
    white."""
    grey = pixels(to_png(write_svg(sheet()), 620))
    assert grey.shape in ((480, 620), (481, 620))
    assert grey[0, 0] == 255.0
    assert grey.min() < 60.0


def test_words_are_drawn_in_the_own_font() -> None:
    """Ten pixels to the millimetre, a word is as wide as the font says, so no other font stood in for it."""
    words = Words("HMMMMH", 5.0, 5.0, 8.0, bold=True)
    grey = pixels(to_png(write_svg(Drawing("w", 60.0, 20.0, (Group("g", (words,)),))), 600))
    columns = np.flatnonzero((grey < 128).any(axis=0))
    bearings = 2 * 0.08 * 8.0  # letters stand a little inside their advance
    assert (columns[-1] - columns[0]) / 10.0 == pytest.approx(width_mm("HMMMMH", 8.0, True) - bearings, abs=0.5)


def test_pictures_have_a_limit() -> None:
    """A picture wider than 1200 px, or of none, is refused with the widths that can be had."""
    for width in (0, 1201):
        with pytest.raises(ExportError) as caught:
            to_png("<svg/>", width)
        assert str(caught.value) == f"picture › A picture {width} px wide cannot be made. Ask for 1 to 1200 px."


def test_what_is_no_drawing_is_refused() -> None:
    """Text that is not SVG raises an export error, not the library's own."""
    with pytest.raises(ExportError, match="picture › The drawing could not be made a picture"):
        to_png("not a drawing", 100)


def test_the_same_drawing_gives_the_same_picture() -> None:
    """Two runs give the same bytes."""
    assert to_png(write_svg(sheet()), 200) == to_png(write_svg(sheet()), 200)
