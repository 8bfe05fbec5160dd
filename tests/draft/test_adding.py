"""Pieces of their own: numbered after the panels, joined to them, their edges split to fit."""

from __future__ import annotations

import numpy as np
import pytest
from shapely import Polygon
from tests.samples import GAP, HEM, RED, THREE, TOP, recipe, side_back, side_front, worked

from fanblock.draft.adding import panel_of, with_piece, with_seam_between, with_split_edge
from fanblock.draft.work import Work
from fanblock.finish.finish import finished
from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.model import HEM as HEM_KIND
from fanblock.pattern.model import SEAM, Edge, EdgeName, Note, Panel, Title
from fanblock.pattern.model import TOP as TOP_KIND
from fanblock.problems import GeometryError

STEPS = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE)
TITLE = Title("trial", "sample", "trial", "stays", "", 1, "ACDE")


def work() -> Work:
    """Return three panels of ordinary stays."""
    return worked(recipe(*STEPS))


def strip(name: str, long_mm: float, wide_mm: float) -> Panel:
    """Return an oblong piece, its top as long as was said."""
    corners = [(0.0, 0.0), (long_mm, 0.0), (long_mm, wide_mm), (0.0, wide_mm), (0.0, 0.0)]
    names = (("foot", HEM_KIND), ("end", SEAM), ("head", TOP_KIND), ("start", SEAM))
    edges = tuple(
        Edge(edge, kind, Curve(frozen(corners[number : number + 2]))) for number, (edge, kind) in enumerate(names)
    )
    return Panel(name, 0, edges, grain=(frozen((9.0, 1.0)), frozen((9.0, wide_mm - 1.0))))


def test_a_piece_is_numbered_after_the_panels() -> None:
    """It comes last, is marked as added, and brings its words for the order of sewing."""
    done = with_piece(work(), strip("strap", 200.0, 40.0), [Note("sewing", "Sew on the strap.")])
    strap = panel_of(done, "strap")
    assert (strap.number, strap.added) == (4, True)
    assert [note.says for note in done.notes] == ["Sew on the strap."]


def test_a_piece_is_cut_by_itself() -> None:
    """A pair of outer cloth where nothing is said, one where it is whole, and its own counts where they are given."""
    done = with_piece(work(), strip("strap", 200.0, 40.0))
    pattern = finished(done, TITLE)
    assert pattern.by_name["strap"].cuts == (("outer", 2),)
    assert pattern.by_name["back"].cuts == done.layers


def test_a_name_is_given_once() -> None:
    """A piece may not be called what a panel is called."""
    with pytest.raises(GeometryError) as caught:
        with_piece(work(), strip("back", 200.0, 40.0))
    assert str(caught.value) == "name › there is a panel “back” already. Give every piece a name of its own."


def test_an_edge_is_split_where_it_was_asked() -> None:
    """The two parts are as long as they should be, lie on the whole, and the panel stays what it was."""
    before = panel_of(work(), "front")
    top = next(edge for edge in before.edges if edge.kind == TOP_KIND)
    done = with_split_edge(work(), ("front", top.name), 60.0, ("neck", "bosom"))
    after = panel_of(done, "front")
    neck, bosom = after.edge("neck"), after.edge("bosom")
    assert neck.curve.length_mm == pytest.approx(60.0, abs=1e-9)
    assert neck.curve.length_mm + bosom.curve.length_mm == pytest.approx(top.curve.length_mm, abs=1e-9)
    assert np.allclose(neck.curve.end, bosom.curve.start)
    assert Polygon(after.loop()).symmetric_difference(Polygon(before.loop())).area < 1e-6


def test_sums_stay_when_an_edge_is_split() -> None:
    """The trace on the block is split too, so what the panels add up to does not change."""
    done = with_split_edge(work(), ("front", "top edge"), 60.0, ("neck", "bosom"))
    before, after = finished(work(), TITLE).girths, finished(done, TITLE).girths
    assert [girth.parts_mm for girth in after] == pytest.approx([girth.parts_mm for girth in before], abs=1e-6)
    assert [girth.open_mm for girth in after] == pytest.approx([girth.open_mm for girth in before], abs=1e-6)


@pytest.mark.parametrize("at_mm", [-3.0, 0.0, 0.5, 1e6])
def test_nothing_is_split_off_an_end(at_mm: float) -> None:
    """A part of next to no length is a place that was missed."""
    with pytest.raises(GeometryError, match=r"panel “front” › only 0\.\d mm would be left of top edge on one side"):
        with_split_edge(work(), ("front", "top edge"), at_mm, ("neck", "bosom"))


def test_a_seam_names_both_its_edges() -> None:
    """Each edge has the other for its mate; the seam comes last and its ticks differ from those of the panel's others."""
    done = with_piece(work(), strip("strip", 150.0, 60.0))
    done = with_piece(done, strip("frill", 300.0, 60.0))
    done = with_seam_between(
        done, "frill seam", ("frill", "head"), ("strip", "foot"), fullness_mm=150.0, how="gathered"
    )
    assert panel_of(done, "frill").edge("head").mate == EdgeName("strip", "foot")
    assert panel_of(done, "strip").edge("foot").mate == EdgeName("frill", "head")
    record = done.seams[-1]
    assert (record.number, record.ticks, record.fullness_mm, record.how) == (3, 1, 150.0, "gathered")
    again = with_seam_between(done, "end seam", ("frill", "end"), ("strip", "start"))
    assert (again.seams[-1].number, again.seams[-1].ticks) == (4, 2)


def test_what_is_not_there_is_told_with_the_nearest_name() -> None:
    """A misspelt panel or edge is told where it was named."""
    with pytest.raises(GeometryError, match=r"panel › there is no panel “frnt”\. Did you mean “front”\?"):
        panel_of(work(), "frnt")
    with pytest.raises(GeometryError, match=r"edge › panel “front” has no edge “top edg”\. Did you mean “top edge”\?"):
        with_seam_between(work(), "x", ("front", "top edg"), ("back", "top edge"))


def test_stretches_of_one_seam_share_letter_and_ticks() -> None:
    """A seam that is joined in stretches is one seam to the eye: one letter, one count of ticks."""
    done = with_piece(with_piece(work(), strip("one", 60.0, 40.0)), strip("two", 60.0, 40.0))
    done = with_seam_between(done, "side 1", ("one", "end"), ("two", "start"), line="side")
    done = with_seam_between(done, "side 2", ("one", "start"), ("two", "end"), line="side")
    first, second = done.seams[-2:]
    assert (first.line, first.number, first.ticks) == (second.line, second.number, second.ticks)
    assert (first.name, second.name) == ("side 1", "side 2")
    pattern = finished(done, TITLE)
    letters = {edge.letter for name in ("one", "two") for edge in pattern.by_name[name].edges if edge.mate}
    assert len(letters) == 1
