"""The picture of a trial: well formed, the same every time, with every drawn body in it."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from defusedxml import ElementTree
from PIL import Image

from fanblock.proving.picture import CAPTION, picture_svg
from fanblock.proving.trial import BROKEN, NOT_SOUND, Cause, Outcome, Trial
from fanblock.sheet.png import to_png

SVG = "{http://www.w3.org/2000/svg}"


def shapes(svg: str, name: str) -> int:
    """Return how many lines or dots the group of this name holds."""
    found = [group for group in ElementTree.fromstring(svg).iter(f"{SVG}g") if group.get("id") == name]
    return sum(child.tag in (f"{SVG}path", f"{SVG}circle") for group in found for child in group)


def words(svg: str) -> str:
    """Return all words of a picture."""
    return " ".join(text.text or "" for text in ElementTree.fromstring(svg).iter(f"{SVG}text"))


def test_the_same_trial_gives_the_same_picture(small: Trial) -> None:
    """Byte for byte."""
    assert picture_svg(small) == picture_svg(small)


def test_every_body_that_can_be_drawn_is_drawn(small: Trial) -> None:
    """Five panels of two bodies, of the median and of the mean body; a dot for each row that can be read."""
    svg = picture_svg(small)
    counts = {
        name: shapes(svg, name)
        for name in ("outlines-sound", "median-body", "mean-body", "bodies-sound", "bodies-refused")
    }
    assert counts == {
        "outlines-sound": 10, "median-body": 5, "mean-body": 5, "bodies-sound": 2, "bodies-refused": 2,
    }  # fmt: skip


def test_it_says_what_it_proves_and_what_it_does_not(small: Trial) -> None:
    """Who sees only the picture reads the verdict and that it is no word about fit."""
    said = words(picture_svg(small))
    assert CAPTION in said
    assert "SOUND for 2 of 5 bodies (40%); 3 refused." in said


def test_all_outlines_stand_within_the_sheet(small: Trial) -> None:
    """No point lies outside the picture's rectangle."""
    root = ElementTree.fromstring(picture_svg(small))
    width, height = (float(number) for number in (root.get("viewBox") or "").split()[2:])
    for path in root.iter(f"{SVG}path"):
        numbers = [float(part) for part in (path.get("d") or "").strip("MZ").split()]
        assert 0.0 <= min(numbers[0::2]) <= max(numbers[0::2]) <= width
        assert 0.0 <= min(numbers[1::2]) <= max(numbers[1::2]) <= height


def test_what_fails_is_drawn_apart(small: Trial) -> None:
    """Outlines that are not sound have a group, a colour and a place in the words of their own."""
    first, *rest = small.outcomes
    bad = replace(first, state=NOT_SOUND, causes=(Cause("mates-A", "seam A does not match"),))
    svg = picture_svg(replace(small, outcomes=(bad, *rest)))
    assert shapes(svg, "outlines-not-sound") == 5
    assert "seam A does not match" in words(svg)


@pytest.mark.parametrize("keep", [0, 1])
def test_a_trial_with_nothing_to_draw_is_a_picture_too(small: Trial, keep: int) -> None:
    """Not one body, or one that broke: no outline, no error."""
    broken = Outcome(small.outcomes[0].person, BROKEN, (Cause("bug", "a fault"),))
    svg = picture_svg(replace(small, outcomes=(broken,) * keep, median=None, mean=None))
    assert shapes(svg, "outlines-sound") == 0
    assert CAPTION in words(svg)


def test_the_png_is_as_wide_as_asked_and_shaped_like_the_drawing(small: Trial) -> None:
    """Read back with Pillow; the renderer rounds up to whole dots before it scales."""
    svg = picture_svg(small)
    width, height = (float(number) for number in (ElementTree.fromstring(svg).get("viewBox") or "").split()[2:])
    with Image.open(io.BytesIO(to_png(svg, 600))) as image:
        assert image.size[0] == 600
        assert image.size[1] == pytest.approx(600.0 * height / width, abs=2.0)
