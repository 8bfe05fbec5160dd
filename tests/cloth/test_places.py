"""Where each piece lies: what is printed for the cutter is where the piece is drawn, and the cloth is told as it was written."""

from __future__ import annotations

import re
from functools import cache

import numpy as np
import pytest
from shapely import LineString, Polygon

from fanblock.cloth.laying import Lay, lays_of
from fanblock.cloth.places import HEADS, place_rows, place_words, places_of
from fanblock.cloth.sheet import cloth_pages
from fanblock.cloth.words import lay_sentences, shopping, taped_mm
from fanblock.garment.model import Cloth
from fanblock.garment.reading import read_garment
from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.recipe.library import open_recipe
from fanblock.sheet.drawing import Words
from fanblock.sheet.paper import A4, LETTER, Paper
from fanblock.units import YARD_MM, parse_length
from fanblock.wearer.library import open_wearer

NARROW = Cloth(900.0, 0.04, 0.02, nap=True, written="90 cm")
FOLDED = Cloth(1400.0, folded=True, written="140 cm")


@cache
def pattern(wearer: str = "ferrywoman", recipe: str = "stays-three-panels") -> Pattern:
    """Return a pattern whose cloth is to be laid."""
    return draft_pattern(open_wearer(wearer), open_recipe(recipe))


@cache
def lays() -> tuple[Lay, ...]:
    """Return the layers of stays on three kinds of cloth: with a nap, as assumed, folded."""
    return lays_of(pattern(), {"outer": NARROW, "lining": FOLDED}, "in")


@cache
def opened() -> Lay:
    """Return a bodice whose back is cut on the fold, and so lies opened out, on folded cloth."""
    bodice = pattern("innkeeper", "doublet-bodice-1570s")
    return lays_of(bodice, {"outer": FOLDED}, "cm")[0]


def test_every_piece_has_a_place_and_a_mark_of_its_own() -> None:
    """As many as lie there; several alike are counted."""
    for lay in (*lays(), opened()):
        places = places_of(lay)
        assert len(places) == len(lay.doubled) + len(lay.single)
        assert len({place.mark for place in places}) == len(places)


def test_the_printed_grain_line_lies_in_its_piece_along_the_cloth() -> None:
    """By another library: it lies within the piece as laid, and both its ends are equally far from the selvedge."""
    for lay in lays():
        for place in places_of(lay):
            foot, tip = place.laid.grain
            assert foot[1] == pytest.approx(tip[1])
            assert Polygon(place.laid.ring).buffer(0.05).contains(LineString([foot, tip]))


def test_the_table_is_what_a_tape_would_show_on_the_cloth() -> None:
    """From the drawn grain line: across from the lower edge, along from the cut end, each to half an eighth of an inch."""
    for lay in lays():
        for place, row in zip(places_of(lay), place_rows(lay, "in"), strict=True):
            foot, tip = place.laid.grain
            true = (foot[1], foot[0], tip[0], place.laid.ring[:, 0].min(), place.laid.ring[:, 0].max())
            assert [parse_length(cell) for cell in row[2:]] == pytest.approx(true, abs=25.4 / 16.0 + 1e-6)
            assert len(row) == len(HEADS)


def test_the_grain_of_a_piece_lies_as_far_in_it_as_it_is_printed() -> None:
    """From the pattern itself: the grain line's distance from the piece's foot and side is that of the printed piece."""
    lay = lays()[0]
    for place in places_of(lay):
        panel = pattern().by_name[place.name]
        assert panel.grain is not None
        assert panel.cut_line is not None
        start, end = panel.grain
        along = (end - start) / np.hypot(*(end - start))
        off = panel.cut_line.points - start
        below, above = -(off @ along).min(), (off @ along).max()
        assert place.lower_mm - place.begins_mm == pytest.approx(below, abs=1e-6)
        assert place.ends_mm - place.lower_mm == pytest.approx(above, abs=1e-6)


def test_a_piece_that_was_turned_has_its_top_nearer_the_cut_end() -> None:
    """So the cutter sees it from two numbers; with a nap none is."""
    for lay in lays():
        for place in places_of(lay):
            assert (place.upper_mm < place.lower_mm) == place.laid.turned
    assert any(place.laid.turned for lay in lays() for place in places_of(lay))


def test_the_lower_edge_is_named() -> None:
    """A selvedge; of folded cloth its fold; of cloth that is partly folded both, each where it is."""
    assert "which is the selvedge," in place_words(lays()[0])
    assert "which is the fold," in place_words(lays()[2])
    assert "which is the fold, or where the cloth lies single the selvedge," in place_words(opened())


def test_a_fold_that_was_opened_out_is_drawn_and_told() -> None:
    """The dotted line lies across the piece, half of it on either side."""
    (place,) = (one for one in places_of(opened()) if one.laid.shape.opened)
    fold = place.laid.shape.fold
    assert fold is not None
    line, ring = LineString(place.laid.put(fold)), Polygon(place.laid.ring)
    assert ring.buffer(0.05).contains(line)
    (_, low), (_, high) = place.laid.ring.min(axis=0), place.laid.ring.max(axis=0)
    assert line.centroid.y == pytest.approx(0.5 * (low + high), abs=0.05)
    assert any("its fold is the dotted line" in says for says in lay_sentences(opened(), "cm"))


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_pages_hold_the_whole_table(paper: Paper) -> None:
    """Every row of every cloth, on the paper."""
    pages = cloth_pages(pattern(), lays(), paper)
    words = [item for page in pages for group in page.groups for item in group.items if isinstance(item, Words)]
    assert all(0.0 < word.y < paper.height_mm for word in words)
    texts = [word.text for word in words]
    for lay in lays():
        for row in place_rows(lay, "in"):
            assert all(cell in texts for cell in row)
    assert {"nap: all tops ▶", "selvedge", "fold"} <= set(texts)


@pytest.mark.parametrize(
    ("units", "other"), [("in", r"\d ?(?:mm|cm|m)\b"), ("cm", r"\d ?(?:in|yd)\b")], ids=["inches", "centimetres"]
)
def test_cloth_and_shopping_list_are_told_in_the_makers_units(units: str, other: str) -> None:
    """All but the width and thickness of bones, which are sold by them in millimetres everywhere."""
    wearer = {"in": "ferrywoman", "cm": "innkeeper"}[units]
    stays = pattern(wearer, "stays-five-panels")
    laid = lays_of(stays, {}, units)
    texts = [text for pair in shopping(stays, laid) for text in pair]
    texts += [
        item.text
        for page in cloth_pages(stays, laid, A4)
        for group in page.groups
        for item in group.items
        if isinstance(item, Words)
    ]
    assert [text for text in texts if re.search(other, re.sub(r"[\d.]+ × [\d.]+ mm", "", text))] == []


GARMENT = """
garment: 1
wearer: ferrywoman
recipe: stays-three-panels
{units}
cloth:
  outer: {{width: {width}}}
"""


@pytest.mark.parametrize(
    ("units", "width", "told"),
    [
        ("", "140 cm", "140 cm"),
        ("", "54 1/2 in", "54 1/2 in"),
        ("units: in", "54", "54 in"),
        ("units: cm", "1400 mm", "1400 mm"),
    ],
)
def test_a_width_is_told_as_it_was_written(units: str, width: str, told: str) -> None:
    """140 cm are 55 1/8 in, which no shop sells and nobody wrote."""
    garment = read_garment(GARMENT.format(units=units, width=width), "mine.yaml")
    lay = lays_of(pattern(), garment.cloth, "in")[0]
    assert f" of cloth {told} wide." in lay_sentences(lay, "in")[0]
    assert dict(shopping(pattern(), (lay,)))["cloth: outer"].partition(";")[0].endswith(f", {told} wide")


def test_what_nobody_wrote_is_assumed_in_the_makers_units() -> None:
    """54 in for who measures in inches, 140 cm for who measures in centimetres: widths that shops have."""
    strength = lays()[1]
    assert lay_sentences(strength, "in")[0].endswith("wide. This width is assumed: tell yours in a garment file.")
    assert "54 in wide" in lay_sentences(strength, "in")[0]
    assert strength.cloth.width_mm == pytest.approx(54 * 25.4)


def test_the_list_holds_all_that_whipped_stays_take() -> None:
    """Cloth, bones, lace, eyelets, binding, tape over the seams and thread, each as shops sell it: yards to an eighth."""
    stays = pattern("ferrywoman", "stays-five-panels")
    things = dict(shopping(stays, lays_of(stays, {}, "in")))
    heads = {what.partition(":")[0].split(",")[0] for what in things}
    assert {
        "cloth",
        "bone a",
        "lace",
        "eyelets",
        "binding",
        "thread",
        "narrow tape to cover the whipped seams",
    } <= heads
    assert things["eyelets: lacing edge"].startswith("24,")
    tape = things["narrow tape to cover the whipped seams"]
    yards = parse_length(tape.partition(",")[0].replace("yd", "in")) / 25.4 * YARD_MM
    assert taped_mm(stays) < yards < 1.2 * taped_mm(stays) + YARD_MM / 8.0


def test_what_is_bought_by_the_piece_is_counted() -> None:
    """As many buttons as are marked on the front."""
    bodice = pattern("innkeeper", "doublet-bodice-1570s")
    marked = sum(mark.kind == "fastening" and "button" in mark.name for panel in bodice.panels for mark in panel.marks)
    assert marked > 5
    assert dict(shopping(bodice, ()))["buttons"] == f"{marked} for the centre front"
