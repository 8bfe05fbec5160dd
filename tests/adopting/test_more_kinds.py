"""Marks, darts, level seams and pieces of their own, moved on a drawing: they come back as the options that draw them so."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from tests.adopting.editing import GOWN, folder_of, keep, like, pattern_of, svg_of, with_line
from tests.adopting.test_adopt import read_back, recipe_of

from fanblock import draft_pattern, open_recipe, open_wearer
from fanblock.adopting.adopt import Adopted, adopted
from fanblock.adopting.finding import origin_of
from fanblock.adopting.kept import open_kept
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import Edge, Pattern
from fanblock.recipe.bases import Base, shipped_base
from fanblock.recipe.reading import read_source
from fanblock.sheet.svg import write_svg
from fanblock.sheet.views import Views

INKSCAPE = shutil.which("inkscape")
WEARER, OTHER = "ferrywoman", "pilot"
DARTED, FRONT_LACING = "gown-bodice-1760s-darted", "stays-front-lacing"
LABELS = 'xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" '


def varied(recipe: str, changes: str) -> Pattern:
    """Return the pattern of a recipe with changes, as a maker might have drawn it by hand."""
    text = f"recipe: 1\nname: Varied\nbased on: {recipe}\n{changes}\n"
    return draft_pattern(open_wearer(WEARER), read_source(Base(text, "v.yaml", "", shipped_base), "v"))


def drawn_lines() -> str:
    """Return a gown's drawing with a bent, a straight and a cornered line of the maker's own on its front."""
    block, text = pattern_of(GOWN, WEARER).block, svg_of(GOWN, WEARER).replace("<svg ", f"<svg {LABELS}", 1)
    u = np.linspace(0.12, 0.22, 40)
    lace = block.at(u, 0.3 + 0.3 * np.sin((u - 0.12) * 20.0))
    slit = block.at(np.array([0.2, 0.3]), np.array([0.1, 0.5]))
    patch = block.at(np.array([0.2, 0.3, 0.3, 0.2]), np.array([0.6, 0.6, 0.8, 0.8]))
    for points, attributes in (
        (lace, 'id="path991" inkscape:label="lace"'),
        (slit, 'id="pocket-slit"'),
        (patch, 'id="patch"'),
    ):
        text = with_line(text, GOWN, WEARER, "front", points, attributes)
    return text


def test_a_line_of_ones_own_becomes_a_mark_of_any_body() -> None:
    """Redrafted, it lies within 0.3 mm of where it was drawn, and on another body at the same around and height."""
    found = read_back(GOWN, WEARER, drawn_lines().encode())
    assert [(row.line, row.at) for row in found.rows] == [
        (name, "on front") for name in ("patch", "pocket slit", "lace")
    ]
    assert max(row.left_mm for row in found.rows) < 0.3
    assert found.notes == ()
    mine = recipe_of(found.text)
    for wearer in (WEARER, OTHER):
        pattern = draft_pattern(open_wearer(wearer), mine)
        assert pattern.sound
        slit = next(mark for mark in pattern.by_name["front"].marks if mark.name == "pocket slit")
        assert (slit.kind, slit.says) == ("place", "pocket slit")
        around, height = pattern.block.where(slit.curve.points[[0, -1]])
        assert around == pytest.approx([0.2, 0.3], abs=2e-4)
        assert height == pytest.approx([0.1, 0.5], abs=2e-3)


@pytest.mark.skipif(INKSCAPE is None, reason="no vector editor is installed")
def test_a_vector_editor_keeps_the_names_of_marks_in_its_own_files(tmp_path: Path) -> None:
    """Opened and saved by the editor, the three lines are the same marks."""
    (tmp_path / "drawn.svg").write_text(drawn_lines(), "utf-8")
    out = tmp_path / "saved.svg"
    command = [str(INKSCAPE), f"--actions=export-filename:{out};export-do", str(tmp_path / "drawn.svg")]
    subprocess.run(command, check=True, capture_output=True, timeout=300)
    one, other = (read_back(GOWN, WEARER, data) for data in (drawn_lines().encode(), out.read_bytes()))
    assert [(row.line, row.at, row.moved) for row in other.rows] == [(row.line, row.at, row.moved) for row in one.rows]
    assert other.notes == ()


def test_a_mark_of_the_recipe_is_moved_again(tmp_path: Path) -> None:
    """Drafted from the recipe that was adopted and moved 6 mm to the back, it is told so and nothing else."""
    mine = read_back(GOWN, WEARER, drawn_lines().encode()).text
    (tmp_path / "mine.yaml").write_text(mine, "utf-8")
    pattern = draft_pattern(open_wearer(WEARER), open_recipe(str(tmp_path / "mine.yaml")))
    keep(pattern, tmp_path / "draft")
    front = pattern.by_name["front"]
    marks = tuple(
        replace(mark, curve=mark.curve.moved(np.eye(2), np.array([6.0, 0.0]))) if mark.name == "patch" else mark
        for mark in front.marks
    )
    drawn = replace(pattern, panels=tuple(replace(one, marks=marks) if one is front else one for one in pattern.panels))
    svg = write_svg(Views(drawn).flat).encode()
    kept = open_kept(str(tmp_path / "draft"))
    origin = origin_of("mine", None, str(tmp_path / "draft"), str(tmp_path / "new.yaml"))
    found = adopted(svg, "x.svg", kept, origin)
    assert [(row.line, row.moved) for row in found.rows] == [("patch", "6.0 mm")]
    assert found.rows[0].left_mm < 0.1
    assert "  - in: mark 1\n    set:\n      through:\n" in found.text


@pytest.mark.parametrize(
    ("attributes", "says"),
    [
        ('id="path12"', "a line without a name (path12, line {line} of the file) on piece “1 front” is not adopted. If it "
         "shall be a mark of the recipe, give it a name in the editor's list of objects, such as “pocket”, and save the drawing "
         "in the editor's own kind of SVG: a plain one may lose that name"),
        ('id="path12" data-name="waist"', "the line “waist” (line {line} of the file) on piece “1 front” is not adopted: a line "
         "of the pattern has that name. Give it a name of its own if it shall be a mark of the recipe, or delete it"),
        ('id="_7"', "the line “7” (line {line} of the file) on piece “1 front” is not adopted: its name must begin with a "
         "letter. Name it otherwise"),
    ],
    ids=["nameless", "a copy", "a number"],
)  # fmt: skip
def test_a_line_that_cannot_be_a_mark_is_told_by_its_place(attributes: str, says: str) -> None:
    """With what to do; nothing is written."""
    points = pattern_of(GOWN, WEARER).block.at(np.array([0.2, 0.3]), np.array([0.2, 0.5]))
    text = with_line(svg_of(GOWN, WEARER), GOWN, WEARER, "front", points, attributes)
    line = text[: text.index(attributes)].count("\n") + 1
    found = read_back(GOWN, WEARER, text.encode())
    assert (found.text, found.notes) == ("", (says.format(line=line),))


@pytest.mark.parametrize(
    ("recipe", "piece", "changes", "tells"),
    [
        (GOWN, "strap", "changes: [{in: strap, set: {length: 26% of back length}}]", ["7.7 mm more"]),
        (GOWN, "sleeve", "changes: [{in: sleeve, set: {length: long}}]", ["206.3 mm more"]),
        (GOWN, "sleeve", "changes: [{in: sleeve, set: {hem ease: 45 mm}}]", ["20.0 mm more"]),
        (FRONT_LACING, "stomacher", "dials: {stomacher depth: {default: 85 mm}}", ["25.0 mm more"]),
    ],
    ids=["strap", "sleeve length", "sleeve hem", "stomacher"],
)
def test_a_piece_redrawn_comes_back_as_the_lengths_of_its_step(
    recipe: str, piece: str, changes: str, tells: list[str]
) -> None:
    """Drawn as another setting has it, and drafted for another body, the new recipe's piece is that of the setting."""
    there = varied(recipe, changes)
    found = read_back(recipe, WEARER, like(recipe, WEARER, there, (piece,)))
    assert ([row.moved for row in found.rows], found.notes) == (tells, ())
    assert found.rows[0].left_mm < 0.5
    new = draft_pattern(open_wearer(WEARER), recipe_of(found.text))
    lengths = [[edge.curve.length_mm for edge in pattern.by_name[piece].edges] for pattern in (there, new)]
    assert lengths[1] == pytest.approx(lengths[0], abs=0.5)
    other = draft_pattern(open_wearer(OTHER), recipe_of(found.text))
    text = f"recipe: 1\nname: Varied\nbased on: {recipe}\n{changes}\n"
    asked = draft_pattern(open_wearer(OTHER), read_source(Base(text, "v.yaml", "", shipped_base), "v"))
    sizes = [np.ptp(pattern.by_name[piece].loop(), axis=0) for pattern in (asked, other)]
    assert sizes[1] == pytest.approx(sizes[0], abs=1.5)


def test_a_piece_that_no_lengths_give_is_told() -> None:
    """A strap with a side scooped out is no strap of any length."""
    pattern = pattern_of(GOWN, WEARER)
    strap = pattern.by_name["strap"]

    def scooped(edge: Edge) -> Edge:
        if edge.kind != "neckline":
            return edge
        at = np.linspace(0.0, np.pi, len(edge.curve.points))
        fine = Curve.through(np.array([edge.curve.at(x) for x in np.linspace(0.0, edge.curve.length_mm, 60)]))
        at = np.linspace(0.0, np.pi, len(fine.points))
        return replace(edge, curve=Curve.through(fine.points + np.column_stack((6.0 * np.sin(at), 0.0 * at))))

    edges = tuple(scooped(edge) for edge in strap.edges)
    drawn = replace(pattern, panels=tuple(replace(one, edges=edges) if one is strap else one for one in pattern.panels))
    found = read_back(GOWN, WEARER, write_svg(Views(drawn).flat).encode())
    assert (found.rows, found.text) == ((), "")
    (note,) = found.notes
    assert note.endswith(
        "of the piece “4 strap” was moved, by up to 6.0 mm. That piece is not cut from the block, and no lengths of the step "
        "that makes it give that outline, so it is not adopted. Change the step in the recipe"
    )


def test_a_dart_moved_comes_back_as_its_places() -> None:
    """Mouth at 35 % and point at 31 % and 68 %, as drawn; on another body at the same places."""
    there = varied(DARTED, "changes: [{in: dart, set: {through: [[35%, hem], [31%, 68%]]}}]")
    found = read_back(DARTED, WEARER, like(DARTED, WEARER, there, ("front",), ("front dart",)))
    assert [row.at for row in found.rows] == ["at its mouth", "at its point"]
    assert max(row.left_mm for row in found.rows) < 0.3
    assert found.notes == ()
    assert "  - in: dart\n    set:\n      through:\n        - [35%, hem]\n        - [31%, 68%]\n" in found.text


def test_a_dart_drawn_wider_takes_more_and_the_garment_is_as_much_smaller() -> None:
    """Its legs 5 mm further apart: the dart takes 5 mm more, the seams what they did."""
    there = varied(DARTED, "dials: {front dart: {default: 19 mm}}")
    found = read_back(DARTED, WEARER, like(DARTED, WEARER, there, ("front",), ("front dart",)))
    assert [row.moved for row in found.rows] == ["takes 5.0 mm more"]
    new = draft_pattern(open_wearer(WEARER), recipe_of(found.text))
    takes = [dict(pattern.girths[0].takes) for pattern in (pattern_of(DARTED, WEARER), new)]
    more = {name: takes[1][name] - takes[0][name] for name in takes[0]}
    assert more.pop("front dart") == pytest.approx(5.0, abs=0.1)
    assert list(more.values()) == pytest.approx([0.0] * len(more), abs=0.1)


def test_legs_that_do_not_meet_and_a_peak_moved_alone_are_told() -> None:
    """A dart ends in a point; its peak is made from its legs."""
    pattern = pattern_of(DARTED, WEARER)
    front = pattern.by_name["front"]

    def drawn(marks: float, peak: float) -> bytes:
        shifts = iter((np.zeros(2), np.array([marks, 0.0])))
        moved = tuple(
            replace(one, curve=one.curve.moved(np.eye(2), next(shifts))) if one.kind == "dart" else one
            for one in front.marks
        )
        edges = tuple(
            replace(edge, curve=edge.curve.moved(np.eye(2), np.array([0.0, peak])))
            if " at front dart" in edge.name
            else edge
            for edge in front.edges
        )
        panel = replace(front, marks=moved, edges=edges)
        panels = tuple(panel if one is front else one for one in pattern.panels)
        return write_svg(Views(replace(pattern, panels=panels)).flat).encode()

    found = read_back(DARTED, WEARER, drawn(8.0, 0.0))
    assert found.notes == (
        "the dart front dart is not adopted: its two legs no longer meet: at its point they are 8.0 mm apart. Let its legs end "
        "on one point",
    )
    told = read_back(DARTED, WEARER, drawn(0.0, -4.0)).notes
    assert told
    assert all("it is made from the legs of the dart, so it is not adopted. Move those" in note for note in told)


WAISTED = """recipe: 1
name: Waisted
makes: bodice
steps:
  - top edge:
      through:
        - [center front, bust + 25 mm]
        - [20%, bust + 25 mm]
        - [38%, underarm - 25 mm]
        - [58%, underarm - 25 mm]
        - [center back, bust + 60 mm]
  - hem: {height: waist - 60 mm}
  - seam: {name: side seam, through: [[50%, top edge], [50%, waist], [50%, hem]], share: 1, below waist: sewn}
  - level seam: {name: waist seam, height: waist + 10 mm}
  - separate: {panels: [front, front skirt, back, back skirt]}
"""


def level_moved(folder: Path, up: Points | float, only: str = "") -> Adopted:
    """Return what is read from a bodice with a waist seam that was raised, by around, on all pieces or on one."""
    (folder / "waisted.yaml").write_text(WAISTED, "utf-8")
    pattern = draft_pattern(open_wearer(WEARER), open_recipe(str(folder / "waisted.yaml")))
    keep(pattern, folder / "draft")

    def edge_of(panel: str, edge: Edge) -> Edge:
        if not edge.across or only not in ("", panel):
            return edge
        around, height = pattern.block.where(edge.curve.points)
        by = np.interp(around, np.linspace(0.0, 1.0, 200), np.broadcast_to(up, 200)) / pattern.block.ruling_length_mm(
            around
        )
        return replace(edge, curve=Curve.through(pattern.block.at(around, height + by)))

    panels = tuple(replace(one, edges=tuple(edge_of(one.name, e) for e in one.edges)) for one in pattern.panels)
    svg = write_svg(Views(replace(pattern, panels=panels)).flat).encode()
    origin = origin_of("waisted", None, str(folder / "draft"), str(folder / "new.yaml"))
    return adopted(svg, "x.svg", open_kept(str(folder / "draft")), origin)


def test_a_level_seam_raised_evenly_keeps_one_height(tmp_path: Path) -> None:
    """5 mm up all along is waist + 15 mm."""
    found = level_moved(tmp_path, 5.0)
    assert [(row.line, row.moved) for row in found.rows] == [("waist seam", "5.0 mm up")]
    assert found.text.endswith("  - in: waist seam\n    set:\n      height: waist + 15 mm\n")


def test_a_level_seam_bent_is_told_through_points(tmp_path: Path) -> None:
    """8 mm up at the centre front, running out: drawn where it was drawn within a pencil line."""
    found = level_moved(tmp_path, 8.0 * np.exp(-((np.linspace(0.0, 1.0, 200) / 0.25) ** 2)))
    (row,) = found.rows
    assert row.mm == pytest.approx(8.0, abs=0.1)
    assert row.left_mm < 0.5
    assert "    - [center front, waist + 18 mm]\n" in found.text.replace("          ", "    ")


def test_one_edge_of_a_level_seam_moved_alone_is_told(tmp_path: Path) -> None:
    """It takes nothing."""
    found = level_moved(tmp_path, 5.0, "back")
    assert (found.rows, found.text) == ((), "")
    assert found.notes == (
        "the two edges of waist seam were moved apart, by 5.0 mm: a level seam takes nothing, so it is not adopted. Move both "
        "alike, on the pieces above it and below it",
    )


def test_the_folder_of_a_draft_is_left_as_it_was() -> None:
    """Reading a drawing back writes nothing."""
    folder = folder_of(GOWN, WEARER)
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    read_back(GOWN, WEARER, drawn_lines().encode())
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before
