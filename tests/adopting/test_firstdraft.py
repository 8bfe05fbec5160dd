"""Lines drawn over half a block become a first recipe that draws them where they were drawn."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from tests.cli.conftest import Run, run  # noqa: F401  (a fixture)

from fanblock.adopting.firstdraft import first_recipe
from fanblock.block.from_body import block_of
from fanblock.geometry.curve import Points
from fanblock.problems import GeometryError
from fanblock.wearer.body import body_of
from fanblock.wearer.library import open_wearer

BLOCK = block_of(body_of(open_wearer("ferrywoman")))
TURN = 0.2


def line(name: str, around: Points | float, height: Points | float, *, mirrored: bool = False) -> str:
    """Return a line on the block, the whole turned on its page and perhaps turned over."""
    around, height = np.broadcast_arrays(np.asarray(around, float), np.asarray(height, float))
    cos, sin = np.cos(TURN), np.sin(TURN)
    points = BLOCK.at(around, height) @ np.array([[cos, -sin], [sin, cos]]).T + (100.0, 50.0)
    if mirrored:
        points = points * (-1.0, 1.0) + (700.0, 0.0)
    return f'<path id="{name}" d="M {" L ".join(f"{x:.4f},{400.0 - y:.4f}" for x, y in points)}"/>\n'


def drawing(*more: str, hem_to: float = 1.0, mirrored: bool = False) -> bytes:
    """Return half a block with a top edge, a hem and two seams drawn on it."""
    u = np.linspace(0.0, 1.0, 300)
    upper, lower = np.linspace(-0.3, 1.1, 100), np.linspace(-0.37, 1.1, 100)
    lines = [
        line("waist", u, 0.0, mirrored=mirrored),
        line("bust", u, 1.0, mirrored=mirrored),
        line("Centre-Front", 0.0, np.array([0.0, 1.0]), mirrored=mirrored),
        line("center back", 1.0, np.array([0.0, 1.0]), mirrored=mirrored),
        line("top edge", u, 1.15 - 0.3 * np.exp(-(((u - 0.5) / 0.2) ** 2)), mirrored=mirrored),
        line("hem", u * hem_to, -0.35 + 0.05 * np.cos(6.0 * u), mirrored=mirrored),
        line("side back", 0.7 + 0.03 * lower, lower, mirrored=mirrored),
        line("side front", 0.25 - 0.08 * np.exp(-((upper / 0.5) ** 2)), upper, mirrored=mirrored),
        line("path77", 0.4, np.array([0.2, 0.5]), mirrored=mirrored),
        *more,
    ]
    page = 'xmlns="http://www.w3.org/2000/svg" width="700mm" height="500mm" viewBox="0 0 700 500"'
    return f"<svg {page}>\n{''.join(lines)}</svg>".encode()


def test_the_lines_are_told_where_they_were_drawn() -> None:
    """Places known beforehand: the seam's around at the waist, the top edge's height in front, seams from front to back."""
    text = first_recipe(drawing(), "half.svg", "half.svg", "Mine").text
    assert "        - [center front, bust + 26.6 mm]\n" in text  # 15 % of 177.8 mm, less a hair
    assert "        - [17%, waist]\n" in text
    assert "        - [70%, waist]\n" in text
    assert text.index("name: side front") < text.index("name: side back")
    assert "path77" not in text


def test_a_right_half_makes_the_same_recipe_and_is_told() -> None:
    """Turned over, the lines lie where they lay."""
    left, right = (first_recipe(drawing(mirrored=one), "half.svg", "half.svg", "Mine") for one in (False, True))
    assert left.text == right.text
    assert right.notes == ("the wearer's right half was drawn; it has been turned over",)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (drawing(hem_to=0.6), "the hem does not reach from the center front to the center back."),
        (
            drawing(line("dart", 0.3, np.array([0.0, 0.5, 0.2, 0.8]))),
            "the line “dart” does not run from top to bottom, so it is no seam.",
        ),
        (drawing().replace(b'id="hem"', b'id="path3"'), "no line is called “hem”."),
    ],
)
def test_what_is_no_edge_and_no_seam_is_told(data: bytes, says: str) -> None:
    """With its place and what to do."""
    with pytest.raises(GeometryError) as caught:
        first_recipe(data, "half.svg", "half.svg", "Mine")
    (problem,) = caught.value.problems
    assert problem.what == says
    assert problem.place is not None
    assert problem.remedy


def test_names_that_no_seam_can_have_are_all_told_with_their_lines() -> None:
    """A place on every block, and what is no name: why, and what to call it."""
    upright = np.linspace(-0.2, 1.0, 40)
    data = drawing(line("side", 0.5, upright), line("under-arm", 0.45, upright), line("2nd", 0.6, upright))
    with pytest.raises(GeometryError) as caught:
        first_recipe(data, "half.svg", "half.svg", "Mine")
    assert [str(problem) for problem in caught.value.problems] == [
        "half.svg:11:1: a line is called “side”, and so is a place on every block, so no seam can have that name. Give the line "
        "another name, such as “side seam”, or none if it is no seam.",
        "half.svg:13:1: a line is called “2nd”, and no seam can have such a name. Begin with a letter; use letters, digits, "
        "blanks and hyphens, at most 40.",
    ]


def test_the_command_writes_a_recipe_that_drafts(run: Run, tmp_path: Path) -> None:  # noqa: F811
    """From a drawing beside it, found sound by the checks; one that lies elsewhere is refused."""
    (tmp_path / "half.svg").write_bytes(drawing())
    assert run("new", "recipe", "mine.yaml", "--from", "half.svg").code == 0
    assert run("check", "mine.yaml").code == 0
    assert run("draft", "ferrywoman", "mine.yaml", "--out", "trial", "--paper", "a0", "--no-pictures").code == 0
    lost = run("new", "recipe", "other.yaml", "--from", "lost.svg")
    assert (lost.code, lost.err) == (1, "from › there is no drawing “lost.svg”. Look at its name and folder.\n")
