"""Pieces as they are printed: upright, fully labelled, nothing written over anything else."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import numpy as np
import pytest
import shapely
from tests.sheet.real import drafted, shipped
from tests.sheet.sample import sample

from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.model import CENTER, HEM, SEAM, SLIT, TOP, Edge, EdgeName, Panel, Pattern
from fanblock.sheet.drawing import Stroke, Words
from fanblock.sheet.ink import words_corners
from fanblock.sheet.labels import BODY
from fanblock.sheet.piece import Piece, piece, printed
from fanblock.sheet.wording import LEAST_MM

PATTERNS = {"sample": sample(), **shipped()}


def pieces() -> list[tuple[str, Piece]]:
    """All pieces of all patterns, each with the name of its pattern."""
    return [(name, piece(panel, pattern)) for name, pattern in PATTERNS.items() for panel in pattern.panels]


PIECES = pieces()
NAMES = [f"{name} {one.panel.name}" for name, one in PIECES]


def words_of(one: Piece) -> list[Words]:
    """The texts on a piece."""
    return [item for item in one.group.items if isinstance(item, Words)]


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_words_lie_inside_the_piece_or_on_its_flag(one: Piece) -> None:
    """Every text lies within the stitch line or on the flag; in an allowance may lie its own words and those of eyelets,
    and what a piece is, how it is cut and where its levels lie, where its inside is full of channels.
    """
    inside, cut = shapely.Polygon(one.panel.loop()), shapely.Polygon(one.ground)
    along = {
        item
        for label in one.labels
        if label.name.startswith(("allowance", "bar", "eyelet"))
        or (one.panel.channels and (label.name in BODY or label.name.endswith(" level")))
        for item in label.items
        if isinstance(item, Words)
    }
    flagged = [label for label in one.labels if label.name == "flag"]
    beside = {words.text for label in flagged for words in label.items if isinstance(words, Words)}
    for words in words_of(one):
        if words.text not in beside:
            box = shapely.Polygon(words_corners(words))
            in_allowance = replace(words, cloth="") in along and cut.covers(box) and not inside.intersects(box)
            assert in_allowance or inside.buffer(0.2).covers(box), words.text


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_words_never_overlap(one: Piece) -> None:
    """No two texts of a piece share ground."""
    boxes = [(words.text, shapely.Polygon(words_corners(words))) for words in words_of(one)]
    for index, (text, box) in enumerate(boxes):
        for other, beside in boxes[index + 1 :]:
            assert box.intersection(beside).area < 0.05, (text, other)


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_words_keep_off_lines(one: Piece) -> None:
    """No text stands on a stitch line, slit, level, notch or grain arrow."""
    lines = [
        shapely.LineString(item.beziers[:, [0, 3]].reshape(-1, 2))
        for item in one.group.items
        if isinstance(item, Stroke) and item.name.startswith(("slit", "grain", "notch", "waist notch"))
    ]
    for words in words_of(one):
        box = shapely.Polygon(words_corners(words))
        assert all(not box.intersects(line) for line in lines), words.text


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_every_seam_letter_stands_at_both_ends(one: Piece) -> None:
    """The letter of each seam edge stands twice on its piece, upright and within 45 mm of the edge's two ends."""
    for edge in one.panel.edges:
        if not edge.letter:
            continue
        found = [words for words in words_of(one) if words.text == edge.letter]
        assert [words.angle_deg for words in found] == [0.0, 0.0]
        for end in (edge.curve.start, edge.curve.end):
            assert min(np.hypot(words.x - end[0], words.y - end[1]) for words in found) < 45.0


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_pieces_say_what_keeps_them_apart(one: Piece) -> None:
    """Each piece carries number, name, TOP, its levels, its half, its draft and code, and how often to cut it."""
    said = " ".join(words.text for words in words_of(one))
    assert str(one.panel.number) in said
    for needed in (one.panel.name.split()[0], "TOP", "WAIST", "left half", "draft", "code", "cut", "pair"):
        assert needed in said
    assert all(words.size_mm >= LEAST_MM for words in words_of(one))


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_grain_stands_upright_with_top_up(one: Piece) -> None:
    """The grain arrow is vertical and the top edge lies above the waist."""
    assert one.panel.grain is not None
    start, end = one.panel.grain
    assert abs(end[0] - start[0]) < 0.01
    top = np.vstack([edge.curve.points for edge in one.panel.edges if edge.kind == TOP])
    hem = np.vstack([edge.curve.points for edge in one.panel.edges if edge.kind == HEM])
    assert top[:, 1].mean() > hem[:, 1].mean()


def test_the_side_that_faces_front_says_so() -> None:
    """Every piece but the first points toward the centre front with an arrow whose tip lies left of its words."""
    for panel in PATTERNS["sample"].panels[1:]:
        one = piece(panel, PATTERNS["sample"])
        label = next(label for label in one.labels if label.name == "toward center front")
        arrow = next(item for item in label.items if isinstance(item, Stroke))
        assert arrow.beziers[0, 0, 0] == arrow.beziers[..., 0].min()


def narrow(width: float) -> Pattern:
    """A pattern whose only panel is a strip."""
    ring = np.array([[0.0, -70.0], [width, -70.0], [width, 0.0], [width, 210.0], [0.0, 210.0], [0.0, -70.0]])
    edges = (
        Edge("hem", HEM, Curve(frozen(ring[:2]))),
        Edge("strip", SEAM, Curve(frozen(ring[1:4])), EdgeName("front", "strip"), "E", True, 70.0),
        Edge("top edge", TOP, Curve(frozen(ring[3:5]))),
        Edge("center front", CENTER, Curve(frozen(ring[4:6]))),
    )
    panel = Panel(
        "front",
        9,
        edges,
        levels=MappingProxyType({"waist": (Curve(frozen([[0.0, 0.0], [width, 0.0]])),)}),
        grain=(frozen([width / 2, -40.0]), frozen([width / 2, 120.0])),
        allowances=MappingProxyType({"strip": 15.0}),
        cuts=(("outer", 2),),
    )
    return replace(sample(), panels=(panel,), seams=())


def test_narrow_pieces_turn_their_words_upright() -> None:
    """On a strip 35 mm wide everything still stands inside, some of it along the grain."""
    pattern = narrow(35.0)
    one = piece(pattern.panels[0], pattern)
    assert "flag" not in {label.name for label in one.labels}
    assert any(words.angle_deg == 90.0 for words in words_of(one))


def test_what_finds_no_room_goes_on_a_flag_that_counts_as_ground() -> None:
    """On a strip 11 mm wide the words stand beside the piece, and the outline to be packed includes them."""
    pattern = narrow(11.0)
    one = piece(pattern.panels[0], pattern)
    label = next(label for label in one.labels if label.name == "flag")
    ground = shapely.Polygon(one.outline)
    assert ground.buffer(0.01).covers(shapely.Polygon(label.box.corners()))
    assert one.outline[:, 0].max() > one.ground[:, 0].max() + 5.0


def test_six_and_nine_are_underlined() -> None:
    """A turned 9 would be a 6: both carry a bar underneath."""
    pattern = narrow(60.0)
    one = piece(pattern.panels[0], pattern)
    names = [item.name for item in one.group.items if isinstance(item, Stroke)]
    assert "underline" in names


def test_allowances_are_said_in_words_along_their_edges() -> None:
    """Each long edge says how wide its allowance is, or that it has none."""
    pattern = PATTERNS["sample"]
    for panel in pattern.panels:
        one = piece(panel, pattern)
        said = {label.name.removeprefix("allowance "): label for label in one.labels if "allowance " in label.name}
        for edge in panel.edges:
            assert edge.name in said
            words = next(item for item in said[edge.name].items if isinstance(item, Words))
            assert words.text == ("15 mm allowance" if edge.kind == SEAM else words.text)
            assert "allowance" in words.text


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_wide_allowances_hold_their_own_words(one: Piece) -> None:
    """An allowance of 8 mm or more is named outside the stitch line, in the allowance."""
    inside = shapely.Polygon(one.panel.loop())
    boxes = {label.name: shapely.Polygon(label.box.corners()) for label in one.labels}
    for edge in one.panel.edges:
        box = boxes.get(f"allowance {edge.name}")
        if box is not None and one.panel.allowances.get(edge.name, 0.0) >= 8.0:
            assert not inside.intersects(box), edge.name


def test_an_allowance_that_ends_at_the_waist_says_what_to_do() -> None:
    """Both sides of every open seam say where the allowance ends, just above the waist bar; a seam sewn to the hem does not."""
    for panel in shipped()["ferrywoman stays-five-panels"].panels:
        one = piece(panel, shipped()["ferrywoman stays-five-panels"])
        ends = {label.name.removeprefix("bar ") for label in one.labels if label.name.startswith("bar")}
        opened = {edge.name.removesuffix(" below waist") for edge in panel.edges if edge.kind == SLIT}
        assert ends == opened
        for label in one.labels:
            if label.name.startswith("bar"):
                bar = next(notch for notch in one.panel.notches if notch.kind == "waist" and notch.edge in label.name)
                assert np.hypot(label.box.x - bar.point[0], label.box.y - bar.point[1]) < 30.0


def test_top_and_lower_edge_are_named_once() -> None:
    """Of the labels along the edges at most one names the top edge and one the lower edge; with room both are there."""
    for _, one in PIECES:
        said = [item.text for label in one.labels for item in label.items if isinstance(item, Words)]
        for which in ("top edge ·", "lower edge ·"):
            assert sum(text.startswith(which) for text in said) <= 1
    wide = [item.text for item in words_of(dict(zip(NAMES, (one for _, one in PIECES), strict=True))["sample back"])]
    assert any(text.startswith("top edge ·") for text in wide)


def test_ticks_on_tucks_stand_in_the_allowance() -> None:
    """Where a tuck begins at a notch, its ticks are drawn outward, on the same places of the stitch line."""
    sleeves = [
        one
        for one in printed_pieces("ferrywoman", "gown-bodice-1770s")
        if any(m.kind == "tuck" for m in one.panel.marks)
    ]
    assert sleeves
    for one in sleeves:
        tucks = [shapely.LineString(mark.curve.points) for mark in one.panel.marks if mark.kind == "tuck"]
        ticks = [
            shapely.LineString(item.beziers[:, [0, 3]].reshape(-1, 2))
            for item in one.group.items
            if isinstance(item, Stroke) and item.name.startswith("notch")
        ]
        assert ticks
        inside = shapely.Polygon(one.panel.loop()).buffer(-0.2)
        for tick in ticks:
            assert all(not tick.intersects(inside) or tick.distance(tuck) > 1.4 for tuck in tucks)


def test_what_a_mark_says_stands_near_it_and_on_no_word() -> None:
    """The words of slanting marks keep off letters and one another, whatever their turn."""
    for wearer, recipe in (("ferrywoman", "gown-bodice-1770s"), ("ferrywoman", "jacket-pleated-skirts")):
        for one in printed_pieces(wearer, recipe):
            boxes = [(label.name, shapely.Polygon(label.box.corners())) for label in one.labels]
            for name, box in boxes:
                if name.startswith("mark "):
                    assert all(box.intersection(other).area < 0.05 for to, other in boxes if to != name), name


def printed_pieces(wearer: str, recipe: str) -> tuple[Piece, ...]:
    """The printed pieces of a shipped recipe."""
    pattern = drafted(wearer, recipe)
    return printed(pattern.panels, pattern)
