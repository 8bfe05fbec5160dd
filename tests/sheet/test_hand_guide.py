"""The hand guide: its printed numbers alone give every panel back within a millimetre.

The tests read the texts as they are printed and draw by them as a hand does: points from two lines square to each other,
straight lines, and for every curve a thin lath through the points set off from its chord. A lath free at its ends takes
the shape of a cubic spline without bend there (the draughtsman's spline, textbooks of numerical analysis); it is scipy's.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache
from html.parser import HTMLParser

import numpy as np
import pypdfium2
import pytest
import shapely
import shapely.ops
from scipy.interpolate import CubicSpline
from tests.sheet.real import drafted
from tests.sheet.sample import sample

from fanblock.bundle import pattern_bundle
from fanblock.geometry.curve import Curve, frozen
from fanblock.geometry.lath import apart_mm
from fanblock.pattern.bones import BOTH, LEFT, RIGHT, Eyelet
from fanblock.pattern.model import FREE, Edge, Panel, Pattern
from fanblock.problems import GeometryError
from fanblock.sheet.handguide import hand_panel, hand_panels
from fanblock.sheet.handguide_curves import IN_CENTIMETRES, IN_INCHES, Rule
from fanblock.sheet.handguide_html import hand_guide_html
from fanblock.sheet.handguide_model import HandPanel
from fanblock.sheet.handguide_pages import hand_guide_pages
from fanblock.sheet.handguide_plan import hand_plan
from fanblock.sheet.handguide_tables import Table, say
from fanblock.sheet.handguide_words import before_you_begin, hand_sheet, paper_mm
from fanblock.sheet.ink import extent, ink_points
from fanblock.sheet.paper import A3, A4, LETTER, PROJECTOR
from fanblock.sheet.pdf import sheets
from fanblock.sheet.piece import clear_grain, printed
from fanblock.sheet.upright import upright
from fanblock.shipped import recipe_ids, wearer_names

WITHIN_MM = 1.0
"""What the guide promises."""

CUT_WITHIN_MM = 2.0
"""The cutting line lies beside a stitch line that is drawn by rounded numbers, at a rounded width, carried on by eye."""

CHORD_MM = 1.6
"""How far a chord between marked points may be off the one that is told: both points and the chord are rounded."""

GRAIN = "grain line (an arrow, up)"


def mm(text: str, inches: bool) -> float:
    """A printed length in millimetres: centimetres, or inches with a fraction."""
    if not inches:
        return 10.0 * float(text)
    return 25.4 * float(sum(Fraction(part) for part in text.split()))


def height(text: str, inches: bool) -> float:
    """A printed place: so much up, or right of the upright, or down or left of it, or nought."""
    amount, _, way = text.rpartition(" ") if text.endswith(("up", "down", "left")) else (text, "", "up")
    return mm(amount, inches) * (1.0 if way == "up" else -1.0)


def spline(points: Sequence[np.ndarray]) -> np.ndarray:
    """A lath held at points, drawn finely."""
    held = np.array(points)
    if len(held) == 2:
        return held
    at = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(held, axis=0).T))))
    return np.asarray(CubicSpline(at, held, bc_type="natural")(np.linspace(0.0, at[-1], 400)))


@dataclass(frozen=True)
class Drawn:
    """A panel as it was drawn by hand: its points, the lines of its edges and the others, by name."""

    points: dict[int, np.ndarray]
    outline: list[tuple[str, np.ndarray]] = field(default_factory=list)
    inner: list[tuple[str, np.ndarray]] = field(default_factory=list)

    @property
    def loop(self) -> np.ndarray:
        """The outline as one run."""
        return np.vstack([run for _, run in self.outline])


def drawn(points: Sequence[Sequence[str]], lines: Sequence[Sequence[str]], inches: bool) -> Drawn:
    """Draw a panel by the rows of its two tables, and by nothing else."""
    places = {int(row[0]): np.array([height(row[1], inches), height(row[2], inches)]) for row in points}
    found = Drawn(places)
    for name, ends, chord, curve, long, beyond in lines:
        start, end = (places[int(number)] for number in ends.split("–"))
        assert np.hypot(*(end - start)) == pytest.approx(mm(chord, inches), abs=CHORD_MM), name
        assert mm(chord, inches) <= mm(long, inches), name
        assert curve != "straight" or chord == long, name
        way = (end - start) / np.hypot(*(end - start))
        right = np.array([way[1], -way[0]])
        held = [start]
        for part in [] if curve == "straight" else curve.split("; "):
            if part.startswith("or swing it"):
                continue
            along, off = re.fullmatch(r"at (.+): (.+)", part).groups()
            amount, _, side = off.rpartition(" ") if off[-1].isalpha() else (off, "", "")
            held.append(start + mm(along, inches) * way + turned(side, way) * mm(amount, inches) * right)
        run = spline([*held, end])
        (found.outline if beyond else found.inner).append((name, run))
    return found


def turned(side: str, way: np.ndarray) -> float:
    """Whether a side that is told in words lies right of the chord (1) or left of it (-1)."""
    seen = {"": 1.0, "outward": 1.0, "inward": -1.0}
    if side in seen:
        return seen[side]
    across = {"down": way[0], "up": -way[0], "right": way[1], "left": -way[1]}[side]
    return 1.0 if across > 0.0 else -1.0


def stood(panel: Panel, level: str) -> tuple[np.ndarray, np.ndarray]:
    """How a panel is turned and moved to stand on the guide's two lines: worked out anew, from what the guide says."""
    start, end = panel.grain
    x, y = (end - start) / np.hypot(*(end - start))
    turn = np.array([[y, -x], [x, y]])
    loop = panel.loop() @ turn.T
    ends = [turn @ point for part in panel.levels.get(level, ()) for point in (part.start, part.end)]
    base = min(ends, key=lambda point: point[0])[1] if ends else loop[:, 1].min()
    return turn, -np.array([loop[:, 0].min(), base])


def astray(found: Drawn, panel: Panel, level: str = "waist") -> float:
    """How far the drawn outline and the panel's stand apart at most, either way."""
    turn, shift = stood(panel, level)
    true = panel.loop() @ turn.T + shift
    return apart_mm(np.vstack((true, true[:1])), found.loop)


PEOPLE = wearer_names()


@cache
def maybe(wearer: str, recipe: str) -> Pattern | None:
    """A shipped recipe for a demo wearer, or None where it is refused."""
    with suppress(GeometryError):
        return drafted(wearer, recipe)
    return None


@pytest.mark.parametrize("recipe", recipe_ids())
def test_the_printed_numbers_give_every_panel_back_within_a_millimetre(recipe: str) -> None:
    """All shipped recipes, all demo wearers, in centimetres and in inches: outline and every line within it."""
    patterns = [pattern for pattern in (maybe(wearer, recipe) for wearer in PEOPLE) if pattern is not None]
    assert patterns
    for pattern in patterns:
        inches = pattern.body.units == "in"
        for hand in hand_panels(pattern):
            panel = pattern.by_name[hand.panel.name]
            sheet = hand_sheet(hand, pattern)
            found = drawn(sheet.points.rows, sheet.lines.rows, inches)
            assert astray(found, panel, hand.level) <= WITHIN_MM, f"{pattern.title.wearer}, {panel.name}"
            assert worst_inner(found, hand) <= WITHIN_MM, f"{pattern.title.wearer}, {panel.name}"
            assert grain_astray(found, clear_grain(upright(panel)), hand.level) <= WITHIN_MM, (
                f"{pattern.title.wearer}, {panel.name}"
            )
            for table in sheet.tables:
                if table.title == "The cutting line":
                    off = cut_astray(found, table.rows, panel, hand.level, inches)
                    assert off <= CUT_WITHIN_MM, f"{pattern.title.wearer}, {panel.name}"


def grain_astray(found: Drawn, printed: Panel, level: str) -> float:
    """How far the foot or the top of the grain line comes to lie from where the sheets of the pattern print it."""
    _, shift = stood(printed, level)
    ((_, run),) = [line for line in found.inner if line[0] == GRAIN]
    assert len(run) == 2
    assert run[1][1] > run[0][1]
    assert printed.grain is not None
    return max(float(np.hypot(*(end + shift - told))) for end, told in zip(printed.grain, run, strict=True))


def cut_astray(found: Drawn, rows: Sequence[Sequence[str]], panel: Panel, level: str, inches: bool) -> float:
    """How far the cutting line that is drawn by its corners and widths and the panel's stand apart at most, either way."""
    places = [np.array([height(row[1], inches), height(row[2], inches)]) for row in rows]
    drawn_ring: list[np.ndarray] = []
    for at, row in enumerate(rows):
        ends = places[at], places[(at + 1) % len(rows)]
        told = re.fullmatch(r"(?:(.+) outside|on the stitch line): (.+)", row[3])
        width = mm(told[1], inches) if told is not None and told[1] else 0.0
        drawn_ring.append(beside(found, re.sub(r" \(.+\)$", "", told[2]), width, *ends) if told else np.array(ends))
    turn, shift = stood(panel, level)
    assert panel.cut_line is not None
    true = panel.cut_line.points @ turn.T + shift
    return apart_mm(np.vstack((true, true[:1])), np.vstack(drawn_ring))


def beside(found: Drawn, edge: str, width: float, start: np.ndarray, end: np.ndarray) -> np.ndarray:
    """The line so far outside a drawn edge from one corner of the cutting line to the next: the edge is carried on straight,
    and the width set off square to it at many places.
    """
    whole = [run for name, run in found.outline if re.sub(r" \(.+\)$", "", name) == edge]
    lines = []
    for run in [*whole, np.vstack(whole)]:
        first, last = run[0] - run[1], run[-1] - run[-2]
        carried = [
            run[0] + 4.0 * width * first / np.hypot(*first),
            *run,
            run[-1] + 4.0 * width * last / np.hypot(*last),
        ]
        at = shapely.get_coordinates(shapely.segmentize(shapely.LineString(carried if width else run), 1.0))
        at = at[np.concatenate(([True], np.hypot(*np.diff(at, axis=0).T) > 1e-6))]
        ways = np.gradient(at, axis=0)
        ways /= np.hypot(*ways.T)[:, None]
        lines.append(shapely.LineString(at + width * np.column_stack((ways[:, 1], -ways[:, 0]))))
    ends = [shapely.Point(place) for place in (start, end)]
    line = min(lines, key=lambda one: sum(one.distance(place) for place in ends))
    low, high = (line.project(place) for place in ends)
    middle = np.array(shapely.ops.substring(line, low, high).coords)[1:-1]
    return np.vstack((start, middle, end)) if len(middle) else np.array([start, end])


def worst_inner(found: Drawn, hand: HandPanel) -> float:
    """How far any point of a line within a panel comes to lie from where it is, and any that is drawn from where one is."""
    panel = hand.panel
    true = [part.points for parts in panel.levels.values() for part in parts]
    true += [np.array([slit.start, slit.end]) for slit in panel.slits]
    true += [mark.curve.points for mark in panel.marks] + [channel.line.points for channel in panel.channels]
    runs = [run for name, run in found.inner if name != GRAIN]
    if not true:
        assert not runs
        return 0.0
    return max(farthest(true, runs), farthest(runs, true))


def farthest(runs: Sequence[np.ndarray], others: Sequence[np.ndarray]) -> float:
    """The greatest distance from a point along some lines to the nearest of the others."""
    there = shapely.MultiLineString(list(others))
    dense = [shapely.segmentize(shapely.LineString(run), 2.0) for run in runs]
    return max(float(shapely.distance(shapely.points(shapely.get_coordinates(line)), there).max()) for line in dense)


@pytest.mark.parametrize("recipe", ["stays-five-panels", "gown-bodice-1770s", "circular-peplum"])
def test_the_grid_gives_the_outline_too(recipe: str) -> None:
    """Every crossing that the tables give lies on the outline, and every line of the grid that meets the panel is there."""
    for wearer in ("ferrywoman", "innkeeper"):
        pattern = drafted(wearer, recipe)
        inches = pattern.body.units == "in"
        step = 25.4 if inches else 20.0
        for hand in hand_panels(pattern):
            loop = hand.panel.loop()
            outline = shapely.LineString(np.vstack((loop, loop[:1])))
            tables = {table.title: table for table in hand_sheet(hand, pattern).tables}
            for axis, title in ((1, "across"), (0, "upward")):
                rows = tables[f"The outline on the grid: {title}"].rows
                seen = []
                for at, runs in rows:
                    fixed = height(at, inches) if axis == 1 else mm(at, inches)
                    seen.append(round(fixed / step))
                    for value in (end for run in runs.split(", ") for end in run.split(" – ")):
                        free = mm(value, inches) if axis == 1 else height(value, inches)
                        place = (free, fixed) if axis == 1 else (fixed, free)
                        assert outline.distance(shapely.Point(place)) <= 0.5
                low, high = loop[:, axis].min() / step, loop[:, axis].max() / step
                inner = [
                    n for n in range(-40, 80) if low + 0.02 < n < high - 0.02
                ]  # one that grazes may be there or not
                assert [n for n in sorted(seen) if low + 0.02 < n < high - 0.02] == inner


@pytest.mark.parametrize(
    "recipe", ["stays-five-panels", "stays-front-lacing", "doublet-bodice-1570s", "falling-collar"]
)
def test_every_panel_has_its_check_between_corners(recipe: str) -> None:
    """A diagonal is the straight length between two numbered corners; where two are given, they cross."""
    for hand in hand_panels(drafted("innkeeper", recipe)):
        assert 1 <= len(hand.diagonals) <= 2
        lines = []
        for check in hand.diagonals:
            ends = [hand.point(number).place for number in (check.first, check.last)]
            assert float(np.hypot(*(ends[1] - ends[0]))) == pytest.approx(check.length_mm)
            lines.append(shapely.LineString(ends))
        assert len(lines) == 1 or lines[0].crosses(lines[1])


def test_seams_stand_beside_their_mates() -> None:
    """Both sides of every seam are told above and below the waist, in the same numbers on both sheets."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    told: dict[str, set[tuple[str, str]]] = {}
    for hand in hand_panels(pattern):
        tables = {table.title: table for table in hand_sheet(hand, pattern).tables}
        for letter, _, own, _, mate in tables["Seams and their mates"].rows:
            assert own == mate
            told.setdefault(letter, set()).add((own, mate))
    assert set(told) == {seam.letter for seam in pattern.seams}
    assert all(len(lengths) == 1 for lengths in told.values())
    assert any("+" in own for lengths in told.values() for own, _ in lengths)


def test_notches_are_told_from_the_upper_end_of_their_edge() -> None:
    """Walked along the drawn edge from the point named, the tape comes to the notch."""
    pattern = drafted("innkeeper", "stays-five-panels")
    for hand in hand_panels(pattern):
        for told, notch in zip(hand.notches, hand.panel.notches, strict=True):
            edge = hand.panel.edge(notch.edge)
            start = hand.point(told.start).place
            top = max((edge.curve.start, edge.curve.end), key=lambda end: end[1])
            assert np.hypot(*(start - top)) <= 0.5
            down = edge.curve if np.allclose(edge.curve.start, top) else edge.curve.reversed()
            assert down.at(told.at_mm) == pytest.approx(notch.point, abs=0.01)
            assert told.ticks == (0 if notch.kind == "waist" else notch.count)


@pytest.mark.parametrize("recipe", ["cape-collar", "circular-peplum", "falling-collar"])
def test_arcs_may_be_swung_from_a_pin(recipe: str) -> None:
    """The edges of a band are arcs about one pin: told by it, every point of them is as far off as the string is long."""
    for hand in hand_panels(drafted("innkeeper", recipe)):
        for name in ("outer edge", "inner edge"):
            swings = {line.swing for line in hand.outline if line.of == name}
            (swing,) = swings
            assert swing is not None
            far = np.hypot(*(hand.panel.edge(name).curve.points - (swing.x_mm, swing.y_mm)).T)
            assert np.abs(far - swing.string_mm).max() <= WITHIN_MM


def test_no_length_can_be_read_two_ways() -> None:
    """In inches a side is never told as “in”; steps say where the grain line stands and how many corners the cut has."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    for hand in hand_panels(pattern):
        sheet = hand_sheet(hand, pattern)
        assert not any(re.search(r"\d in\b", cell) for row in sheet.lines.rows for cell in row)
        (grain,) = [row for row in sheet.lines.rows if row[0] == GRAIN]
        foot, top = grain[1].split("–")
        assert any(
            step.startswith(f"Draw the grain line, an arrow from point {foot} up to point {top}: ")
            for step in sheet.steps
        )
        assert not any("upright is the grain" in step for step in sheet.steps)
        tables = {table.title: table for table in sheet.tables}
        assert any(f"c1 to c{len(tables['The cutting line'].rows)}" in step for step in sheet.steps)


def test_notches_say_how_they_are_drawn() -> None:
    """A waist bar tells its length either side, ticks theirs, and how far above the bar they stand: their difference."""
    pattern = drafted("pilot", "stays-five-panels")
    for hand in hand_panels(pattern):
        rows = {table.title: table for table in hand_sheet(hand, pattern).tables}["Notches"].rows
        bars = {row[0]: float(row[2]) for row in rows if row[4].startswith("waist bar: 0.9 inward")}
        for edge, _, along, above, what in rows:
            if "tick" in what:
                assert re.search(r"0\.\d+ (in|out)ward", what)
                assert ("0.25 apart" in what) is not what.startswith("1 tick,")
                assert height(above, inches=False) == pytest.approx(10.0 * (bars[edge] - float(along)), abs=0.75)


class Reader(HTMLParser):
    """The tables of each panel's part of the page, by their headings, as texts."""

    def __init__(self) -> None:
        super().__init__()
        self.panels: dict[str, dict[str, list[list[str]]]] = {}
        self.panel = self.head = ""
        self.into = ""
        self.row: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note where a panel, a heading, a row or a cell begins."""
        if tag == "section" and dict(attrs).get("id", ""):
            self.panel = str(dict(attrs)["id"])
            self.panels[self.panel] = {}
        self.into = tag
        if tag == "tr":
            self.row = []
        if tag == "td":
            self.row.append("")

    def handle_endtag(self, tag: str) -> None:
        """Keep a row that is done."""
        self.into = ""
        if tag == "tr" and self.row and self.panel:
            self.panels[self.panel].setdefault(self.head, []).append(self.row)

    def handle_data(self, data: str) -> None:
        """Take the text of headings and cells."""
        if self.into == "h3":
            self.head = data
        elif self.into == "td":
            self.row[-1] += data


@pytest.mark.parametrize(("wearer", "recipe"), [("ferrywoman", "stays-five-panels"), ("pilot", "gown-bodice-1770s")])
def test_the_page_alone_suffices(wearer: str, recipe: str) -> None:
    """Whoever has nothing but guide.html draws every panel within a millimetre."""
    pattern = drafted(wearer, recipe)
    reader = Reader()
    reader.feed(hand_guide_html(pattern))
    inches = pattern.body.units == "in"
    assert ("all lengths" in " ".join(before_you_begin(pattern, hand_panels(pattern))).lower()) is True
    for piece in printed(pattern.panels, pattern):
        tables = reader.panels[f"piece-{piece.panel.number}"]
        found = drawn(tables["Points"], tables["Lines"], inches)
        assert astray(found, pattern.by_name[piece.panel.name]) <= WITHIN_MM
        assert grain_astray(found, piece.panel, "waist") <= WITHIN_MM


@pytest.mark.parametrize("paper", [A4, LETTER, A3], ids=lambda paper: paper.name)
def test_the_printed_pages_say_the_same(paper: object) -> None:
    """Every cell of every table stands on the pages, each page says what it belongs to, nothing lies in the margin."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    pages = hand_guide_pages(pattern, paper)
    assert all((page.width_mm, page.height_mm) == (paper.width_mm, paper.height_mm) for page in pages)
    for page in pages:
        box = extent(ink_points(page.groups))
        assert min(box.left, box.bottom) >= paper.margin_mm - 0.5
        assert max(box.right - paper.width_mm, box.top - paper.height_mm) <= 0.5 - paper.margin_mm
    document = pypdfium2.PdfDocument(sheets(pages))
    said = [" ".join(page.get_textpage().get_text_bounded().split()) for page in document]
    own = [text for text in said if "all lengths in inches" in text]
    assert all("Half-boned stays, five panels a side · ferrywoman · draft 1 · code" in text for text in own)
    every = " ".join(said)
    for hand in hand_panels(pattern):
        sheet = hand_sheet(hand, pattern)
        for row in (*sheet.points.rows, *sheet.lines.rows, *(row for table in sheet.tables for row in table.rows)):
            assert all(cell in every for cell in row)


@pytest.mark.parametrize(
    "recipe", ["stays-five-panels", "stays-1740s-fully-boned", "ruffle-strip", "gown-bodice-1770s"]
)
def test_a_plan_names_every_point_once_and_covers_none_of_its_words(recipe: str) -> None:
    """Each number stands once beside its point, within the plan, and no two words lie over one another."""
    for hand in hand_panels(drafted("pilot", recipe)):
        plan = hand_plan(hand, 95.0, 140.0)
        words = [item for group in plan.groups for item in group.items if hasattr(item, "text")]
        numbers = [item.text for item in words if item.bold and item.text.isdigit()]
        assert sorted(numbers, key=int) == [str(point.number) for point in hand.points]
        box = extent(ink_points(plan.groups))
        assert box.left >= -0.5
        assert box.bottom >= -0.5
        assert box.right <= plan.width_mm + 0.5
        assert box.top <= plan.height_mm + 0.5
        if len(hand.points) <= 14:
            assert not overlapping([item for item in words if item.color == "#000000"])


def overlapping(words: Sequence[object]) -> list[tuple[str, str]]:
    """Pairs of level words that lie over one another."""
    from fanblock.sheet.font import width_mm

    boxes = []
    for item in words:
        if item.angle_deg:
            continue
        wide = width_mm(item.text, item.size_mm, item.bold)
        boxes.append(
            (item.text, shapely.box(item.x - 0.5 * wide, item.y, item.x + 0.5 * wide, item.y + 0.7 * item.size_mm))
        )
    return [
        (one, other)
        for at, (one, box) in enumerate(boxes)
        for other, second in boxes[at + 1 :]
        if box.intersection(second).area > 0.3
    ]


def added(name: str = "strap") -> Panel:
    """A piece of its own: a strip 30 by 200 mm, slanting, with its grain along it; it has no levels."""
    way, side = np.array([0.6, 0.8]), np.array([-0.8, 0.6])
    corners = [np.zeros(2), -30.0 * side, 200.0 * way - 30.0 * side, 200.0 * way]
    sides = zip("abcd", corners, [*corners[1:], corners[0]], strict=True)
    edges = tuple(Edge(f"edge {letter}", FREE, Curve(frozen([start, end]))) for letter, start, end in sides)
    grain = (frozen(20.0 * way - 15.0 * side), frozen(180.0 * way - 15.0 * side))
    return Panel(name, 4, edges, grain=grain, cuts=(("outer", 2),), added=True)


def test_a_piece_of_its_own_stands_on_its_lowest_point() -> None:
    """Without a waist the level runs through the lowest point; turned by its grain, the slanting strip stands upright."""
    hand = hand_panel(added(), IN_CENTIMETRES)
    places = {point.number: (point.x_mm, point.y_mm) for point in hand.points}
    assert places == {
        1: (0.0, 200.0),
        2: (0.0, 0.0),
        3: (30.0, 0.0),
        4: (30.0, 200.0),
        5: (15.0, 20.0),
        6: (15.0, 180.0),
    }
    pattern = replace(sample(), panels=(*sample().panels, added()))
    sheet = hand_sheet(hand, pattern)
    assert sheet.steps[0] == (
        "Take paper 7 wide and 24 high. Rule the upright 2 from its left edge and, square to it, the base line 2 from its "
        "lower edge: on which this piece stands."
    )
    assert not any("toward center front" in step for step in sheet.steps)


@pytest.mark.parametrize(
    ("length", "rule", "text"),
    [
        (293.4, IN_CENTIMETRES, "29.35"),
        (290.0, IN_CENTIMETRES, "29"),
        (0.2, IN_CENTIMETRES, "0"),
        (-12.5, IN_CENTIMETRES, "-1.25"),
        (25.4, IN_INCHES, "1"),
        (293.4, IN_INCHES, "11 9/16"),
        (0.9, IN_INCHES, "1/32"),
        (0.3, IN_INCHES, "0"),
        (-38.1, IN_INCHES, "-1 1/2"),
    ],
)
def test_lengths_are_said_as_a_ruler_shows_them(length: float, rule: Rule, text: str) -> None:
    """Centimetres to half a millimetre without idle noughts; inches in the shortest fraction of thirty-seconds."""
    assert say(length, rule) == text


def test_paper_holds_the_piece_with_its_allowances() -> None:
    """The paper is at least a square of the grid larger all round, its upright and level so far in that all fits."""
    for hand in hand_panels(drafted("ferrywoman", "stays-five-panels")):
        wide, tall, from_left, from_low = paper_mm(hand)
        (left, low), (right, high) = hand.panel.cut_line.points.min(axis=0), hand.panel.cut_line.points.max(axis=0)
        assert left + from_left >= 25.4
        assert low + from_low >= 25.4
        assert wide - (right + from_left) >= 25.4 - 12.7
        assert tall - (high + from_low) >= 25.4 - 12.7


def test_a_hidden_corner_gets_a_number() -> None:
    """An edge that has a corner in it is drawn in two lines that meet at a numbered point."""
    panel = added()
    corner = panel.edges[1].curve.at(100.0) + np.array([12.0, 0.0])
    bent = Edge("edge b", FREE, Curve(frozen([panel.edges[1].curve.start, corner, panel.edges[1].curve.end])))
    hand = hand_panel(replace(panel, edges=(panel.edges[0], bent, *panel.edges[2:])), IN_CENTIMETRES)
    assert [line.of for line in hand.outline].count("edge b") == 2
    assert any(point.says == "on the edge b" for point in hand.points)


def test_eyelets_are_told_for_both_halves_and_for_one() -> None:
    """Every hole has its place, in order of their numbers; one that only the other half has says so."""
    pattern = sample()
    panel = pattern.panels[-1]
    edge = panel.edge("lacing edge")
    holes = ((12, BOTH), (2, RIGHT), (1, BOTH), (2, LEFT))
    eyelets = tuple(
        Eyelet(edge.name, half, number, 20.0 * at, frozen(edge.curve.at(20.0 * at)), 5.0)
        for at, (number, half) in enumerate(holes, start=1)
    )
    laced = replace(panel, eyelets=eyelets)
    other = replace(pattern, panels=(*pattern.panels[:-1], laced))
    hand = hand_panels(other)[-1]
    (table,) = (table for table in hand_sheet(hand, other).tables if table.title == "Eyelets")
    assert [row[:2] for row in table.rows] == [
        ("1", "both halves"),
        ("2", "left half"),
        ("2", "right half"),
        ("12", "both halves"),
    ]
    assert len(rows_of(table)) == len(holes)


def rows_of(table: Table) -> Iterator[tuple[str, ...]] | tuple[tuple[str, ...], ...]:
    """The rows of a table, each as long as its head."""
    assert all(len(row) == len(table.head) for row in table.rows)
    return table.rows


def test_a_pattern_that_does_not_add_up_says_so_first() -> None:
    """Nobody shall draw by hand, for an evening, what does not sew up."""
    pattern = sample(sound=False)
    assert before_you_begin(pattern, hand_panels(pattern))[0] == "NOT SOUND: do not cut cloth by it. See the report."


HOSTILE = "</section><script>alert(1)</script>"


def test_any_name_stays_text() -> None:
    """Markup in a name comes out as the letters it is made of."""
    page = hand_guide_html(sample(hostile=HOSTILE))
    assert "<script" not in page
    assert "&lt;script&gt;" in page
    assert "http" not in page.replace("http://www.w3.org/2000/svg", "")


def test_the_same_pattern_gives_the_same_guide() -> None:
    """Two runs write the same page and the same PDF."""
    pattern = drafted("innkeeper", "stays-three-panels")
    assert hand_guide_html(pattern) == hand_guide_html(pattern)
    assert sheets(hand_guide_pages(pattern, A4)) == sheets(hand_guide_pages(pattern, A4))


def test_the_guide_is_among_the_files() -> None:
    """The page always, with the pictures; the pages to print when asked for, on home papers only."""
    pattern = sample()

    def names(**options: bool) -> list[str]:
        return [made.name for made in pattern_bundle(pattern, [PROJECTOR], **options).files if "guide" in made.name]

    assert names() == ["guide.html"]
    assert names(pictures=False) == []
    assert names(pictures=False, guides=True) == ["guide.html", "guide-a4.pdf", "guide-letter.pdf"]
    asked = pattern_bundle(pattern, [A3, PROJECTOR], pictures=False, guides=True).files
    assert [made.name for made in asked if "guide" in made.name] == ["guide.html", "guide-a3.pdf"]
