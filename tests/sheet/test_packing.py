"""Laying pieces on a sheet: never over one another, within the width, the same every time, few pages."""

from __future__ import annotations

import time

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.sheet.real import drafted

from fanblock.geometry.curve import Points
from fanblock.problems import ExportError
from fanblock.sheet.laying import Packing
from fanblock.sheet.layout import pieces_of
from fanblock.sheet.orders import orders
from fanblock.sheet.packing import pack
from fanblock.sheet.tilepacking import Tiling, pack_on_tiles

A4_FIELD = Tiling(176.0, 257.0, 9.0)


def rectangle(width: float, height: float) -> Points:
    """A rectangle from the origin."""
    return np.array([[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]])


def moved(outlines: list[Points], packing: Packing) -> list[shapely.Polygon]:
    """The outlines where they were laid."""
    return [shapely.Polygon(ring + np.array(by)) for ring, by in zip(outlines, packing.shifts, strict=True)]


def stays() -> list[Points]:
    """The outlines of drafted stays."""
    return [one.outline for one in pieces_of(drafted("innkeeper", "stays-five-panels"))]


STAYS = stays()

shapes = st.lists(
    st.tuples(st.floats(20.0, 180.0), st.floats(20.0, 380.0), st.floats(0.0, 0.9)), min_size=1, max_size=7
)


def tapered(width: float, height: float, cut: float) -> Points:
    """A four-sided piece narrower at its foot."""
    inset = 0.5 * width * cut
    return np.array([[inset, 0.0], [width - inset, 0.0], [width, height], [0.0, height]])


@settings(max_examples=25, deadline=None)
@given(shapes)
def test_pieces_never_overlap_and_stay_within_the_strip(sizes: list[tuple[float, float, float]]) -> None:
    """Whatever the shapes, they lie apart, within the width and above the foot of the strip."""
    outlines = [tapered(*size) for size in sizes]
    packing = pack(outlines, 420.0)
    laid = moved(outlines, packing)
    for index, one in enumerate(laid):
        left, low, right, _ = one.bounds
        assert left >= -1e-9
        assert low >= -1e-9
        assert right <= 420.0 + 1e-9
        assert all(one.distance(other) > 3.0 for other in laid[index + 1 :])


@settings(max_examples=15, deadline=None)
@given(shapes)
def test_pieces_on_pages_never_overlap(sizes: list[tuple[float, float, float]]) -> None:
    """The same on pages that are joined."""
    outlines = [tapered(*size) for size in sizes]
    laid = moved(outlines, pack_on_tiles(outlines, A4_FIELD))
    for index, one in enumerate(laid):
        assert all(one.distance(other) > 3.0 for other in laid[index + 1 :])


def test_same_pieces_same_places() -> None:
    """Laying twice gives the same shifts to the last digit."""
    assert pack(STAYS, 850.0) == pack(STAYS, 850.0)
    assert pack_on_tiles(STAYS, A4_FIELD) == pack_on_tiles(STAYS, A4_FIELD)


def test_pieces_are_not_turned() -> None:
    """A packing holds shifts and nothing else: what stood upright still does."""
    assert all(len(shift) == 2 for shift in pack(STAYS, 850.0).shifts)


def test_equal_rectangles_fill_a_strip_row_by_row() -> None:
    """Six rectangles of 100 × 50 in a strip for three, 6 mm apart, need two rows and no more."""
    packing = pack([rectangle(100.0, 50.0)] * 6, 330.0)
    assert packing.height_mm <= 2 * 50.0 + 6.0 + 8.0


def test_a_piece_that_fits_a_page_is_not_laid_across_a_join() -> None:
    """Four pieces of half a page each lie on two pages, crossing no join."""
    outlines = [rectangle(80.0, 250.0)] * 4
    packing = pack_on_tiles(outlines, A4_FIELD)
    pages = [A4_FIELD.pages(ring + np.array(by)) for ring, by in zip(outlines, packing.shifts, strict=True)]
    assert all(len(some) == 1 for some in pages)
    assert len(frozenset().union(*pages)) == 2


def test_stays_need_few_pages() -> None:
    """Five panels a side, whose outlines fill less than four A4 fields, need at most eight pages."""
    packing = pack_on_tiles(STAYS, A4_FIELD)
    pages = [A4_FIELD.pages(ring + np.array(by)) for ring, by in zip(STAYS, packing.shifts, strict=True)]
    assert len(frozenset().union(*pages)) <= 8


def test_packing_is_quick() -> None:
    """Stays are laid in well under a second, also on a busy machine."""
    pack_on_tiles(STAYS, A4_FIELD)
    start = time.perf_counter()
    pack_on_tiles(STAYS, A4_FIELD)
    pack(STAYS, 850.0)
    assert time.perf_counter() - start < 1.5


def test_a_piece_wider_than_the_strip_is_refused() -> None:
    """The message says how wide the piece is and how wide the paper."""
    with pytest.raises(ExportError) as caught:
        pack([rectangle(500.0, 20.0)], 400.0)
    assert str(caught.value) == (
        "sheet › the widest piece is 500 mm and the paper offers 400 mm. Choose wider paper or tiled pages."
    )


def test_pages_counts_only_pages_that_are_touched() -> None:
    """A triangle whose corner is cut off by the page corner does not need the fourth page."""
    tiling = Tiling(100.0, 100.0)
    triangle = np.array([[10.0, 10.0], [190.0, 10.0], [10.0, 190.0]])
    assert tiling.pages(triangle) == {(0, 0), (1, 0), (0, 1)}


def test_orders_hold_every_piece_once() -> None:
    """Each order is a permutation, no two are alike, and the order as given is among them."""
    found = orders(STAYS)
    assert all(sorted(order) == list(range(len(STAYS))) for order in found)
    assert len(set(found)) == len(found)
    assert tuple(range(len(STAYS))) in found
