"""Copies of the pattern's own lines, as editors make them by doubling a line or breaking it in two, are nobody's marks."""

from __future__ import annotations

import re

import numpy as np
import pytest
from tests.adopting.editing import GOWN, STAYS, pattern_of, svg_of, with_line
from tests.adopting.test_adopt import read_back

from fanblock.geometry.curve import Points

WEARER = "ferrywoman"
PIECE = "center front"


def channel(aside_mm: float = 0.0) -> Points:
    """Return the first row of stitching of the third channel of the first piece, moved aside by so much."""
    row = pattern_of(STAYS, WEARER).by_name[PIECE].channels[2].rows[0]
    return row.points + np.array([aside_mm, 0.0])


def with_copy(attributes: str, points: Points) -> str:
    """Return the drawing of stays with one more line on its first piece."""
    return with_line(svg_of(STAYS, WEARER), STAYS, WEARER, PIECE, points, attributes)


@pytest.mark.parametrize(
    "attributes",
    [
        'id="path99"',
        'id="channel-3"',
        'id="channel-3-2"',
        'id="path98" data-name="channel 3 copy"',
        'id="n1-center-front-channel-3-9"',
        "",
    ],
)
@pytest.mark.parametrize("part", [slice(None), slice(0, 2)], ids=["whole", "a part"])
def test_a_copy_that_lies_on_its_line_is_passed_over(attributes: str, part: slice) -> None:
    """Whatever the editor called it, whole or broken off: no mark is made and nothing is told."""
    found = read_back(STAYS, WEARER, with_copy(attributes, channel()[part]).encode())
    assert (found.rows, found.notes, found.text) == ((), (), "")


@pytest.mark.parametrize("name", ["channel-3-2", "channel-3-copy", "Channel 3 (2)", "channel-77"])
def test_a_copy_that_was_moved_aside_is_told(name: str) -> None:
    """With the line it would be a copy of, and what to do."""
    text = with_copy(f'data-name="{name}"', channel(3.0))
    line = text[: text.index(name)].count("\n") + 1
    found = read_back(STAYS, WEARER, text.encode())
    assert (found.rows, found.text) == ((), "")
    (note,) = found.notes
    named, of = re.sub("[-_]", " ", name), "channel 1" if "77" in name else "channel 3"
    assert note in {
        f"the line “{called}” (line {line} of the file) on piece “1 center front” is not adopted: a line of the pattern is called "
        f"“{of}”, and so would a copy of it be. Give it a name of its own if it shall be a mark of the recipe, or delete it"
        for called in (named, name)
    }


def test_a_line_with_a_name_of_its_own_upon_one_of_ours_is_told() -> None:
    """It would be drawn twice in the same place."""
    points = pattern_of(GOWN, WEARER).by_name["front"].levels["waist"][0].points
    text = with_line(svg_of(GOWN, WEARER), GOWN, WEARER, "front", points, 'id="belt"')
    line = text[: text.index('id="belt"')].count("\n") + 1
    found = read_back(GOWN, WEARER, text.encode())
    assert (found.rows, found.text) == ((), "")
    assert found.notes == (
        f"the line “belt” (line {line} of the file) is not adopted: it lies all along “waist level”, which is drawn there "
        "already. Draw it elsewhere if it shall be a mark of the recipe, or delete it",
    )


def test_names_that_only_look_like_ours_are_the_makers() -> None:
    """On a piece without channels and slits, lines so called are hers, as is one with a longer name than ours."""
    block, text = pattern_of(GOWN, WEARER).block, svg_of(GOWN, WEARER)
    for number, name in enumerate(("channel-1", "slit-1", "side-seam-pocket", "eyelet-1")):
        points = block.at(np.array([0.12, 0.22]), np.array([0.2, 0.3]) + 0.1 * number)
        text = with_line(text, GOWN, WEARER, "front", points, f'id="{name}"')
    found = read_back(GOWN, WEARER, text.encode())
    assert {row.line for row in found.rows} == {"channel 1", "slit 1", "side seam pocket", "eyelet 1"}
    assert found.notes == ()
