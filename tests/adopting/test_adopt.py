"""A drawing read back: what was moved comes back as it was moved, good for any body, and nothing else does."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import settings as given_settings
from hypothesis import strategies as st
from tests.adopting.editing import (
    GOWN,
    KIRTLE,
    STAYS,
    bump,
    edge_moved,
    folder_of,
    keep,
    pattern_of,
    redrawn,
    seam_moved,
    svg_of,
)

from fanblock import draft_pattern, open_recipe, open_wearer
from fanblock.adopting.adopt import Adopted, adopted
from fanblock.adopting.finding import origin_of
from fanblock.adopting.kept import open_kept
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.meet import foot
from fanblock.pattern.model import Pattern
from fanblock.recipe.bases import Base, shipped_base
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_source

WEARERS = ("ferrywoman", "innkeeper", "pilot")


def read_back(recipe: str, wearer: str, data: bytes) -> Adopted:
    """Return what is read from a drawing of a draft."""
    folder = str(folder_of(recipe, wearer))
    return adopted(data, "my.svg", open_kept(folder), origin_of(recipe, None, folder, None))


def recipe_of(text: str) -> Recipe:
    """Return a recipe from its text."""
    return read_source(Base(text, "new.yaml", "", shipped_base), "new")


def around_at(pattern: Pattern, seam: str, height: float) -> float:
    """Return the around at which a seam's line passes a height."""
    around, heights = pattern.block.where(pattern.lines[seam].points)
    return float(np.interp(height, heights, around))


def farthest(points: Points, curve: Curve) -> float:
    """Return how far the middle three fifths of a line stand off a curve at most: at its ends truing is at work."""
    run = Curve.through(points)
    inner = run.between(0.2 * run.length_mm, 0.8 * run.length_mm).points
    return max(foot(curve.points, point)[0] for point in inner)


@pytest.mark.parametrize(("recipe", "wearer"), [(STAYS, "pilot"), (GOWN, "ferrywoman"), (KIRTLE, "innkeeper")])
def test_a_drawing_that_was_not_touched_has_nothing_moved(recipe: str, wearer: str) -> None:
    """Nothing is told and no recipe is made of a drawing as it was written."""
    found = read_back(recipe, wearer, svg_of(recipe, wearer).encode())
    assert (found.rows, found.notes, found.text) == ((), (), "")


@pytest.mark.parametrize(
    ("recipe", "seam", "wearer"),
    [
        (STAYS, "side seam", "ferrywoman"),
        (STAYS, "side front", "pilot"),
        (GOWN, "side seam", "innkeeper"),
        (KIRTLE, "side back", "pilot"),
    ],
)
def test_a_seam_moved_five_millimetres_comes_back_as_five(recipe: str, seam: str, wearer: str) -> None:
    """Moved 5 mm at the waist it is redrafted 5 ± 0.1 mm from where it was, and on another body by the same share."""
    old = pattern_of(recipe, wearer)
    found = read_back(recipe, wearer, redrawn(recipe, wearer, seam_moved(old.block, seam, 5.0)))
    told = next(row for row in found.rows if row.at == "at the waist")
    assert (told.line, told.moved) == (seam, "5.0 mm to the back")
    assert told.mm == pytest.approx(5.0, abs=0.1)
    mine = recipe_of(found.text)
    new = draft_pattern(open_wearer(wearer), mine)
    at_waist = np.array([around_at(pattern, seam, 0.0) for pattern in (old, new)])
    assert old.block.level_part_mm(0.0, *at_waist) == pytest.approx(5.0, abs=0.1)
    other = "apprentice"
    before, after = (draft_pattern(open_wearer(other), one) for one in (open_recipe(recipe), mine))
    share = around_at(after, seam, 0.0) - around_at(before, seam, 0.0)
    assert share == pytest.approx(float(np.ptp(at_waist)), abs=0.0006)


@given(
    mm=st.floats(-8.0, 8.0).filter(lambda mm: abs(mm) > 1.0),
    at=st.floats(0.0, 0.7),
    seam=st.sampled_from(["front seam", "side front", "side seam", "side back"]),
    wearer=st.sampled_from(WEARERS),
)
@given_settings(max_examples=3)
def test_any_seam_moved_anywhere_is_redrafted_where_it_was_drawn(mm: float, at: float, seam: str, wearer: str) -> None:
    """The pieces of the new recipe have their seam edges where they were drawn, to 1 mm, for seams moved at any height."""
    old = pattern_of(STAYS, wearer)
    move = seam_moved(old.block, seam, mm, at)
    found = read_back(STAYS, wearer, redrawn(STAYS, wearer, move))
    new = draft_pattern(open_wearer(wearer), recipe_of(found.text))
    for was, now in zip(old.panels, new.panels, strict=True):
        for edge in was.edges:
            moved = move(was.name, edge.name, *old.block.where(edge.curve.points))
            if moved is not None and edge.kind == "seam":
                assert farthest(old.block.at(*moved), now.edge(edge.name).curve) < 1.0


MOVES = [
    (STAYS, "innkeeper", ("top edge",), bump(0.0, 0.15, -10.0)),
    (STAYS, "ferrywoman", ("hem",), bump(0.5, 2.0, -10.0)),
    (GOWN, "ferrywoman", ("front neckline",), bump(0.0, 0.07, -15.0)),
    (GOWN, "innkeeper", ("waist",), bump(0.0, 0.2, -12.0)),
    (GOWN, "pilot", ("armhole",), bump(0.47, 0.06, -8.0)),
    (KIRTLE, "innkeeper", ("waist",), bump(0.5, 2.0, 8.0)),
]


@pytest.mark.parametrize(("recipe", "wearer", "names", "up"), MOVES)
def test_an_edge_is_redrafted_where_it_was_drawn(
    recipe: str, wearer: str, names: tuple[str, ...], up: Callable[[Points], Points]
) -> None:
    """The edges of the new recipe's pieces lie where they were drawn, to half a millimetre clear of their ends."""
    old = pattern_of(recipe, wearer)
    move = edge_moved(old.block, names, up)
    found = read_back(recipe, wearer, redrawn(recipe, wearer, move))
    assert [row.line for row in found.rows] == list(names)
    assert max(row.left_mm for row in found.rows) < 0.8
    new = draft_pattern(open_wearer(wearer), recipe_of(found.text))
    for was, now in zip(old.panels, new.panels, strict=True):
        for edge in was.edges:
            moved = None if was.added else move(was.name, edge.name, *old.block.where(edge.curve.points))
            if moved is not None:
                assert farthest(old.block.at(*moved), now.edge(edge.name).curve) < 0.8


def test_a_recipe_from_a_drawing_read_against_the_old_draft_tells_the_same(tmp_path: Path) -> None:
    """Drafted and held against the old draft's numbers, the new recipe shows the same lines moved by the same amounts."""
    move = edge_moved(pattern_of(STAYS, "ferrywoman").block, ("top edge",), bump(0.0, 0.2, -10.0))
    first = read_back(STAYS, "ferrywoman", redrawn(STAYS, "ferrywoman", move))
    keep(draft_pattern(open_wearer("ferrywoman"), recipe_of(first.text)), tmp_path)
    second = read_back(STAYS, "ferrywoman", (tmp_path / "pattern.svg").read_bytes())
    assert [row.mm for row in second.rows if row.line == "top edge"] == pytest.approx(
        [row.mm for row in first.rows], abs=0.2
    )


def test_the_words_of_what_was_not_moved_are_kept() -> None:
    """Points that were not moved keep their landmarks and dials; a dial that nothing uses any more is dropped."""
    move = edge_moved(pattern_of(STAYS, "ferrywoman").block, ("top edge",), bump(0.0, 0.1, -10.0))
    text = read_back(STAYS, "ferrywoman", redrawn(STAYS, "ferrywoman", move)).text
    for kept in ("[45%, underarm - arm room]", "[67%, underarm + 8 mm]", "[center back, waist + back height]"):
        assert f"        - {kept}\n" in text
    assert "[center front, held bust + 20 mm]" in text
    assert "dials:\n  front height: drop\n" in text


def test_one_side_of_a_seam_moved_takes_that_much_more() -> None:
    """A seam of which one side moves 4 mm takes 4 mm more, its middle moves 2 mm, and the other seams take what they did."""
    old = pattern_of(STAYS, "ferrywoman")
    move = seam_moved(old.block, "side seam", 4.0, only="side back")
    found = read_back(STAYS, "ferrywoman", redrawn(STAYS, "ferrywoman", move))
    assert [row.moved for row in found.rows if row.at == "at the waist"] == ["takes 4.0 mm more", "2.0 mm to the back"]
    new = draft_pattern(open_wearer("ferrywoman"), recipe_of(found.text))
    takes = [dict(next(girth for girth in pattern.girths if girth.name == "waist").takes) for pattern in (old, new)]
    more = {seam: takes[1][seam] - takes[0][seam] for seam in takes[0]}
    assert more == pytest.approx({"front seam": 0.0, "side front": 0.0, "side seam": 4.0, "side back": 0.0}, abs=0.1)


def test_dials_stay_as_they_were_set_for_the_draft(tmp_path: Path) -> None:
    """A draft with a dial turned is read back as it lay: the new recipe has that for its default."""
    pattern = draft_pattern(open_wearer("ferrywoman"), open_recipe(STAYS), {"gap": "4 cm"})
    keep(pattern, tmp_path)
    text = (tmp_path / "pattern.svg").read_text("utf-8")
    kept = open_kept(str(tmp_path))
    assert adopted(text.encode(), "x.svg", kept, origin_of(STAYS, None, str(tmp_path), None)).text == ""
    assert kept.dials["gap"] == 40.0


def test_what_is_no_outline_and_no_seam_is_told_and_left() -> None:
    """A centre line that was moved, a line of one's own and a piece not cut from the block are told by name."""
    old = pattern_of(GOWN, "ferrywoman")

    def move(panel: str, edge: str, around: Points, height: Points) -> tuple[Points, Points] | None:
        if edge != "front edge":
            return None
        return np.asarray(old.block.along(around, height, np.full_like(height, 3.0))), height

    text = redrawn(GOWN, "ferrywoman", move).decode()
    text = text.replace("</svg>", '<path id="my-pocket" d="M 850 10 L 840 60"/></svg>')
    found = read_back(GOWN, "ferrywoman", text.encode())
    assert (found.rows, found.text) == ((), "")
    assert len(found.notes) == 2
    assert found.notes[0] == (
        "front edge of front was moved by 3.0 mm: it is neither an outline edge nor a seam, so it is not adopted. "
        "Change it in the recipe"
    )
    assert found.notes[1].startswith("the line “my pocket” (line ")
    assert found.notes[1].endswith("it lies on no piece that is cut from the block. Draw it on one, within its lines")
