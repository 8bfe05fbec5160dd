"""Pieces on cloth: all of them, none over another, none off it, and as much cloth to buy as that takes."""

from __future__ import annotations

import math
from collections import Counter
from functools import cache

import numpy as np
import pytest
from shapely import Polygon, STRtree
from tests.samples import BODIES

from fanblock.cloth.laying import ASSUMED, Lay, lays_of, usable_mm
from fanblock.cloth.nesting import APART_MM, Laid, nested
from fanblock.cloth.shapes import layers_of, shapes_of
from fanblock.cloth.sheet import cloth_pages, lay_drawing
from fanblock.cloth.words import BOUND_KINDS, bare_mm, lay_sentences, shopping, taped_mm
from fanblock.garment.model import Cloth
from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.problems import ExportError
from fanblock.recipe.library import open_recipe
from fanblock.sheet.paper import A4
from fanblock.units import sold_length
from fanblock.wearer.library import open_wearer

NARROW = Cloth(900.0, 0.04, 0.02, nap=True)
FOLDED = Cloth(1400.0, folded=True)


@cache
def pattern(recipe: str = "stays-three-panels") -> Pattern:
    """Return a pattern whose cloth is to be laid."""
    return draft_pattern(open_wearer("ferrywoman"), open_recipe(recipe))


@cache
def lays(recipe: str = "stays-three-panels") -> tuple[Lay, ...]:
    """Return the layers of a pattern on cloth of three kinds."""
    return lays_of(pattern(recipe), {"outer": NARROW, "lining": FOLDED}, "cm")


def laid(lay: Lay) -> tuple[Laid, ...]:
    """Return all that lies on a cloth."""
    return (*lay.doubled, *lay.single)


def lay_of(layer: str) -> Lay:
    """Return one layer of the three panels."""
    return next(lay for lay in lays() if lay.layer == layer)


@pytest.mark.parametrize("layer", ["outer", "strength layer", "lining"])
def test_every_piece_lies_there_as_often_as_it_is_cut(layer: str) -> None:
    """Pairs lie as a left and a right; on cloth folded double one piece gives both."""
    lay = lay_of(layer)
    due = {panel.name: dict(panel.cuts)[layer] for panel in pattern().panels if layer in dict(panel.cuts)}
    seen = Counter(one.shape.name for one in lay.single)
    seen.update({name: 2 * count for name, count in Counter(one.shape.name for one in lay.doubled).items()})
    for panel in pattern().panels:
        if panel.fold:
            due[panel.name] = dict(panel.cuts)[layer]
    assert seen == due
    sides = Counter(one.shape.mirrored for one in lay.single if one.shape.paired)
    assert sides[True] == sides[False]


@pytest.mark.parametrize("layer", ["outer", "strength layer", "lining"])
def test_no_piece_lies_over_another_or_off_the_cloth(layer: str) -> None:
    """By another library: shears pass between any two, and selvedges and ends stay free."""
    lay = lay_of(layer)
    shapes = [Polygon(one.ring) for one in laid(lay)]
    assert all(shape.is_valid for shape in shapes)
    tree = STRtree(shapes)
    for number, shape in enumerate(shapes):
        near = [int(other) for other in tree.query(shape.buffer(APART_MM - 0.5)) if int(other) != number]
        assert all(shape.distance(shapes[other]) > APART_MM - 0.5 for other in near)
    rings = np.vstack([one.ring for one in laid(lay)])
    assert rings[:, 0].min() >= 20.0
    assert rings[:, 0].max() <= lay.length_mm - 20.0 + 1e-6
    assert rings[:, 1].min() >= 0.0
    assert rings[:, 1].max() <= usable_mm(
        Cloth(**{name: getattr(lay.cloth, name) for name in ("width_mm", "weft_shrinks", "selvedge_mm")})
    )


def test_what_is_laid_is_what_is_cut() -> None:
    """Each lies as it was drawn, turned end for end at most: same area, same size along and across."""
    for lay in lays():
        for one in laid(lay):
            assert Polygon(one.ring).area == pytest.approx(Polygon(one.shape.ring).area)
            assert np.ptp(one.ring, axis=0) == pytest.approx(np.ptp(one.shape.ring, axis=0))


def test_nap_keeps_all_pieces_the_same_way_up() -> None:
    """With a nap none is turned; without one some are, for they fit closer so."""
    assert not any(one.turned for one in lay_of("outer").single)
    assert any(one.turned for one in lay_of("strength layer").single)


def test_the_same_pieces_lie_the_same_every_time() -> None:
    """However long the library was given: its answers come in one order."""
    shapes = shapes_of(pattern(), "strength layer")
    first, again = (nested(shapes, 1380.0, nap=False) for _ in range(2))
    assert all(np.array_equal(one.ring, other.ring) for one, other in zip(first, again, strict=True))


def test_it_is_never_longer_than_in_rows() -> None:
    """Pieces in rows, each in its own oblong, are what somebody would lay without thinking."""
    assert all(lay.length_mm <= lay.rows_mm + 1e-6 for lay in lays())


def test_cloth_is_washed_before_it_is_cut() -> None:
    """By hand: 90 cm that lose 2 % are 88.2 cm wide; what loses 4 % in length is bought that much longer, to 10 cm."""
    lay = lay_of("outer")
    assert lay.width_mm == pytest.approx(882.0)
    assert usable_mm(lay.cloth) == pytest.approx(862.0)
    assert lay.buy_mm == pytest.approx(100.0 * math.ceil(lay.length_mm / 0.96 / 100.0))


def test_cloth_that_nobody_told_of_is_assumed_and_said() -> None:
    """The strength layer was not named."""
    lay = lay_of("strength layer")
    assert (lay.cloth, lay.assumed) == (ASSUMED["cm"], True)
    assert lay_sentences(lay, "cm")[0].endswith("This width is assumed: tell yours in a garment file.")


def test_what_is_wider_than_its_cloth_is_told() -> None:
    """Every piece that has no room is told, with its width and the room there is; and a layer there is not."""
    with pytest.raises(ExportError) as caught:
        lays_of(pattern(), {"outer": Cloth(160.0), "sail": Cloth(900.0)}, "cm")
    said = str(caught.value).splitlines()
    assert len(said) > 1
    assert all("and the cloth has room for 13.2 cm. Take wider cloth, or do not fold it." in one for one in said[:-1])
    assert said[-1].startswith("cloth › sail › no piece is cut of “sail”. Layers here: ")


def test_a_fold_is_opened_out() -> None:
    """A piece cut on the fold lies whole: twice the area of what is printed, for its fold has no allowance."""
    folded = draft_pattern(BODIES["ordinary"], open_recipe("doublet-bodice-1570s"))
    panel = folded.by_name["back"]
    assert panel.cut_line is not None
    shape = next(shape for shape in shapes_of(folded, "outer") if shape.name == "back")
    assert shape.opened
    assert Polygon(shape.ring).area == pytest.approx(2.0 * Polygon(panel.cut_line.points).area, rel=1e-3)


@pytest.mark.parametrize(
    ("mm", "units", "words"),
    [(914.4, "in", "1 yd"), (914.4 * 1.625, "in", "1 5/8 yd"), (457.2, "in", "1/2 yd"), (1300.0, "cm", "1.3 m")],
)
def test_cloth_is_sold_by_eighths_of_a_yard_or_by_the_metre(mm: float, units: str, words: str) -> None:
    """36 inches are a yard (a definition), 914.4 mm."""
    assert sold_length(mm, units) == words


def test_the_list_names_every_cloth_bone_lace_and_binding() -> None:
    """What stands on it is what the pattern is made of."""
    stays = pattern("stays-five-panels")
    things = [what for what, _ in shopping(stays, lays_of(stays, {"outer": NARROW}, "in"))]
    assert [f"cloth: {layer}" for layer in layers_of(stays)] == things[: len(layers_of(stays))]
    assert {"lace", "thread"} <= set(things)
    assert any(thing.startswith("bone a, ") for thing in things)
    assert any(thing.startswith("binding: ") for thing in things)


def test_binding_is_bought_once_and_cloth_is_told_by_kind() -> None:
    """One length of binding; of each cloth an example (common practice, no source)."""
    stays = pattern("stays-five-panels")
    things = shopping(stays, lays_of(stays, {"outer": NARROW}, "in"))
    assert [what for what, _ in things if what.startswith("binding")] == ["binding: all"]
    assert "; for example a firm linen canvas" in dict(things)["cloth: strength layer"]


def test_seam_tape_covers_the_centre_front_and_its_own_turned_ends() -> None:
    """Each whipped seam of both halves and the one at the centre front, and a centimetre at each end of every tape."""
    stays = pattern("stays-five-panels")
    seams = [stays.by_name[seam.front.panel].edge(seam.front.edge).curve.length_mm for seam in stays.seams]
    front = stays.by_name["center front"].edge("center front").curve.length_mm
    assert taped_mm(stays) == pytest.approx(2.0 * sum(seams) + front + (2 * len(seams) + 1) * 20.0)


def test_every_word_and_line_stands_on_the_page() -> None:
    """Pages of all cloths: nothing is drawn outside the paper."""
    for page in cloth_pages(pattern(), lays(), A4):
        for group in page.groups:
            for item in group.items:
                if hasattr(item, "beziers"):
                    low, high = item.beziers.reshape(-1, 2).min(axis=0), item.beziers.reshape(-1, 2).max(axis=0)
                    assert low.min() > 0.0
                    assert (high < (A4.width_mm, A4.height_mm)).all()


def test_a_drawing_keeps_to_its_room() -> None:
    """Wide cloth and narrow, it is no wider and no higher than it may be."""
    for lay in lays():
        drawing = lay_drawing(lay, 180.0, 150.0, "cm")
        assert drawing.width_mm <= 180.0
        assert drawing.height_mm <= 150.0 + 1e-6


def test_what_is_bound_and_pinned_is_bought_too() -> None:
    """The stomacher of an open gown has no allowance all round, so it is bound; the front is pinned. Stays have a list of
    their own for both."""
    gown = pattern("gown-bodice-open-front")
    things = dict(shopping(gown, ()))
    stomacher = [edge.curve.length_mm for edge in gown.by_name["stomacher"].edges if edge.kind in BOUND_KINDS]
    assert bare_mm(gown) >= sum(stomacher) > 300.0
    assert {"pins", "tape to bind what has no allowance"} <= set(things)
    assert not {"lacing", "tape to bind what has no allowance"} & set(dict(shopping(pattern(), ())))
