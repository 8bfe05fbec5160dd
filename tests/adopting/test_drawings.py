"""Drawings as editors leave them: units, scales, groups and paths rewritten change nothing; what is lost is told."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from tests.adopting.editing import STAYS, folder_of, pattern_of, redrawn, seam_moved, svg_of

from fanblock.adopting.kept import open_kept
from fanblock.adopting.moved import Compared, compared
from fanblock.adopting.strokes import found_strokes
from fanblock.problems import GeometryError

WEARER = "ferrywoman"


def edges(data: bytes) -> Compared:
    """Return the edges of a drawing held against its draft."""
    panels = open_kept(str(folder_of(STAYS, WEARER))).panels
    return compared(found_strokes(data, "my.svg", panels), panels)


def told(data: bytes) -> list[str]:
    """Return what is wrong with a drawing."""
    with pytest.raises(GeometryError) as caught:
        edges(data)
    return [str(problem) for problem in caught.value.problems]


def moved(data: bytes) -> dict[tuple[str, str], float]:
    """Return by how much each edge was moved that was."""
    return {(edge.panel, edge.name): edge.off_mm for edge in edges(data).edges if edge.is_moved}


def in_inches(text: str) -> str:
    """Return a drawing with its size in inches."""
    return re.sub(
        r'(width|height)="([0-9.]+)mm"', lambda met: f'{met[1]}="{float(met[2]) / 25.4:.6f}in"', text, count=2
    )


def in_pixels(text: str) -> str:
    """Return a drawing with its size in pixels, 96 to the inch."""
    return re.sub(
        r'(width|height)="([0-9.]+)mm"', lambda met: f'{met[1]}="{float(met[2]) / 25.4 * 96.0:.4f}px"', text, count=2
    )


def at_72_to_the_inch(text: str) -> str:
    """Return a drawing as one saves it that counts 72 pixels to the inch."""
    return re.sub(
        r'(width|height)="([0-9.]+)mm"', lambda met: f'{met[1]}="{float(met[2]) / 25.4 * 72.0:.4f}px"', text, count=2
    )


def in_a_layer(text: str) -> str:
    """Return a drawing with everything in a layer that is turned, moved and scaled against the page."""
    head, body = text.split("<g ", 1)
    layer = '<g id="layer1" transform="translate(40 60) rotate(12) scale(2)"><g transform="scale(0.5)">'
    return f"{head}{layer}<g {body}".replace("</svg>", "</g></g></svg>")


def one_piece_moved(text: str) -> str:
    """Return a drawing with one piece moved and turned by itself."""
    return text.replace('<g id="n3-side"', '<g transform="rotate(-31 200 90) translate(5 400)" id="n3-side"')


def short_names(text: str) -> str:
    """Return a drawing whose lines have lost their ids and kept their short names."""
    return re.sub(r'<path id="[^"]*"', "<path", text)


@pytest.mark.parametrize(
    "rewrite",
    [in_inches, in_pixels, at_72_to_the_inch, in_a_layer, one_piece_moved, short_names],
    ids=lambda one: one.__name__,
)
def test_what_editors_rewrite_moves_nothing(rewrite) -> None:  # type: ignore[no-untyped-def]
    """Units, scale, layers, transforms and ids may change: no edge was moved by more than 0.05 mm."""
    assert moved(rewrite(svg_of(STAYS, WEARER)).encode()) == {}


INKSCAPE = shutil.which("inkscape")


@pytest.mark.skipif(INKSCAPE is None, reason="no vector editor is installed")
@pytest.mark.parametrize(
    "actions",
    [
        "",
        "select-all:groups;transform-translate:30,20;transform-rotate:7;",
        "select-all:groups;selection-ungroup;",
    ],
    ids=["saved", "turned", "ungrouped"],
)
def test_a_vector_editors_own_save_moves_nothing_and_keeps_what_was_moved(actions: str, tmp_path: Path) -> None:
    """Through the editor, plain, turned and ungrouped: untouched is untouched, and 5 mm are 5 mm."""
    seam = seam_moved(pattern_of(STAYS, WEARER).block, "side seam", 5.0)
    for name, data in (("plain", svg_of(STAYS, WEARER).encode()), ("moved", redrawn(STAYS, WEARER, seam))):
        (tmp_path / f"{name}.svg").write_bytes(data)
        out = tmp_path / f"{name}-saved.svg"
        steps = f"{actions}export-plain-svg;export-filename:{out};export-do"
        command = [str(INKSCAPE), f"--actions={steps}", str(tmp_path / f"{name}.svg")]
        subprocess.run(command, check=True, capture_output=True, timeout=300)
    assert moved((tmp_path / "plain-saved.svg").read_bytes()) == {}
    found = moved((tmp_path / "moved-saved.svg").read_bytes())
    assert found[("side", "side seam")] == pytest.approx(5.0, abs=0.1)
    assert {name for _, name in found} == {"side seam", "side seam below waist"}


def test_a_line_that_lost_its_name_is_told_with_the_name_to_give_it() -> None:
    """Nothing is guessed from a line's shape."""
    text = re.sub(r'id="n2-side-front-top-edge" data-name="top edge"', 'id="path12"', svg_of(STAYS, WEARER))
    assert [re.sub(r":\d+:\d+", "", line) for line in told(text.encode())] == [
        "my.svg: no line is called “top edge” of piece “2 side front” any more. Give that line the id "
        "“n2-side-front-top-edge”."
    ]


def test_a_line_cut_in_two_and_one_that_is_there_twice_are_told() -> None:
    """A line is one run with two ends, and there is one of it."""
    text = svg_of(STAYS, WEARER)
    line = re.search(r'<path id="n2-side-front-top-edge"[^>]*>', text)
    assert line is not None
    twice = text.replace(line[0], line[0] + line[0])
    assert [problem.split(": ", 1)[1] for problem in told(twice.encode())] == [
        f"2 lines are called “top edge” of piece “2 side front”; the first stands in line {text[: line.start()].count(chr(10)) + 1}. "
        "Join them to one line, or rename the others."
    ]
    cut = text.replace(line[0], re.sub(r' d="M', ' d="M 10 10 L 20 20 M', line[0]))
    assert told(cut.encode())[0].endswith("“top edge” of piece “2 side front” lies in 2 pieces. Join them to one line.")


def test_a_piece_turned_over_is_told() -> None:
    """A mirrored piece would be the other half of the body."""
    text = svg_of(STAYS, WEARER).replace('<g id="n3-side"', '<g transform="scale(-1 1)" id="n3-side"')
    assert told(text.encode())[0].endswith(
        "the piece “3 side” has been turned over. Turn it back: the wearer's left half is drawn."
    )


def test_a_piece_of_which_every_line_was_moved_is_told() -> None:
    """Where nothing has kept its place nobody can tell what was moved."""
    text = svg_of(STAYS, WEARER)
    numbers = np.random.default_rng(1).uniform(0.0, 60.0, size=(200, 2))

    def scattered(met: re.Match[str]) -> str:
        points = numbers[met.start() % 150 :][:4]
        return f'{met[1]}M {" L ".join(f"{x:.3f} {y:.3f}" for x, y in points)}"'

    text = re.sub(r'(<path id="n3-side-[^"]*"[^>]* d=")[^"]*"', scattered, text)
    assert "no two lines lie to each other as they were drafted" in told(text.encode())[0]


def test_a_cut_line_that_was_moved_is_told() -> None:
    """It follows from the stitch lines, so nothing comes of moving it."""
    text = svg_of(STAYS, WEARER)
    run = re.search(r'<path id="n3-side-cut-line"[^>]* d="M ([0-9.]+) ([0-9.]+)', text)
    assert run is not None
    pulled = text.replace(run[0], run[0].replace(f"M {run[1]}", f"M {float(run[1]) + 9.0}"), 1)
    found = edges(pulled.encode())
    assert [edge.name for edge in found.edges if edge.is_moved] == []
    assert found.notes == (
        "the cut line of the piece “3 side” was moved: it is made from the stitch lines when you draft, so move those",
    )


def test_a_scribble_is_told_and_soon() -> None:
    """A line as long as a street is refused before anything is held against it."""
    run = "M 0 0 " + " ".join(f"L {300 * (n % 2)} {n / 10}" for n in range(60))
    text = re.sub(r'(<path id="n2-side-front-top-edge"[^>]* d=")[^"]*"', rf'\1{run}"', svg_of(STAYS, WEARER))
    assert told(text.encode())[0].endswith("times as long as it was drafted. Draw it as one plain line.")


def test_a_drawing_that_would_do_more_than_be_one_is_refused() -> None:
    """A document type may lead anywhere."""
    text = svg_of(STAYS, WEARER)
    hostile = text.replace("<svg ", '<!DOCTYPE svg [<!ENTITY a "b"><!ENTITY c "&a;&a;">]>\n<svg ', 1)
    assert told(hostile.encode())[0].startswith("my.svg:2:1: the drawing is refused: it has a document type")


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"schema": "fanblock-pattern/1"}', '{"schema": "other"}', "[" * 100000]
)
def test_numbers_that_are_no_pattern_are_refused(text: str, tmp_path: Path) -> None:
    """What is no pattern.json of ours is told as that, whatever it is."""
    (tmp_path / "pattern.json").write_text(text, "utf-8")
    with pytest.raises(GeometryError, match="is no pattern that this version of fanblock wrote"):
        open_kept(str(tmp_path))


def test_points_that_are_no_numbers_are_refused(tmp_path: Path) -> None:
    """A pattern whose points were spoilt is not read."""
    text = (folder_of(STAYS, WEARER) / "pattern.json").read_text("utf-8")
    spoilt = re.sub(r'("points": ?\[\s*\[\s*)[-0-9.]+', r"\1NaN", text, count=1)
    assert spoilt != text
    (tmp_path / "pattern.json").write_text(spoilt, "utf-8")
    with pytest.raises(GeometryError, match="is no pattern"):
        open_kept(str(tmp_path))
