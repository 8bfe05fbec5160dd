"""A block that somebody has already, read from a drawing: which way round it is, and what it must be."""

from __future__ import annotations

import math
import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from tests.samples import BODIES, block, body
from tests.tracing.drawings import BACK, BLOCK, BUST, FRONT, PAGE, WAIST, svg

from fanblock.block.bowed import BowBlock
from fanblock.block.fan import fan
from fanblock.block.from_body import block_of
from fanblock.block.from_drawing import Tracing, read_tracing
from fanblock.block.ruled import Block
from fanblock.problems import RecipeError
from fanblock.sheet.blocksheet import block_sheet
from fanblock.sheet.svg import write_svg
from fanblock.wearer.body import body_of
from fanblock.wearer.library import open_wearer

ROUND_TRIP_MM = 0.05
"""Most that a block may change on its way out as a drawing and back: half a pencil line's tenth."""

GRID = np.meshgrid(np.linspace(0.0, 1.0, 41), np.linspace(-0.5, 1.6, 22))


def read(data: bytes) -> Tracing:
    """Return the tracing of a drawing called d.svg."""
    return read_tracing(data, "d.svg", "d.svg", RecipeError)


def told(body: str, page: str = PAGE) -> list[str]:
    """Return what is wrong with a drawing."""
    with pytest.raises(RecipeError) as caught:
        read(svg(body, page))
    return [str(problem) for problem in caught.value.problems]


def drawn(made: Block, name: str) -> bytes:
    """Return a block as the program itself draws it."""
    assert isinstance(made, BowBlock)
    return write_svg(block_sheet(made, body(name))).encode()


def apart_mm(one: Block, other: Block) -> float:
    """Return how far two blocks stand apart, at most, from below the waist to above the bust."""
    around, height = GRID
    return float(np.hypot(*np.moveaxis(one.at(around, height) - other.at(around, height), -1, 0)).max())


@pytest.mark.parametrize("name", BODIES)
def test_a_block_that_was_drawn_reads_back_the_same(name: str) -> None:
    """Every block of the catalogue, out as the drawing that the program writes and in again, within 0.05 mm."""
    found = read(drawn(block(name), name))
    assert apart_mm(found.block(block(name).side_ratio), block(name)) < ROUND_TRIP_MM
    assert found.notes == ()


@pytest.mark.parametrize("wearer", ["ferrywoman", "innkeeper", "apprentice", "pilot"])
@pytest.mark.skipif(shutil.which("inkscape") is None, reason="the vector editor Inkscape is not installed")
def test_a_block_that_went_through_a_vector_editor_reads_back_the_same(wearer: str, tmp_path: Path) -> None:
    """Saved by Inkscape as plain SVG, turned by 20 degrees within a group, it is the same block within 0.05 mm."""
    who = body_of(open_wearer(wearer))
    made = block_of(who)
    text = write_svg(block_sheet(made, who)).replace(
        '<g id="block"', '<g transform="rotate(20 90 40)"><g id="block"', 1
    )
    (tmp_path / "in.svg").write_text(text.replace("</svg>", "</g></svg>"), encoding="utf-8")
    # the editor writes a cache and settings; they go into the test's own folder
    home = dict.fromkeys(("HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME"), str(tmp_path))
    command = ["inkscape", "in.svg", "--export-plain-svg=out.svg"]
    subprocess.run(command, cwd=tmp_path, env={**os.environ, **home}, check=True, capture_output=True, timeout=120)
    found = read((tmp_path / "out.svg").read_bytes())
    assert apart_mm(found.block(made.side_ratio), made) < ROUND_TRIP_MM


def arc(half_mm: float, turn_rad: float, x: float, y: float) -> tuple[str, tuple[float, float]]:
    """Return a bow of this length from (x, y) as an SVG arc, y down, and its end; drawn by chord and rise."""
    radius = half_mm / turn_rad
    end = x + radius * math.sin(turn_rad), y + radius * (1.0 - math.cos(turn_rad))
    return f"M {x} {y} A {radius} {radius} 0 0 1 {end[0]} {end[1]}", end


def test_circles_make_the_fan() -> None:
    """88/68/16 cm (worked out: R 70.400 cm, r 54.400 cm, half angle 35.8099 degrees) drawn as two circles is the fan."""
    turn = math.radians(35.8099)
    (waist, foot), (bust, head) = arc(340.0, turn, 20.0, 200.0), arc(440.0, turn, 20.0, 40.0)
    body = (
        f'<path id="waist" d="{waist}"/><path id="bust" d="{bust}"/><path id="center front" d="M 20 200 L 20 40"/>'
        f'<path id="center back" d="M {foot[0]} {foot[1]} L {head[0]} {head[1]}"/>'
    )
    found = read(svg(body)).block(0.5)
    assert (found.half_waist_mm, found.half_bust_mm) == pytest.approx((340.0, 440.0), abs=0.001)
    assert (found.turn_rad, found.center_front_mm, found.center_back_mm) == pytest.approx(
        (turn, 160.0, 160.0), abs=0.001
    )
    assert apart_mm(found, fan(340.0, 440.0, 160.0)) < 0.002


TURNED: dict[str, Callable[[str], str]] = {
    "rotated": lambda body: f'<g transform="rotate(33 100 100)">{body}</g>',
    "moved": lambda body: f'<g transform="translate(60 -20)">{body}</g>',
    "runs backwards": lambda body: body.replace(WAIST, '<path id="waist" d="M 420 240 Q 230 200 50 250"/>').replace(
        FRONT, '<path id="center front" d="M 20 90 L 50 250"/>'
    ),
}


@pytest.mark.parametrize("how", TURNED)
def test_it_does_not_matter_how_it_lies_on_the_page(how: str) -> None:
    """Turned, moved, its lines drawn from either end: the same half block, centre front upright on the origin."""
    plain, found = read(svg(BLOCK)).block(0.5), read(svg(TURNED[how](BLOCK))).block(0.5)
    assert apart_mm(found, plain) < 1e-3
    assert found.at(0.0, 0.0) == pytest.approx([0.0, 0.0], abs=1e-9)
    assert found.at(0.0, 1.0)[0] == pytest.approx(0.0, abs=1e-9)
    assert found.at(1.0, 0.0)[0] > 0.0


def test_the_other_half_is_turned_over_and_that_is_said() -> None:
    """A right half, mirrored, is the same block."""
    found = read(svg(f'<g transform="matrix(-1 0 0 1 500 0)">{BLOCK}</g>'))
    assert apart_mm(found.block(0.5), read(svg(BLOCK)).block(0.5)) < 1e-3
    assert found.notes == ("the wearer's right half was drawn; it has been turned over",)


def test_a_block_on_its_head_is_turned_round_and_that_is_said() -> None:
    """It may be that waist and bust were mixed up: whoever drew it is asked."""
    found = read(svg(f'<g transform="rotate(180 240 160)">{BLOCK}</g>'))
    assert found.notes == (
        "the bust was drawn below the waist; the block has been turned round: are the two named rightly?",
    )


def test_pixels_and_loose_corners_are_told() -> None:
    """A size in pixels may be another program's; corners half a millimetre apart are closed by the ends of waist and bust."""
    wide = 500.0 / 25.4 * 96.0
    found = read(svg(BLOCK.replace("M 50 250 L 20 90", "M 50 250.6 L 20 90"), f'width="{wide}" height="{0.6 * wide}" '
                     'viewBox="0 0 500 300"'))  # fmt: skip
    assert found.notes == (
        "the drawing has its size in pixels, read as 96 to the inch: hold a tape to its waist before you cut",
        "its lines miss one another by up to 0.6 mm at the corners: the ends of waist and bust were taken",
    )


@pytest.mark.parametrize(
    ("out", "put", "says"),
    [
        (
            "M 50 250 L 20 90",
            "M 50 250 Q 60 170 20 90",
            "d.svg:4:1: center front is not straight: it stands off a straight line by 12.3 mm. The centre lines of a block "
            "are straight: draw it with a ruler, from corner to corner.",
        ),
        (
            "M 50 250 L 20 90",
            "M 40 250 L 20 90",
            "d.svg:2:1: waist and center front do not meet: their ends are 10.0 mm apart. Draw both to one corner.",
        ),
        (
            "230 40 460 80",
            "230 40 455 80",
            "d.svg:3:1: bust and center back do not meet: their ends are 5.0 mm apart. Draw both to one corner.",
        ),
        (
            "M 50 250 Q 230 200 420 240",
            "M 50 250 L 230 150 L 420 240",
            "d.svg:2:1: waist has a corner in it, 20.6 cm from where its drawing begins. Draw it as one smooth line.",
        ),
    ],
)
def test_what_is_no_half_block_is_told(out: str, put: str, says: str) -> None:
    """Bowed centres, open corners, kinks: each at its own line of the file."""
    assert told(BLOCK.replace(out, put)) == [says]


def test_a_drawing_at_another_scale_is_asked_about() -> None:
    """Half size: the waist of a doll, and the centre fronts of one."""
    said = told(BLOCK, 'width="250mm" height="150mm" viewBox="0 0 500 300"')
    assert said[0] == (
        "d.svg:2:1: waist comes to 37.4 cm for the whole body; it lies between 45.0 cm and 210.0 cm. "
        "Is the drawing at true scale, and is it half a block?"
    )
    assert [text.split(" comes")[0] for text in said] == [
        "d.svg:2:1: waist", "d.svg:3:1: bust", "d.svg:4:1: center front", "d.svg:5:1: center back",
    ]  # fmt: skip


def test_upright_lines_that_cross_are_refused() -> None:
    """A waist that doubles back under the bust has its rulings in a tangle."""
    tangle = BLOCK.replace("M 50 250 Q 230 200 420 240", "M 50 250 C 500 250 -40 200 420 240")
    (says,) = told(tangle)
    assert says.startswith("d.svg:2:1: its upright lines run into each other ")
    assert says.endswith(
        " of the way from waist to bust. Look whether waist and bust run the same way, and which of them is which."
    )


def test_a_tracing_is_known_by_its_lines() -> None:
    """The same lines, however they lie, have one digest; a millimetre makes another."""
    plain = read(svg(BLOCK))
    assert read(svg("\n".join((BACK, FRONT, BUST, WAIST)))) == plain
    assert read(svg(BLOCK.replace("230 200", "230 201"))) != plain
    assert len(plain.digest) == 16
