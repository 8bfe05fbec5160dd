"""Goldens: two garments as text, so that a change of any corner, length or notch is seen.

Run with ``--update-goldens`` to write them anew and see what changes.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

import pytest
from tests.samples import (
    FOUR,
    GAP,
    HEM,
    RED,
    THREE,
    TOP,
    made,
    recipe,
    seam,
    side_back,
    side_front,
)  # fmt: skip

from fanblock.pattern.model import Pattern

GOLDEN_MM = 0.02
"""Most that a number of a golden may differ: two digits less than are written, far under any drawing."""

NUMBER = re.compile(r"-?\d+\.\d+")


def stays() -> Pattern:
    """Return stays with tabs for a body that is short in the back."""
    tabs = "tabs: {slits: {side: 2, back: [50%]}, corner: 12 mm}"
    seams = (side_front(below_waist="open"), side_back(below_waist="open", take="{top edge: 6 mm}"))
    return made(recipe(GAP, TOP, HEM, *seams, RED, THREE, tabs, makes="stays"), "short in the back")


def jacket() -> Pattern:
    """Return a jacket cut in one, with a seam that ends on another, for an uneven body."""
    dart = seam("dart", "side front, 55%", "30%, waist", "32%, hem", share="1", spring="12 mm")
    return made(recipe(GAP, TOP, HEM, side_front(), side_back(), dart, RED, FOUR), "uneven")


def dump(pattern: Pattern) -> Iterator[str]:
    """Yield a pattern's pieces as lines of text."""
    for panel in pattern.panels:
        yield f"panel {panel.number} {panel.name}"
        for edge in panel.edges:
            x, y = edge.curve.start
            mate = f" with {edge.mate.panel}" if edge.mate else ""
            waist = f" waist at {edge.waist_at_mm:.3f}" if edge.waist_at_mm is not None else ""
            yield f"  {edge.kind} {edge.name} {edge.letter}{mate} from {x:.3f} {y:.3f} long {edge.curve.length_mm:.3f}{waist}"
        for slit in panel.slits:
            yield "  slit {:.3f} {:.3f} to {:.3f} {:.3f}".format(*slit.start, *slit.end)
        for notch in panel.notches:
            yield f"  notch {notch.kind} {notch.count} on {notch.edge} at {notch.at_mm:.3f}"
    for girth in pattern.girths:
        yield f"girth {girth.name} pieces {girth.parts_mm:.3f} open {girth.open_mm:.3f} gap {girth.gap_mm:.3f}"


@pytest.mark.parametrize("garment", [stays, jacket])
def test_a_garment_is_as_its_golden(garment: Callable[[], Pattern], golden: Callable[[str, str], str]) -> None:
    """Words are the same and numbers within two hundredths of a millimetre."""
    text = "\n".join(dump(garment())) + "\n"
    kept = golden(f"{garment.__name__}.txt", text)
    assert NUMBER.sub("0", text).replace("-0", "0") == NUMBER.sub("0", kept).replace("-0", "0")
    ours, theirs = ([float(number) for number in NUMBER.findall(each)] for each in (text, kept))
    assert ours == pytest.approx(theirs, abs=GOLDEN_MM)
