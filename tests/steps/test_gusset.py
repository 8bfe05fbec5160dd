"""``gusset``: a slit, and a piece let into it whose sides are those of the slit; or a gore let into a seam."""

from __future__ import annotations

import json

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from tests.samples import GAP, RED, SOME, THREE, USUAL, failed, made, recipe, separate, side_back, side_front, wearer

from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.problems import FanblockError
from fanblock.sheet.json import pattern_json
from fanblock.sheet.sewing import joining

TOP = """top edge:
      through:
        - [center front, bust + 40 mm]
        - [30%, bust + 40 mm]
        - [45%, underarm - 25 mm]
        - [58%, underarm - 25 mm]
        - [center back, bust + 70 mm]"""
HEM = "hem: {height: waist - 90 mm}"
SEAM = "seam: {name: side seam, through: [[50%, top edge], [50%, waist], [50%, hem]], share: 1, below waist: open}"
TWO = separate("front", "back")


def let_in(*steps: str, name: str = "ordinary", makes: str = "stays") -> Pattern:
    """Return stays of a front and a back with these steps on their panels; the first of them is step 7."""
    return made(recipe(GAP, TOP, HEM, SEAM, RED, TWO, *steps, makes=makes), name)


def gusset(**options: str) -> str:
    """Return a gusset step: 40 mm let into a slit of the front that is 100 mm long."""
    chosen = {
        "name": "bust gusset",
        "panel": "front",
        "edge": "top edge",
        "at": "40%",
        "depth": "100 mm",
        "width": "40 mm",
    }
    chosen.update(options)
    words = ", ".join(f"{key}: {value}" for key, value in chosen.items() if value)
    return f"gusset: {{{words.replace('_', ' ')}}}"


def line(pattern: Pattern, panel: str, edge: str) -> LineString:
    """Return an edge as another library has it."""
    return LineString(pattern.by_name[panel].edge(edge).curve.points)


def test_a_plain_gusset_by_hand() -> None:
    """A slit 100 mm deep with 6 mm turned in either side at the top: its sides are √(100² + 6²) mm, and so are the piece's."""
    pattern = let_in(gusset())
    for side in ("front side", "back side"):
        slit, piece = line(pattern, "front", f"bust gusset {side}"), line(pattern, "bust gusset", side)
        assert slit.length == pytest.approx(np.hypot(100.0, 6.0), abs=0.3)
        assert piece.length == pytest.approx(slit.length, abs=1e-9)
    piece = pattern.by_name["bust gusset"]
    corners = piece.edge("top edge").curve.points[[0, -1]]
    mouth = [pattern.by_name["front"].edge(f"bust gusset {side}").curve for side in ("back side", "front side")]
    notch = np.hypot(*(mouth[0].start - mouth[1].end))
    assert notch == pytest.approx(12.0, abs=0.02)
    assert np.hypot(*(corners[0] - corners[1])) == pytest.approx(40.0 + notch, abs=1e-6)
    assert failed(pattern) == []


def test_the_rule_for_two_gussets_a_side() -> None:
    """Bust 91, underbust 78 cm: each of four is a quarter of that and 0.75 cm wide, 4.0 at the bust and 6.2 at the top.

    The rule and both numbers from memory of the trade; the 0.75 cm are what the slit turns in.
    """
    body = wearer(910.0, 730.0, 159.5, underbust=780.0, underbust_height=80.0, **{**USUAL, "raised": 159.5})
    top = TOP.replace("- [30%, bust + 40 mm]", "- [10%, bust + 35.5 mm]\n        - [26%, bust + 35.5 mm]")
    top = top.replace("[center front, bust + 40 mm]", "[center front, bust + 35.5 mm]")
    step = (
        "gusset: {name: bust gusset, panel: front, through: [[18%, top edge], [18%, underbust + 15 mm]], "
        "width: 25% of bust - 25% of underbust, wide at: bust, turning: 5.8 mm}"
    )
    pattern = draft_pattern(body, recipe(GAP, top, HEM, SEAM, RED, TWO, step, makes="stays"))
    piece = pattern.by_name["bust gusset"]
    sides = [piece.edge("back side").curve, piece.edge("front side").curve.reversed()]
    assert [side.length_mm for side in sides] == pytest.approx([100.0, 100.0], abs=2.0)
    at_bust = [side.at(64.5) for side in sides]
    assert np.hypot(*(at_bust[0] - at_bust[1])) == pytest.approx(40.0, abs=0.3)
    assert np.hypot(*(sides[0].end - sides[1].end)) == pytest.approx(62.0, abs=1.2)
    told = next(finding for finding in pattern.findings if finding.code == "girth-let-in-bust")
    assert told.number == pytest.approx(2.0 * (910.0 - 780.0) / 4.0, abs=0.01)
    assert told.says.startswith("bust gusset of both halves add 65.0 mm at the bust: with them it is ")


@settings(max_examples=25)
@given(
    st.floats(0.2, 0.6),
    st.floats(60.0, 110.0),
    st.floats(15.0, 60.0),
    st.floats(3.0, 9.0),
    st.floats(0.0, 9.0),
    st.sampled_from(SOME),
)
def test_what_holds_for_every_gusset(
    at: float, depth: float, width: float, turning: float, swell: float, name: str
) -> None:
    """Sides as long as the slit's, all sums right, the edge smooth across it, and so much wider as was asked for."""
    step = gusset(
        at=f"{at:.1%}",
        depth=f"{depth:.1f} mm",
        width=f"{width:.1f} mm",
        turning=f"{turning:.1f} mm",
        swell=f"{swell:.1f} mm",
    )
    pattern = let_in(step, name=name)
    assert failed(pattern) == []
    for side in ("front side", "back side"):
        assert line(pattern, "bust gusset", side).length == pytest.approx(
            line(pattern, "front", f"bust gusset {side}").length, abs=1e-6
        )
    assert Polygon(pattern.by_name["bust gusset"].loop()).is_valid
    assert Polygon(pattern.by_name["front"].loop()).is_valid
    joins = [finding for finding in pattern.findings if finding.code.startswith("join-") and "top edge" in finding.says]
    assert len(joins) == 3  # across the side seam and both sides of the gusset
    assert max(finding.number for finding in joins) < 0.5


def test_the_sum_at_the_bust_with_its_gusset() -> None:
    """Panels, gap and what the slit turned in make up the block; the piece beside them is the slit's width and 40 mm."""
    pattern = let_in(gusset(wide_at="bust"))
    bust = next(girth for girth in pattern.girths if girth.name == "bust")
    assert dict(bust.let_in)["bust gusset"] == pytest.approx(40.0 + dict(bust.takes)["bust gusset slit"], abs=0.01)
    assert bust.let_in_mm - bust.turned_in_mm == pytest.approx(40.0, abs=0.01)
    parts = bust.parts_mm + bust.open_mm + bust.gap_mm + bust.takes_mm
    assert parts == pytest.approx(bust.block_mm, abs=0.01)
    data = json.loads(pattern_json(pattern))
    level = next(row for row in data["girths"] if row["level"] == "bust")
    assert level["let_in"]["bust gusset"] == pytest.approx(bust.let_in_mm, abs=1e-3)
    assert [panel["let_in"] for panel in data["panels"]] == [False, False, True]


def test_letters_and_ticks_match_piece_and_slit() -> None:
    """Either side of a gusset has a letter of its own, with like ticks at one distance from the point on both."""
    pattern = let_in(gusset())
    seams = {seam.name: seam for seam in pattern.seams}
    letters = [seams[f"bust gusset {side}"].letter for side in ("front", "back")]
    assert letters == ["B", "C"]
    for seam in (seams["bust gusset front"], seams["bust gusset back"]):
        counts = {
            notch.count
            for end in (seam.front, seam.back)
            for notch in pattern.by_name[end.panel].notches
            if notch.edge == end.edge
        }
        assert len(counts) == 1


def test_the_panel_is_cut_out_whole_and_slit_afterwards() -> None:
    """The cut line runs over the slit's mouth; the slit itself is one line, reinforced at its end."""
    front = let_in(gusset(), "allowances: {top: 5 mm}").by_name["front"]
    assert front.cut_line is not None
    (slit,) = front.slits
    assert slit.name == "bust gusset"
    sides = [front.edge(f"bust gusset {side}").curve for side in ("back side", "front side")]
    assert slit.start == pytest.approx(sides[0].end)
    assert slit.start == pytest.approx(sides[1].start)
    turned_in = Polygon(np.vstack((sides[0].points, sides[1].points)))
    assert Polygon(front.cut_line.points).buffer(0.01).covers(turned_in)
    assert turned_in.area == pytest.approx(0.5 * 12.0 * 100.0, rel=0.01)


def test_a_hip_gore_in_a_slit_from_the_hem() -> None:
    """Its point above, its outer edge goes on with the hem; it adds nothing at the waist."""
    pattern = let_in(gusset(name="hip gore", edge="hem", at="60%", depth="70 mm", width="50 mm"))
    assert failed(pattern) == []
    gore = pattern.by_name["hip gore"]
    assert [edge.kind for edge in gore.edges] == ["seam", "hem", "seam"]
    assert gore.edges[0].curve.start[1] > gore.edges[1].curve.points[:, 1].max()
    assert pattern.girths[0].let_in_mm == 0.0


def test_a_gore_in_a_seam_that_is_open_below_the_waist() -> None:
    """The seam ends at the waist; its open sides below become seams with the gore's, and tabs round no corner there."""
    pattern = let_in(
        "gusset: {name: hip gore, in seam: side seam, width: 60 mm}",
        "tabs: {slits: {front: 1, back: 1}, corner: 10 mm}",
    )
    assert failed(pattern) == []
    gore = pattern.by_name["hip gore"]
    for panel, side in (("front", "front side"), ("back", "back side")):
        edge = pattern.by_name[panel].edge("side seam below waist")
        assert edge.kind == "seam"
        assert edge.mate is not None
        assert (edge.mate.panel, edge.mate.edge) == ("hip gore", side)
        assert line(pattern, "hip gore", side).length == pytest.approx(line(pattern, panel, edge.name).length, abs=1e-9)
    ends = gore.edge("hem").curve.points[[0, -1]]
    assert np.hypot(*(ends[0] - ends[1])) == pytest.approx(60.0, abs=1e-6)
    assert next(note.says for note in pattern.notes if note.kind == "sewing") == (
        "Let piece 3 (hip gore) into the seam between piece 1 (front) and piece 2 (back): sew that seam down to the waist bar, "
        "then the piece's two sides, each from the bar down to the lower edge."
    )


def test_gussets_are_set_in_first() -> None:
    """Pieces go into slits before the panels are joined; the note says how (common practice, no source)."""
    says = joining(let_in(gusset()))
    joins = [text[: text.index(":")] for text in says if text.startswith("Join ") and ":" in text]
    assert joins[:3] == ["Join B to B", "Join C to C", "Join A to A"]
    first = next(at for at, text in enumerate(says) if text.startswith("Join B to B"))
    assert says[first - 1] == (
        "Let piece 3 (bust gusset) into the slit of piece 1 (front): work a bar at the slit's end, cut up to it, turn the "
        "edges in along the stitch lines, and sew the piece in from its point outward; at the edge it is 52.5 mm wide."
    )


def test_two_gussets_on_one_edge_number_its_parts_from_the_front() -> None:
    """The edge is in three parts; where the second stands is counted along all of it."""
    pattern = let_in(gusset(name="inner", at="30%"), gusset(name="outer", at="70%"))
    assert failed(pattern) == []
    names = [edge.name for edge in pattern.by_name["front"].edges if edge.kind == "top"]
    assert names == ["top edge 3", "top edge 2", "top edge 1"]
    assert [name for name, _ in pattern.girths[-1].let_in] == ["inner", "outer"]


def test_swelling_sides_make_a_cup() -> None:
    """Sides that swell by 8 mm stand 8 mm off their chord half way, and are as long as before."""
    piece = let_in(gusset(swell="8 mm")).by_name["bust gusset"]
    curve = piece.edge("back side").curve
    chord = LineString([curve.start, curve.end])
    assert max(chord.distance(point) for point in LineString(curve.points).segmentize(0.5).boundary.geoms) < 1e-6
    middle = LineString([curve.at(0.5 * curve.length_mm), curve.at(0.5 * curve.length_mm)])
    assert chord.distance(middle) == pytest.approx(8.0, abs=0.05)


def test_an_edge_that_rises() -> None:
    """The outer edge of a piece that rises by 6 mm holds 6 x width x 8/15 more (the mean of 16 t² (1 - t)²)."""
    plain, risen = (let_in(gusset(rise=rise)).by_name["bust gusset"] for rise in ("", "6 mm"))
    more = Polygon(risen.loop()).area - Polygon(plain.loop()).area
    width = np.hypot(*np.diff(plain.edge("top edge").curve.points[[0, -1]], axis=0)[0])
    assert more == pytest.approx(6.0 * width * 8.0 / 15.0, rel=0.01)


BAD = {
    "an end off the panel": (
        gusset(depth="400 mm"),
        "“bust gusset” › on this body the slit's end lies off panel “front”. Make it shorter, or move it.",
    ),
    "too short": (
        gusset(depth="15 mm"),
        "“bust gusset” › on this body the slit is 15.0 mm long; 20.0 mm is the least. Make it longer.",
    ),
    "near a seam": (
        gusset(at="97%"),
        "“bust gusset” › on this body the slit ends 3.1 mm from side seam; it needs 12.0 mm. "
        "Make it shorter, or move it away.",
    ),
    "at a corner": (
        gusset(at="1%"),
        "“bust gusset” › on this body the slit ends 2.1 mm from center front; it needs 12.0 mm. "
        "Make it shorter, or move it away.",
    ),
    "wider than long": (
        gusset(width="180 mm"),
        "“bust gusset” › a piece 192.0 mm wide cannot be let in with sides 99.9 mm long. "
        "Make it narrower, or its sides longer.",
    ),
    "nothing to let in": (
        gusset(width="10% of waist - 10% of bust"),
        "“bust gusset” › on this body its width comes to -20.0 mm: there is nothing to let in. "
        "Give it a width of its own, or leave it out.",
    ),
    "sides that swell to a balloon": (
        gusset(swell="50 mm"),
        "“bust gusset” › its sides, 99.9 mm long, cannot swell by 50.0 mm. Let them swell less.",
    ),
    "hardly turned in": (
        gusset(turning="1 mm"),
        "turning › got 1.0 mm; 2.0 mm is the least that holds. Turn in more.",
    ),
    "wide at a level off the slit": (
        gusset(wide_at="waist"),
        "“bust gusset” › the level its width is asked at does not pass its slit on this body. "
        "Make the slit longer, or ask elsewhere.",
    ),
    "an edge that is not there": (
        gusset(edge="neckline"),
        "“bust gusset” › edge › panel “front” has no free edge “neckline”. Legal here: hem, top edge.",
    ),
    "a slit to another edge": (
        gusset(edge="", at="", depth="", through="[[20%, hem], [20%, waist]]"),
        None,
    ),
}


@pytest.mark.parametrize("slip", [slip for slip, (_, says) in BAD.items() if says is not None])
def test_gussets_that_cannot_be_let_in_are_refused(slip: str) -> None:
    """What is wrong on this body, and what to do."""
    step, says = BAD[slip]
    with pytest.raises(FanblockError) as caught:
        let_in(step)
    assert str(caught.value).partition(": ")[2] == f"step 7 (gusset) › {says}"


def test_a_slit_may_be_drawn_from_the_hem_by_places() -> None:
    """Two places, the first at the edge."""
    step, _ = BAD["a slit to another edge"]
    assert failed(let_in(step.replace("[20%, waist]", "[20%, waist - 20 mm]"))) == []


def test_slits_that_cross_are_refused() -> None:
    """Two slits from one edge to one place."""
    with pytest.raises(FanblockError) as caught:
        let_in(
            gusset(name="one", edge="", at="", depth="", through="[[14%, top edge], [20%, 40%]]"),
            gusset(name="two", edge="", at="", depth="", through="[[22%, top edge], [13%, 20%]]"),
        )
    assert str(caught.value).partition(": ")[2] == (
        "step 8 (gusset) › “two” › on this body it crosses the slit for “one”. Move one of the two."
    )


def test_an_edge_that_is_sewn_already_is_not_slit() -> None:
    """A strap sits there."""
    top = (
        "top edge: {edges: [{name: front top, kind: top, through: [[center front, bust + 40 mm], [15%, bust + 40 mm]]}, "
        "{name: seat, kind: top, through: [[30%, bust + 40 mm]], straight: yes}, "
        "{name: armhole, kind: armhole, through: [[45%, underarm - 25 mm], [center back, bust + 70 mm]]}]}"
    )
    steps = ("strap: {from: seat, length: 200 mm}", gusset(edge="seat", at="50%"))
    with pytest.raises(FanblockError) as caught:
        made(recipe(GAP, top, HEM, SEAM, RED, TWO, *steps))
    assert str(caught.value).partition(": ")[2] == (
        "step 8 (gusset) › “bust gusset” › seat of panel “front” is sewn to something already. "
        "Put this step before the one that sews to it."
    )


def test_a_slit_keeps_off_darts_and_tabs() -> None:
    """A dart from the edge in its way, a slit between two tabs in its way."""
    dart = "dart: {name: front dart, through: [[20%, top edge], [20%, 60%]], take: 12 mm}"
    with pytest.raises(FanblockError) as caught:
        made(
            recipe(
                GAP,
                TOP,
                HEM,
                SEAM,
                dart,
                RED,
                TWO,
                gusset(edge="", at="", depth="", through="[[14%, top edge], [24%, 50%]]"),
            )
        )
    assert str(caught.value).partition(": ")[2] == (
        "step 8 (gusset) › “bust gusset” › on this body it crosses the dart “front dart”. Move one of the two."
    )
    with pytest.raises(FanblockError) as caught:
        let_in(
            "tabs: {slits: {front: [40%]}, shape: square}",
            gusset(edge="", at="", depth="", through="[[16%, hem], [22%, waist - 20 mm]]"),
        )
    assert str(caught.value).partition(": ")[2] == (
        "step 8 (gusset) › “bust gusset” › on this body it crosses a slit between tabs. Move one of the two."
    )


GORE = {"name": "hip gore", "edge": "hem", "at": "40%", "depth": "", "to": "waist", "width": "50 mm"}
"""A gore let into a slit of the front from the waist down to the hem."""


def test_a_gore_between_tabs_by_hand() -> None:
    """It parts the hem into two tabs as a slit does: corners are rounded but where the gore is sewn in. The slit, from waist
    to hem, is 90 mm long; with 6 mm turned in either side its sides are √(90² + 6²) mm.
    """
    pattern = let_in(gusset(**GORE), "tabs: {slits: {}, corner: 12 mm}")
    assert failed(pattern) == []
    front, piece = pattern.by_name["front"], pattern.by_name["hip gore"]
    for side in ("front side", "back side"):
        assert piece.edge(side).curve.length_mm == pytest.approx(np.hypot(90.0, 6.0), abs=0.3)
        assert front.edge(f"hip gore {side}").curve.length_mm == pytest.approx(
            piece.edge(side).curve.length_mm, abs=1e-9
        )
    first, second = front.edge("hem 1").curve, front.edge("hem 2").curve
    assert np.allclose(first.end, front.edge("hip gore front side").curve.start)
    assert np.allclose(second.start, front.edge("hip gore back side").curve.end)
    seam = front.edge("side seam below waist").curve  # the corner of 12 mm is cut off it
    assert np.hypot(*(second.end - seam.start)) == pytest.approx(0.0, abs=1e-6)
    assert abs(float(second.end_tangent @ seam.start_tangent)) == pytest.approx(1.0, abs=1e-3)
    assert abs(float(second.start_tangent @ front.edge("hip gore back side").curve.end_tangent)) < 0.2
    waist = next(girth for girth in pattern.girths if girth.name == "waist")
    assert waist.let_in_mm == 0.0  # it begins there


def test_tabs_may_have_slits_beside_a_gore() -> None:
    """Shares count along all of the hem: at 20 % in the first of two parts, at 70 % in the second, its tabs numbered on."""
    pattern = let_in(gusset(**GORE), "tabs: {slits: {front: [20%, 70%]}, corner: 8 mm}")
    assert failed(pattern) == []
    front = pattern.by_name["front"]
    assert [edge.name for edge in front.edges if edge.kind == "hem"] == ["hem 1", "hem 2", "hem 3", "hem 4"]
    assert [slit.name for slit in front.slits] == ["hip gore", "", ""]
    cloth = Polygon(front.loop())
    assert cloth.is_valid
    for slit in front.slits[1:]:
        assert LineString([slit.start, slit.end]).length == pytest.approx(90.0 - 8.0, abs=2.5)  # less the corner
        assert cloth.buffer(0.1).contains(LineString([slit.start, slit.end]))


def test_what_is_let_in_between_tabs_is_counted_over_the_hip() -> None:
    """A gore of 50 mm on either half adds 100 mm to what the tabs make."""
    without = let_in("tabs: {slits: {front: [40%]}, shape: square}")
    gored = let_in(gusset(**GORE), "tabs: {slits: {back: [50%]}, shape: square}")
    one, other = (
        next(finding for finding in each.findings if finding.code == "hips-open") for each in (without, gored)
    )
    assert one.number - other.number == pytest.approx(100.0, abs=2.0)
    assert "the tabs and what is let in between them make" in other.says


def test_a_gore_where_a_slit_between_tabs_is_asked_is_refused() -> None:
    """There would be nothing of a tab between them."""
    with pytest.raises(FanblockError) as caught:
        let_in(gusset(**GORE), "tabs: {slits: {front: [40%]}, shape: square}")
    assert str(caught.value).partition(": ")[2].startswith("step 8 (tabs) › slits › front › a tab would be ")


def test_a_hem_parted_by_a_dart_is_not_cut_into_tabs() -> None:
    """A hem in parts by anything but a piece let in."""
    dart = "dart: {name: hem dart, through: [[20%, hem], [20%, 40%]], take: 10 mm}"
    with pytest.raises(FanblockError) as caught:
        made(recipe(GAP, TOP, HEM, SEAM, dart, RED, TWO, "tabs: {slits: {front: [20%]}, shape: square}"))
    assert str(caught.value).partition(": ")[2] == (
        "step 8 (tabs) › slits › front › the hem of this panel is in parts already, by a dart or tabs. "
        "Put `tabs` before what cuts the hem."
    )


STATIC = {
    "no panel": (
        "gusset: {name: g, width: 4 cm, edge: top edge, at: 40%, depth: 1 dm}".replace("1 dm", "10 cm"),
        "step 7 (gusset) › panel › is missing. Say which panel is slit, or `in seam`.",
    ),
    "a panel that is not there": (
        gusset(panel="side"),
        "step 7 (gusset) › panel › there is no panel “side” in `separate` (step 6). Legal here: back, front.",
    ),
    "no place": (
        gusset(at=""),
        "step 7 (gusset) › through › is missing, and `edge`, `at` and `depth` (or `to`) are not all there. "
        "Place the slit in one way.",
    ),
    "two ways to place it": (
        gusset(through="[[20%, top edge], [20%, 40%]]"),
        "step 7 (gusset) › through › stands beside `edge`, `at`, `depth` or `to`. Place the slit in one way.",
    ),
    "how long and where to": (
        gusset(to="waist"),
        "step 7 (gusset) › to › stands beside `depth`. Keep one: how long the slit is, or where it ends.",
    ),
    "three places": (
        gusset(edge="", at="", depth="", through="[[20%, top edge], [20%, 60%], [20%, 40%]]"),
        "step 7 (gusset) › through › got 3 places, needs 2. Give the place at the edge and the slit's end.",
    ),
    "a slit in a seam": (
        gusset(in_seam="side seam"),
        "step 7 (gusset) › panel › stands beside `in seam`, where nothing is slit. Take it out.",
    ),
    "a seam that is not there": (
        "gusset: {name: gore, in seam: side back, width: 60 mm}",
        "step 7 (gusset) › in seam › there is no seam “side back”. Did you mean “side seam”?",
    ),
    "the name of a panel": (
        gusset(name="back"),
        "step 7 (gusset) › there is a panel “back” already. Give every piece a name of its own.",
    ),
}


@pytest.mark.parametrize("slip", STATIC)
def test_words_that_make_no_gusset(slip: str) -> None:
    """What is wrong in the recipe is told before anything is drawn."""
    step, says = STATIC[slip]
    with pytest.raises(FanblockError) as caught:
        let_in(step)
    lines = [text.partition(": ")[2] for text in str(caught.value).splitlines()]
    assert says in lines


def test_a_gore_needs_an_open_seam_and_stands_before_tabs() -> None:
    """A seam sewn to the hem has no room for one; tabs would have cut its corners off."""
    seams = (side_front(below_waist="open"), side_back())
    with pytest.raises(FanblockError) as caught:
        made(recipe(GAP, TOP, HEM, *seams, RED, THREE, "gusset: {name: gore, in seam: side back, width: 6 cm}"))
    assert str(caught.value).partition(": ")[2] == (
        "step 8 (gusset) › in seam › the seam “side back” is not open below the waist, where a gore could be let in. "
        "Say `below waist: open` in that seam."
    )
    with pytest.raises(FanblockError) as caught:
        let_in("tabs: {slits: {front: 1}}", "gusset: {name: gore, in seam: side seam, width: 6 cm}")
    assert str(caught.value).partition(": ")[2] == (
        "step 8 (gusset) › stands after `tabs` (step 7), which rounds the corners it is sewn to. Move it before that step."
    )
