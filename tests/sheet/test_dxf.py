"""DXF by ASTM D6673: what ezdxf reads back is what was drawn, and what the standard forbids is not written.

The rules of layers, texts and units are those of ASTM D6673-10, of which only the opening pages were seen; the rest is
from memory of the standard. That code 30 of a notch is its depth and code 50 its direction is common practice, no source.
"""

from __future__ import annotations

import io
import re
import subprocess
import sys
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from itertools import pairwise

import ezdxf
import numpy as np
import pytest
import shapely
from ezdxf.document import Drawing as Document
from ezdxf.layouts.blocklayout import BlockLayout
from ezdxf.math import Vec3
from tests.sheet.real import drafted, shipped
from tests.sheet.sample import sample

from fanblock.bundle import pattern_bundle
from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.bones import BONE, BOTH, LEFT, RIGHT, Bone, Channel, Eyelet
from fanblock.pattern.model import Mark, Panel, Pattern
from fanblock.problems import ExportError
from fanblock.sheet.drawing import Words
from fanblock.sheet.dxf import pattern_dxf, write_dxf
from fanblock.sheet.dxf_pieces import SNIP_MM, dxf_style
from fanblock.sheet.dxf_style import DxfPiece, DxfStyle, refusals
from fanblock.sheet.layout import pieces_of
from fanblock.sheet.paper import A4
from fanblock.sheet.piece import Piece
from fanblock.sheet.sevenbit import LONGEST_NAME, repeated, seven_bit, short_name
from fanblock.sheet.writing import plain
from fanblock.tolerances import EXCHANGE_MM

HALF_STEP_MM = 0.0071
"""Half a last decimal, both ways."""

STAYS = drafted("ferrywoman", "stays-five-panels")
ON_FOLD = drafted("ferrywoman", "stays-front-lacing")


def opened(data: bytes) -> Document:
    """What ezdxf reads."""
    return ezdxf.read(io.StringIO(data.decode("ascii").replace("\r\n", "\n")))


@cache
def read(name: str) -> tuple[tuple[Piece, ...], Document]:
    """The printed pieces of a pattern and what ezdxf reads of its file."""
    pattern = {"stays": STAYS, "fold": ON_FOLD}[name]
    pieces = pieces_of(pattern)
    return pieces, opened(pattern_dxf(pattern, pieces))


def blocks(document: Document) -> list[BlockLayout]:
    """The blocks that are inserted, in order."""
    return [document.blocks.get(one.dxf.name) for one in document.modelspace().query("INSERT")]


def on(block: BlockLayout, layer: str, kind: str = "*") -> list:
    """The entities of one layer."""
    return [one for one in block.query(kind) if one.dxf.layer == layer]


def flat(place: Vec3) -> tuple[float, float]:
    """A place without its height."""
    return place.x, place.y


def runs(block: BlockLayout, layer: str) -> list[np.ndarray]:
    """The polylines of one layer as points."""
    return [np.array([flat(vertex.dxf.location) for vertex in one.vertices]) for one in on(block, layer, "POLYLINE")]


def points(block: BlockLayout, layers: Iterable[str]) -> set[tuple[float, float]]:
    """The points of some layers."""
    return {flat(one.dxf.location) for layer in layers for one in on(block, layer, "POINT")}


def apart(first: np.ndarray, second: np.ndarray) -> float:
    """The greatest distance between two runs."""
    return float(shapely.hausdorff_distance(shapely.LineString(first), shapely.LineString(second)))


def ring(run: np.ndarray) -> np.ndarray:
    """A run closed."""
    return np.vstack((run, run[:1]))


@pytest.mark.parametrize("name", list(shipped()))
def test_ezdxf_finds_nothing_to_mend(name: str) -> None:
    """The file is read as release 12, and the audit of ezdxf neither finds nor mends anything."""
    pattern = shipped()[name]
    document = opened(pattern_dxf(pattern, pieces_of(pattern)))
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert document.dxfversion == "AC1009"
    assert len(blocks(document)) == len(pattern.panels)


def test_the_file_has_three_sections_and_no_more() -> None:
    """An empty HEADER, BLOCKS, ENTITIES, EOF; no tables, no layouts; lines end as on the system the format is from."""
    data = pattern_dxf(STAYS, pieces_of(STAYS))
    lines = data.decode("ascii").split("\r\n")
    assert "\n" not in "".join(lines)
    pairs = [(code.strip(), value) for code, value in zip(lines[::2], lines[1::2], strict=False)]
    sections = [after[1] for before, after in pairwise(pairs) if before == ("0", "SECTION")]
    assert sections == ["HEADER", "BLOCKS", "ENTITIES"]
    assert pairs[:3] == [("0", "SECTION"), ("2", "HEADER"), ("0", "ENDSEC")]
    assert pairs[-1] == ("0", "EOF")
    names = [after[1] for before, after in zip(pairs, pairs[2:], strict=False) if before == ("0", "BLOCK")]
    assert names == ["1-center-front", "2-side-front", "3-side", "4-side-back", "5-back"]


def test_the_same_pattern_gives_the_same_bytes() -> None:
    """Nothing in it depends on the time or on what was written before."""
    pieces = pieces_of(STAYS)
    assert pattern_dxf(STAYS, pieces) == pattern_dxf(STAYS, pieces_of(STAYS))


def style_texts(pattern: Pattern) -> list[str]:
    """The texts outside all blocks."""
    document = opened(pattern_dxf(pattern, pieces_of(pattern)))
    found = document.modelspace().query("TEXT")
    assert {one.dxf.layer for one in found} == {"1"}
    return [one.dxf.text for one in found]


def test_the_texts_of_the_style_stand_once_in_their_order() -> None:
    """The only date is the one on which the measures were taken; units are told here and nowhere else."""
    assert style_texts(sample()) == [
        "Style Name:trial-stays",
        "Creation Date:12-04-2026",
        "Creation Time:",
        "Author:fanblock;fanblock;0.1.0",
        "Sample Size:ferrywoman",
        "Grade Rule Table:",
        "Units:METRIC",
        "ASTM/D13Proposal 1 Version: D6673-10",
    ]


def test_without_a_date_in_the_wearer_there_is_none_in_the_file() -> None:
    """A wearer who says no day has a file of no day."""
    pattern = sample()
    undated = replace(pattern, body=replace(pattern.body, taken_on=""))
    assert style_texts(undated)[1] == "Creation Date:"
    assert b"2026" not in pattern_dxf(undated, pieces_of(undated))


@pytest.mark.parametrize("name", ["stays", "fold"])
def test_boundaries_read_back_as_the_cut_lines(name: str) -> None:
    """Layer 1 holds one closed polyline a piece, its first point not repeated, within what thinning and rounding cost."""
    pieces, document = read(name)
    for piece, block in zip(pieces, blocks(document), strict=True):
        (line,) = on(block, "1", "POLYLINE")
        assert line.is_closed
        (found,) = runs(block, "1")
        assert not np.array_equal(found[0], found[-1])
        assert apart(ring(found), ring(piece.ground)) <= EXCHANGE_MM + HALF_STEP_MM
        true, back = shapely.Polygon(piece.ground), shapely.Polygon(found)
        assert back.is_valid
        assert abs(back.area - true.area) <= EXCHANGE_MM * true.length


def test_millimetres_have_two_decimals() -> None:
    """METRIC is millimetres to two decimals: no coordinate has more."""
    lines = pattern_dxf(STAYS, pieces_of(STAYS)).decode("ascii").split("\r\n")
    numbers = [
        value for code, value in zip(lines[::2], lines[1::2], strict=False) if code.strip() in ("10", "20", "30")
    ]
    assert len(numbers) > 1000
    assert [number for number in numbers if not re.fullmatch(r"-?\d+\.\d{1,2}", number)] == []
    assert "-0.0" not in numbers


@pytest.mark.parametrize("name", ["stays", "fold"])
def test_turn_and_curve_points_hold_every_point_of_every_line(name: str) -> None:
    """Layers 2 and 3 together are the points of layers 1, 8, 11 and 14; no point is both."""
    _, document = read(name)
    for block in blocks(document):
        drawn = {tuple(point) for layer in ("1", "8", "11", "14") for run in runs(block, layer) for point in run}
        turns, curves = points(block, "2"), points(block, "3")
        assert turns | curves == drawn
        assert not turns & curves
        assert len(on(block, "2", "POINT")) + len(on(block, "3", "POINT")) == len(drawn)


def test_corners_are_turn_points_and_bends_are_not() -> None:
    """The corners of the first piece's cut line, by hand: four where edges meet; its seam's points lie on a curve."""
    pieces, document = read("stays")
    block = blocks(document)[0]
    turns = points(block, "2")
    for edge in pieces[0].panel.edges:
        ends = np.round([edge.curve.start, edge.curve.end], 2)
        assert {tuple(end) for end in ends} <= turns
    seam = pieces[0].panel.edge("front seam")
    middle = np.round(seam.curve.points[5:-5], 2)
    assert not {tuple(point) for point in middle} & turns


@pytest.mark.parametrize("name", ["stays", "fold"])
def test_single_lines_are_no_polylines(name: str) -> None:
    """Layers 5, 6, 7, 9, 10 and 13 hold no polyline; grain and mirror are lines."""
    _, document = read(name)
    for block in blocks(document):
        assert not [one for layer in ("5", "6", "7", "9", "10", "13") for one in on(block, layer, "POLYLINE")]
        assert len(on(block, "7", "LINE")) == 1
        assert {one.dxf.layer for one in block} <= {"1", "2", "3", "4", "6", "7", "8", "11", "13", "14", "15"}


def test_sew_lines_slits_levels_and_grain_read_back() -> None:
    """Each edge is one line on 14, each slit one on 11, levels lie on 8, the grain on 7."""
    pieces, document = read("stays")
    for piece, block in zip(pieces, blocks(document), strict=True):
        panel = piece.panel
        found = runs(block, "14")
        assert len(found) == len(panel.edges)
        for run, edge in zip(found, panel.edges, strict=True):
            assert apart(run, edge.curve.points) <= EXCHANGE_MM + HALF_STEP_MM
            assert Curve(run).length_mm == pytest.approx(edge.curve.length_mm, abs=0.05)
        assert len(runs(block, "11")) == len(panel.slits)
        for run, slit in zip(runs(block, "11"), panel.slits, strict=True):
            assert run == pytest.approx(np.array([slit.start, slit.end]), abs=HALF_STEP_MM)
        levels = sum(len(parts) for parts in panel.levels.values())
        assert len(runs(block, "8")) == levels + sum(len(channel.rows) for channel in panel.channels)
        (grain,) = on(block, "7", "LINE")
        assert np.array([flat(grain.dxf.start), flat(grain.dxf.end)]) == pytest.approx(
            np.array(panel.grain), abs=HALF_STEP_MM
        )
        assert grain.dxf.start.x == pytest.approx(grain.dxf.end.x, abs=2 * HALF_STEP_MM)


def test_notches_are_points_on_the_boundary_that_point_inward() -> None:
    """As many points on layer 4 as there are ticks and bars; none may be cut to the stitch line."""
    pieces, document = read("stays")
    for piece, block in zip(pieces, blocks(document), strict=True):
        panel = piece.panel
        found = on(block, "4", "POINT")
        assert len(found) == sum(1 if notch.kind == "waist" else notch.count for notch in panel.notches)
        outline = shapely.LineString(ring(piece.ground))
        inside = shapely.Polygon(piece.ground).buffer(3 * HALF_STEP_MM)
        for one in found:
            x, y, depth = one.dxf.location
            assert outline.distance(shapely.Point(x, y)) <= 2 * HALF_STEP_MM
            turn = np.radians(one.dxf.angle)
            assert 0.0 <= depth <= SNIP_MM
            assert inside.contains(shapely.Point(x + 0.5 * np.cos(turn), y + 0.5 * np.sin(turn)))
            seam = min(panel.notches, key=lambda notch: float(np.hypot(*(notch.point - (x, y)))))
            assert depth <= 0.5 * panel.allowances[seam.edge]


def texts(block: BlockLayout, layer: str) -> list[str]:
    """The texts of one layer of a block."""
    return [one.dxf.text for one in on(block, layer, "TEXT")]


def test_every_piece_says_its_name_its_number_and_what_it_is_cut_from() -> None:
    """The quantity counts one material; what else is cut, and what is sewn to what, is annotation."""
    _, document = read("stays")
    block = blocks(document)[1]
    assert texts(block, "1") == ["Piece Name:2-side-front", "Quantity:1,1", "Material:outer"]
    said = texts(block, "15")
    assert "boundary: cut line, allowances included; finished line on layer 14" in said
    assert "outer: cut 1 pair; strength layer: cut 2 pairs; lining: cut 1 pair" in said
    assert any(text.startswith("edge front seam: ") and "sewn as A, to 1 center front" in text for text in said)


@pytest.mark.parametrize("name", ["stays", "fold"])
def test_words_of_the_printed_piece_are_annotation_where_they_stand(name: str) -> None:
    """What is written on paper is in the file too, in 7-bit letters, at its place."""
    pieces, document = read(name)
    for piece, block in zip(pieces, blocks(document), strict=True):
        said = [
            (one.dxf.text, flat(one.dxf.align_point if one.dxf.halign else one.dxf.insert))
            for one in on(block, "15", "TEXT")
        ]
        words = [item for label in piece.labels for item in label.items if isinstance(item, Words)]
        assert words
        for item in words:
            places = [place for text, place in said if text == seven_bit(item.text)]
            assert min(np.hypot(x - item.x, y - item.y) for x, y in places) <= HALF_STEP_MM


def test_a_piece_on_the_fold_is_half_a_piece_with_its_mirror_line() -> None:
    """Layer 6 runs along the fold, which is on the boundary and is not sewn; it is cut so often, and never mirrored."""
    pieces, document = read("fold")
    folded = [(piece, block) for piece, block in zip(pieces, blocks(document), strict=True) if piece.panel.fold]
    assert folded
    for piece, block in folded:
        (mirror,) = on(block, "6", "LINE")
        run = shapely.LineString([flat(mirror.dxf.start), flat(mirror.dxf.end)])
        assert shapely.LineString(ring(piece.ground)).buffer(0.03).covers(run)
        assert len(runs(block, "14")) == len(piece.panel.edges) - 1
        assert f"Quantity:{piece.panel.cuts[0][1]},0" in texts(block, "1")


def changed(pattern: Pattern, **changes: object) -> Pattern:
    """The pattern with its first panel changed."""
    first, *others = pattern.panels
    return replace(pattern, panels=(replace(first, **changes), *others))


def stiffened() -> Pattern:
    """The sample pattern with a bone channel, eyelets of both kinds and a mark in its first panel."""
    pattern = sample()
    panel = pattern.panels[0]
    (low_x, low_y), (high_x, high_y) = panel.loop().min(axis=0), panel.loop().max(axis=0)
    x, low, high = 0.4 * low_x + 0.6 * high_x, 0.7 * low_y + 0.3 * high_y, 0.3 * low_y + 0.7 * high_y
    lines = [Curve(frozen([[x + off, high], [x + off, low]])) for off in (-4.0, 0.0, 4.0)]
    channel = Channel(BONE, Bone(6.0, 1.5, "cane"), 8.0, lines[1], (lines[0], lines[2]), (6.0, 6.0), 1)
    eyelets = tuple(
        Eyelet("center front", half, number, 20.0 * number, frozen([x - 12.0, high - 20.0 * number]), 5.0)
        for number, half in enumerate((BOTH, LEFT, RIGHT), start=1)
    )
    mark = Mark("fold", "crease", Curve(frozen([[x - 15.0, low], [x + 15.0, low]])), "fold here")
    return changed(pattern, channels=(channel,), eyelets=eyelets, marks=(mark,))


def test_bones_are_drawn_and_eyelets_are_drill_points() -> None:
    """Both rows of stitching and the mark lie on 8; the left half's holes are on 13 with their width; the others are told."""
    pattern = stiffened()
    pieces = pieces_of(pattern)
    block = blocks(opened(pattern_dxf(pattern, pieces)))[0]
    panel = pieces[0].panel
    wanted = [
        *(part for parts in panel.levels.values() for part in parts),
        panel.marks[0].curve,
        *panel.channels[0].rows,
    ]
    found = runs(block, "8")
    assert len(found) == len(wanted)
    assert all(min(apart(run, line.points) for run in found) <= HALF_STEP_MM + EXCHANGE_MM for line in wanted)
    drilled = [tuple(one.dxf.location) for one in on(block, "13", "POINT")]
    holes = [(*np.round(eyelet.point, 2), 5.0) for eyelet in panel.eyelets if eyelet.half != RIGHT]
    assert drilled == [pytest.approx(hole) for hole in holes]
    assert "eyelets of the right half, mm from the top: 60.0" in texts(block, "15")


def test_a_pattern_without_allowances_says_that_its_boundary_is_the_finished_line() -> None:
    """A net boundary on layer 1 is allowed; which it is must be told."""
    pattern = sample()
    bare = replace(pattern, panels=tuple(replace(p, allowances={}, cut_line=None) for p in pattern.panels))
    document = opened(pattern_dxf(bare, pieces_of(bare)))
    for block in blocks(document):
        assert "boundary: finished line, no allowance" in texts(block, "15")
        assert all(one.dxf.location.z == 0.0 for one in on(block, "4", "POINT"))


HOSTILE = "Élise’s “stays” · 5%%d ^J \\P Ψ ½\n<x>"


def test_any_name_comes_out_in_seven_bits() -> None:
    """Letters beyond ASCII are spelt or marked, what steers a drawing program is gone, and ezdxf still mends nothing."""
    pattern = sample(hostile=HOSTILE)
    data = pattern_dxf(pattern, pieces_of(pattern))
    assert max(data) < 128
    document = opened(data)
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    said = [one.dxf.text for block in blocks(document) for one in block.query("TEXT")]
    assert not [text for text in said if "%%" in text or "^" in text or "\\" in text]
    assert any('Elise\'s "stays" - 5%d J /P ? 1/2 <x>' in text for text in said)
    size = next(text for text in style_texts(pattern) if text.startswith("Sample Size:"))
    assert size == "Sample Size:Elise-s-stays-5-d-J"


@pytest.mark.parametrize(
    ("name", "short"),
    [
        ("2 side front", "2-side-front"),
        ("stays-1770s-four-panels", "stays-1770s-four-pan"),
        ("Left Back, upper", "Left-Back-upper"),
        ("Ω", "part"),
        ("12345678901234567890-x", "12345678901234567890"),
    ],
)
def test_names_are_short_and_keep_their_case(name: str, short: str) -> None:
    """At most twenty letters, digits, hyphens; large letters stay large."""
    assert short_name(name) == short
    assert len(short) <= LONGEST_NAME


def test_names_of_blocks_are_unique_whatever_their_case() -> None:
    """Names that begin alike differ by the piece's number in front; DXF does not tell large letters from small."""
    pattern = sample()
    names = ("a very long name of a piece, front", "a very long name of a piece, FRONT", "Back")
    renamed = dict(zip((panel.name for panel in pattern.panels), names, strict=True))

    def under(panel: Panel) -> Panel:
        edges = tuple(
            edge if edge.mate is None else replace(edge, mate=replace(edge.mate, panel=renamed[edge.mate.panel]))
            for edge in panel.edges
        )
        return replace(panel, name=renamed[panel.name], edges=edges)

    other = replace(pattern, panels=tuple(under(panel) for panel in pattern.panels))
    document = opened(pattern_dxf(other, pieces_of(other)))
    found = [block.name for block in blocks(document)]
    assert found == ["1-a-very-long-name-o", "2-a-very-long-name-o", "3-Back"]
    assert repeated(found) == ()
    assert repeated(["a", "B", "b", "A", "a"]) == ("b", "A", "a")


def first_piece(**changes: object) -> DxfStyle:
    """The sample's style with its first piece changed."""
    style = dxf_style(sample(), pieces_of(sample()))
    return replace(style, pieces=(replace(style.pieces[0], **changes), *style.pieces[1:]))


RING = dxf_style(sample(), pieces_of(sample())).pieces[0].boundary
LONGER = np.ptp(RING / 100.0, axis=0).max()


@pytest.mark.parametrize(
    ("style", "message"),
    [
        (
            first_piece(closed=False),
            "piece “1-front” › its outline is not closed. Every edge must begin where the one before it ends.",
        ),
        (
            first_piece(boundary=frozen(ring(RING))),
            "piece “1-front” › its outline ends with its first point again. Leave the repeated point out.",
        ),
        (first_piece(grain=None), "piece “1-front” › it has no grain. Add a `grain` step to the recipe."),
        (
            first_piece(boundary=frozen(RING / 100.0)),
            f"piece “1-front” › its longer side is {LONGER:g}, which cannot be millimetres. Give every length in millimetres.",
        ),
        (
            first_piece(name="2-SIDE"),
            "piece “2-side” › another piece has this name. Give every piece a name of its own.",
        ),
        (first_piece(remarks=("naïve",)), "“naïve” has letters beyond 7 bits. Spell it in plain letters."),
    ],
    ids=["open", "repeated point", "no grain", "not millimetres", "duplicate name", "beyond ASCII"],
)
def test_what_the_standard_forbids_is_refused(style: DxfStyle, message: str) -> None:
    """Each refusal says what is wrong with which piece, and what to do."""
    assert [str(problem) for problem in refusals(style)] == [message]


def test_an_open_outline_is_found_in_the_panel_itself() -> None:
    """Edges of one outline that do not meet leave it open; everything else that is wrong is told with it."""
    pattern = sample()
    panel = pattern.panels[0]
    edges = (replace(panel.edges[0], curve=panel.edges[0].curve.between(0.0, 20.0)), *panel.edges[1:])
    broken = changed(pattern, edges=edges, grain=None)
    with pytest.raises(ExportError) as caught:
        dxf_style(broken, pieces_of(broken))
    assert [problem.code for problem in caught.value.problems] == ["dxf-grain", "dxf-open"]


def test_a_fold_must_be_straight() -> None:
    """A mirror line is one straight line; a bent edge on the fold is refused with its name."""
    bent = changed(sample(), fold="hem")
    with pytest.raises(ExportError) as caught:
        dxf_style(bent, pieces_of(bent))
    assert str(caught.value) == (
        "piece “front” › its hem lies on the fold and is not straight. Lay a straight edge on the fold."
    )


def test_a_pattern_that_may_not_be_exchanged_has_its_other_files() -> None:
    """The file for exchange is left out and said so; everything else is there."""
    bundle = pattern_bundle(changed(sample(), grain=None), [A4], pictures=False)
    assert [made.name for made in bundle.files] == ["pattern-a4.pdf", "pattern.svg", "pattern.json"]
    assert bundle.left_out == ("pattern.dxf: piece “1-front”: it has no grain.",)


def test_a_piece_that_is_whole_is_not_mirrored() -> None:
    """Two of a whole piece are two as drawn; five of a pair are three and two."""
    assert quantity(whole=True, cuts=(("outer", 2),)) == "Quantity:2,0"
    assert quantity(cuts=(("outer", 5),)) == "Quantity:3,2"


def quantity(**changes: object) -> str:
    """What is said of how many are cut of the first panel, changed."""
    pattern = changed(sample(), **changes)
    style = dxf_style(pattern, pieces_of(pattern))
    return texts(blocks(opened(write_dxf(style)))[0], "1")[1]


def test_pieces_stand_apart_in_the_drawing() -> None:
    """Opened in any drawing program, no piece and no text lies over another piece."""
    _, document = read("stays")
    ends = []
    for one in document.modelspace().query("INSERT"):
        block = document.blocks.get(one.dxf.name)
        (found,) = runs(block, "1")
        ends.append((one.dxf.insert.x + found[:, 0].min(), one.dxf.insert.x + found[:, 0].max()))
    assert all(first[1] < second[0] for first, second in pairwise(ends))


def test_ezdxf_waits_until_a_file_is_written() -> None:
    """Its import takes as long as drafting does: whoever writes no such file does not pay for it."""
    script = "import sys, fanblock.bundle, fanblock.sheet.dxf; sys.exit('ezdxf' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", script], check=False).returncode == 0


def test_seven_bit_text_is_one_plain_line() -> None:
    """It is never longer than one line, and plain text is left as it is."""
    assert seven_bit("edge front seam: 293.0 mm, allowance 15 mm") == "edge front seam: 293.0 mm, allowance 15 mm"
    assert seven_bit(plain("a\n\tb")) == "a b"
    assert isinstance(first_piece().pieces[0], DxfPiece)
